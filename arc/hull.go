package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/exact"
)

// ConvexHull returns the smallest convex closed path around the paths, run
// counter-clockwise. Stretches of arcs that bound it stay arcs. It is an error
// if there is no path, or all lies on one line.
func ConvexHull(paths ...Path) (Path, error) {
	const fn = "arc.ConvexHull"
	var b []bulge
	for _, p := range paths {
		if err := p.Check(); err != nil {
			return Path{}, err
		}
		if l := leastTolerance(p.Bounds(), 0) / leastTol; !(l < maxExtent) {
			return Path{}, &ParamError{fn, "extent", l, "mm", "below 1e140", ErrRange}
		}
		for i := range p.NumSegments() {
			b = appendBulges(b, p.Segment(i))
		}
	}
	if len(b) == 0 {
		return Path{}, &ParamError{fn, "paths", len(paths), "", "at least one", ErrEmpty}
	}
	b = outermost(b)
	hull := wrap(b)
	if len(hull.V) < 2 || thin(hull, 1e-14*hull.Length()) {
		return Path{}, &ParamError{fn, "paths", len(b), "points", "points off one line", ErrZeroArea}
	}
	return hull, nil
}

// A bulge is what may bound a hull: a point, or an arc, at the outward normals
// from n0 to n1 radians.
type bulge struct {
	p      r2.Vec // the point, or the center
	r      float64
	n0, n1 float64 // n1 - n0 < 2π; all around for a point
}

func (b *bulge) isArc() bool { return b.r > 0 }

// appendBulges appends the ends of a segment, and an arc as it bulges. An arc so
// flat that its center is lost counts as its middle point.
func appendBulges(out []bulge, s Segment) []bulge {
	point := func(p r2.Vec) { out = append(out, bulge{p: p}) }
	point(s.A)
	point(s.B)
	if s.K == 0 || s.A == s.B {
		return out
	}
	if math.Abs(s.K) < 1e-7 {
		point(s.Mid())
		return out
	}
	if s.K < 0 {
		s = s.Reverse()
	}
	h, turn := r2.Sub(s.B, s.A), float64(s.Angle())
	mid := math.Atan2(-h.X, h.Y)
	return append(out, bulge{s.Center(), s.Radius(), mid - turn/2, mid + turn/2})
}

// outermost drops what lies inside the polygon hull of a few points on each
// bulge: it cannot bound the hull.
func outermost(b []bulge) []bulge {
	var pts []r2.Vec
	for i := range b {
		// Of an arc its middle; its ends are points of their own.
		pts = append(pts, b[i].at((b[i].n0+b[i].n1)/2))
	}
	hull := hullOf(pts)
	if len(hull) < 3 {
		return b
	}
	return slices.DeleteFunc(b, func(x bulge) bool {
		if x.isArc() {
			return insideBy(hull, x.p, x.r)
		}
		return insideBy(hull, x.p, 0)
	})
}

// insideBy reports whether p is more than r inside a convex polygon, beyond the
// doubt of rounding.
func insideBy(hull []r2.Vec, p r2.Vec, r float64) bool {
	a := hull[len(hull)-1]
	for _, b := range hull {
		h := r2.Sub(b, a)
		if r2.Cross(h, r2.Sub(p, a)) <= (r+1e-12*(r2.Norm(h)+r2.Norm(p)+r))*r2.Norm(h) {
			return false
		}
		a = b
	}
	return true
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

// ends reports whether p is the end of an arc at the normal n.
func (b *bulge) ends(p r2.Vec, n float64) bool {
	return near(p, b.at(n), 1e-13*(b.r+r2.Norm(b.p)))
}

// at returns the point with an outward normal at n radians.
func (b *bulge) at(n float64) r2.Vec {
	if !b.isArc() {
		return b.p
	}
	sin, cos := math.Sincos(n)
	return r2.Vec{X: b.p.X + b.r*cos, Y: b.p.Y + b.r*sin}
}

// reach returns how far the bulge goes in the direction n, if it faces it.
func (b *bulge) reach(n float64) (float64, bool) {
	if b.isArc() && turnTo(b.n0, n) > b.n1-b.n0 {
		return math.Inf(-1), false
	}
	sin, cos := math.Sincos(n)
	return b.p.X*cos + b.p.Y*sin + b.r, true
}

// turnTo returns the turn to the left from direction a to b, in [0, 2π).
func turnTo(a, b float64) float64 {
	t := math.Mod(b-a, 2*math.Pi)
	if t < 0 {
		t += 2 * math.Pi
	}
	return t
}

// wrap goes once around the bulges: from each along the line, tangent to it
// and to the next, that the least turn of the outward normal leads to.
func wrap(b []bulge) Path {
	start := math.Inf(-1)
	cur := 0
	for i := range b {
		// Rightmost, and of those the topmost, so that the normal 0 is its own.
		if x, ok := b[i].reach(0); ok && (x > start || x == start && b[i].p.Y > b[cur].p.Y) {
			cur, start = i, x
		}
	}
	hull := Path{Closed: true}
	add := func(p r2.Vec, k float64) {
		if n := len(hull.V); n > 0 && near(hull.V[n-1].P, p, 1e-12*(1+r2.Norm(p))) {
			hull.V[n-1].K = k
			return
		}
		hull.V = append(hull.V, Vertex{p, k})
	}
	at := 0.0
	for range 2*len(b) + 4 {
		next, turn := takeover(b, cur, at)
		end := math.Min(at+turn, 2*math.Pi)
		if b[cur].isArc() && end > at {
			add(b[cur].at(at), math.Tan((end-at)/4))
		}
		add(b[cur].at(end), 0)
		at += turn
		if next < 0 || at >= 2*math.Pi {
			break
		}
		cur = next
	}
	if n := len(hull.V); n > 1 && near(hull.V[n-1].P, hull.V[0].P, 1e-12*(1+r2.Norm(hull.V[0].P))) {
		hull.V = hull.V[:n-1]
	}
	return hull
}

// takeover returns the bulge that takes over from cur after the least turn from the
// normal at, or -1 if none does in a whole turn.
func takeover(b []bulge, cur int, at float64) (next int, turn float64) {
	next, turn = -1, 2*math.Pi
	if b[cur].isArc() {
		turn = turnTo(at, b[cur].n1) + 1e-12
	}
	far := 0.0
	for i := range b {
		if i == cur {
			continue
		}
		n, ok := b[cur].handover(&b[i])
		if !ok {
			continue
		}
		t := turnTo(at, n)
		if t > 2*math.Pi-1e-9 {
			t = 0
		}
		if b[i].isArc() && n != b[i].n0 && turnTo(b[i].n0, n) > b[i].n1-b[i].n0 {
			continue
		}
		d := r2.Norm2(r2.Sub(b[i].at(n), b[cur].at(n)))
		if t < turn-1e-12 || t <= turn+1e-12 && (next < 0 || d > far) {
			next, turn, far = i, t, d
		}
	}
	return next, turn
}

// handover returns the normal of the line that touches x and then y, both on
// its left: where y begins to reach farther than x.
func (x *bulge) handover(y *bulge) (n float64, ok bool) {
	// An arc and its own ends would ask for the arc cosine of nearly 1.
	switch {
	case x.isArc() && !y.isArc() && x.ends(y.p, x.n1):
		return x.n1, true
	case y.isArc() && !x.isArc() && y.ends(x.p, y.n0):
		return y.n0, true
	case x.isArc() && !y.isArc() && x.ends(y.p, x.n0), y.isArc() && !x.isArc() && y.ends(x.p, y.n1):
		return 0, false
	}
	d := r2.Sub(y.p, x.p)
	c := (x.r - y.r) / math.Hypot(d.X, d.Y)
	if !(math.Abs(c) <= 1) {
		return 0, false
	}
	return math.Atan2(d.Y, d.X) - math.Acos(c), true
}
