package arc

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/exact"
)

// ConvexHull returns the smallest convex closed path around the paths, run
// counter-clockwise. Stretches of arcs that bound it stay arcs. It is an error
// if there is no path, or all lies on one line.
//
// The hulls of halves are merged by how far each reaches in every direction:
// where they change over a line touches both.
func ConvexHull(paths ...Path) (Path, error) {
	return ConvexHullContext(context.Background(), paths...)
}

// ConvexHullContext is [ConvexHull], stopped with the context's error when ctx
// is done.
func ConvexHullContext(ctx context.Context, paths ...Path) (Path, error) {
	h, err := newHull(ctx, "arc.ConvexHull", paths)
	if err != nil {
		return Path{}, err
	}
	return h.path, nil
}

// A hull is the convex hull of paths by its support function: how far it
// reaches in every direction.
type hull struct {
	ctx    context.Context
	center r2.Vec // which the bulges are about
	bulge  []bulge
	reach  []reach
	path   Path
}

// A reach says which bulge is outermost from a direction, in radians from 0 to
// 2π, up to that of the next.
type reach struct {
	from  float64
	bulge int32
}

// A bulge is what may bound a hull: a point, or an arc turning left from a to
// b, at the outward normals from n0 to n1 radians.
type bulge struct {
	p      r2.Vec // the point, or the center
	r      float64
	n0, n1 float64 // n1 - n0 < 2π
	a, b   r2.Vec  // as given, not about the center
}

func (b *bulge) isArc() bool { return b.r > 0 }

func newHull(ctx context.Context, fn string, paths []Path) (*hull, error) {
	h := &hull{ctx: ctx}
	var pts []r2.Vec
	for _, p := range paths {
		if err := p.Usable(); err != nil {
			return nil, err
		}
		if l := leastTolerance(p.Bounds(), 0) / leastTol; !(l < maxExtent) {
			return nil, &ParamError{fn, "extent", l, "mm", "below 1e140", ErrRange}
		}
		for i := range p.NumSegments() {
			pts = appendHullPoints(pts, p.Segment(i))
		}
	}
	if len(pts) == 0 {
		return nil, &ParamError{fn, "paths", len(paths), "", "at least one", ErrEmpty}
	}
	box := boundsOf(paths)
	h.center = r2.Scale(0.5, r2.Add(box.Min, box.Max))
	corners := hullOf(pts)
	for _, p := range corners {
		h.bulge = append(h.bulge, bulge{p: r2.Sub(p, h.center), a: p, b: p})
	}
	for _, p := range paths {
		for i := range p.NumSegments() {
			h.addArc(p.Segment(i))
		}
	}
	if len(corners) > 0 {
		h.reach = h.merge(ofCorners(corners), h.all(len(corners), len(h.bulge)))
		h.path = h.outline()
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if len(h.path.V) < 2 || thin(h.path, 1e-14*h.path.Length()) {
		return nil, &ParamError{fn, "paths", len(pts), "points", "points off one line", ErrZeroArea}
	}
	return h, nil
}

// leastHullTurn is K below which an arc's center is lost: there its middle
// stands for it.
const leastHullTurn = 1e-7

func appendHullPoints(pts []r2.Vec, s Segment) []r2.Vec {
	pts = append(pts, s.A, s.B)
	if s.K != 0 && math.Abs(s.K) < leastHullTurn {
		pts = append(pts, s.Mid())
	}
	return pts
}

func (h *hull) addArc(s Segment) {
	if math.Abs(s.K) < leastHullTurn || s.A == s.B {
		return
	}
	if s.K < 0 {
		s = s.Reverse()
	}
	a, b := s.A, s.B
	s.A, s.B = r2.Sub(a, h.center), r2.Sub(b, h.center)
	d, turn := r2.Sub(s.B, s.A), float64(s.Angle())
	mid := math.Atan2(-d.X, d.Y)
	h.bulge = append(h.bulge, bulge{s.Center(), s.Radius(), mid - turn/2, mid + turn/2, a, b})
}

// ofCorners returns the reach of a polygon that is convex.
func ofCorners(corners []r2.Vec) []reach {
	n := len(corners)
	out := make([]reach, n)
	least := 0
	for i := range corners {
		d := r2.Sub(corners[i], corners[(i+n-1)%n])
		out[i] = reach{normalAngle(math.Atan2(-d.X, d.Y)), int32(i)}
		if out[i].from < out[least].from {
			least = i
		}
	}
	out = slices.Concat(out[least:], out[:least])
	return fromZero(out)
}

// fromZero lets what reaches over the direction 0 begin there too.
func fromZero(r []reach) []reach {
	if r[0].from == 0 {
		return r
	}
	return slices.Insert(r, 0, reach{0, r[len(r)-1].bulge})
}

// normalAngle returns x within [0, 2π).
func normalAngle(x float64) float64 {
	if x = math.Mod(x, 2*math.Pi); x < 0 {
		x += 2 * math.Pi
	}
	if x >= 2*math.Pi {
		return 0
	}
	return x
}

// nothing is the bulge that is nowhere outermost.
const nothing = -1

// all returns the reach of the bulges from i to j, which are arcs: of two
// halves, merged.
func (h *hull) all(i, j int) []reach {
	if j <= i || h.ctx.Err() != nil {
		return []reach{{0, nothing}}
	}
	if j == i+1 {
		b := &h.bulge[i]
		from, to := normalAngle(b.n0), normalAngle(b.n1)
		if from < to {
			return fromZero([]reach{{from, int32(i)}, {to, nothing}})
		}
		return fromZero([]reach{{to, nothing}, {from, int32(i)}})
	}
	m := (i + j) / 2
	return h.merge(h.all(i, m), h.all(m, j))
}

// merge returns in every direction the outer one of two reaches.
func (h *hull) merge(e, f []reach) []reach {
	out := make([]reach, 0, len(e)+len(f))
	put := func(from float64, b int32) {
		if n := len(out); n == 0 || out[n-1].bulge != b {
			out = append(out, reach{from, b})
		}
	}
	for i, j, at := 0, 0, 0.0; at < 2*math.Pi; {
		end := 2 * math.Pi
		if i+1 < len(e) {
			end = min(end, e[i+1].from)
		}
		if j+1 < len(f) {
			end = min(end, f[j+1].from)
		}
		if end > at {
			h.outer(e[i].bulge, f[j].bulge, at, end, put)
		}
		at = end
		for i+1 < len(e) && e[i+1].from <= at {
			i++
		}
		for j+1 < len(f) && f[j+1].from <= at {
			j++
		}
	}
	return out
}

// outer puts the outer one of two bulges at the directions from at to end, over
// which both reach. They change over where a line touches both.
func (h *hull) outer(i, j int32, at, end float64, put func(from float64, b int32)) {
	switch {
	case i == nothing || j == nothing:
		put(at, max(i, j))
		return
	case i == j:
		put(at, i)
		return
	}
	x, y := &h.bulge[i], &h.bulge[j]
	switch {
	case x.isArc() && y.endsOf(x):
		put(at, i)
		return
	case y.isArc() && x.endsOf(y):
		put(at, j)
		return
	}
	// x reaches farther than y by d·cos(n − φ) + r.
	v, r := r2.Sub(x.p, y.p), x.r-y.r
	d := math.Hypot(v.X, v.Y)
	size := math.Abs(x.p.X) + math.Abs(x.p.Y) + x.r + y.r
	if d+math.Abs(r) <= 1e-14*size {
		put(at, i)
		return
	}
	var change [4]float64
	cuts := append(change[:0], at)
	phi := math.Atan2(v.Y, v.X)
	if math.Abs(r) < d {
		a := math.Acos(-r / d)
		n, m := normalAngle(phi-a), normalAngle(phi+a)
		for _, c := range [2]float64{min(n, m), max(n, m)} {
			if c > at && c < end {
				cuts = append(cuts, c)
			}
		}
	}
	for k, c := range cuts {
		to := end
		if k+1 < len(cuts) {
			to = cuts[k+1]
		}
		if d*math.Cos((c+to)/2-phi)+r >= 0 {
			put(c, i)
		} else {
			put(c, j)
		}
	}
}

// endsOf reports whether b is a point that is an end of the arc x.
func (b *bulge) endsOf(x *bulge) bool { return !b.isArc() && (b.a == x.a || b.a == x.b) }

// at returns the point of bulge i with an outward normal at n radians.
func (h *hull) at(i int32, n float64) r2.Vec {
	b := &h.bulge[i]
	const same = 1e-12
	switch {
	case !b.isArc() || math.Abs(math.Remainder(n-b.n0, 2*math.Pi)) < same:
		return b.a
	case math.Abs(math.Remainder(n-b.n1, 2*math.Pi)) < same:
		return b.b
	}
	sin, cos := math.Sincos(n)
	return r2.Vec{X: h.center.X + b.p.X + b.r*cos, Y: h.center.Y + b.p.Y + b.r*sin}
}

// outline returns the hull as a path.
func (h *hull) outline() Path {
	r := h.reach
	out := Path{Closed: true}
	add := func(p r2.Vec, k float64) {
		if n := len(out.V); n > 0 && near(out.V[n-1].P, p, 1e-12*(1+r2.Norm(r2.Sub(p, h.center)))) {
			out.V[n-1].K = k
			return
		}
		out.V = append(out.V, Vertex{p, k})
	}
	n := len(r)
	if n > 1 && r[0].bulge == r[n-1].bulge {
		r = slices.Clone(r[1:])
		n--
	}
	for i, x := range r {
		to := r[0].from + 2*math.Pi
		if i+1 < n {
			to = r[i+1].from
		}
		if h.bulge[x.bulge].isArc() && to > x.from {
			add(h.at(x.bulge, x.from), tangent((to-x.from)/4))
		}
		add(h.at(x.bulge, to), 0)
	}
	if m := len(out.V); m > 1 && near(out.V[m-1].P, out.V[0].P, 1e-12*(1+r2.Norm(r2.Sub(out.V[0].P, h.center)))) {
		out.V = out.V[:m-1]
	}
	return out
}

// hullOf returns the corners of the convex hull of points, counter-clockwise,
// by A. M. Andrew's monotone chain, 1979.
func hullOf(pts []r2.Vec) []r2.Vec {
	pts = slices.Clone(pts)
	slices.SortFunc(pts, func(a, b r2.Vec) int {
		if a.X != b.X {
			return sign(a.X - b.X)
		}
		return sign(a.Y - b.Y)
	})
	pts = slices.Compact(pts)
	var out []r2.Vec
	for range 2 {
		base := len(out)
		for _, p := range pts {
			for len(out) > base+1 && exact.Orient(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1] // the other chain starts there
		slices.Reverse(pts)
	}
	return out
}
