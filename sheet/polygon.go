package sheet

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// grown returns polygons that hold a region grown by d >= 0: the outer one and
// those of its holes that are left. Edges are moved one by one, which is exact;
// where they get in each other's way the true parallel is taken, and where that
// fails too the convex hull, without holes.
func grown(r arc.Region, d, tol float64) (outer []r2.Vec, holes [][]r2.Vec) {
	outer, ok := grownLoop(r.Outer, d, tol)
	for _, h := range r.Holes {
		p, fine := grownLoop(h, d, tol)
		holes, ok = append(holes, p), ok && fine
	}
	if ok {
		return outer, holes
	}
	if outer, holes, ok = parallel(r, d, tol); ok {
		return outer, holes
	}
	outer, _ = outset(hull(around(r.Outer, tol)), d)
	return outer, nil
}

// parallel is grown by the true parallel of the region. Its rounding is added
// to the distance.
func parallel(r arc.Region, d, tol float64) (outer []r2.Vec, holes [][]r2.Vec, ok bool) {
	const slack = 2e-7
	out, err := r.Offset(d+slack, arc.OffsetOptions{Join: arc.MiterJoin, MiterLimit: 1.5, Tolerance: slack})
	if err != nil || len(out) != 1 {
		return nil, nil, false
	}
	if outer = around(out[0].Outer, tol); !simple(outer) {
		return nil, nil, false
	}
	for _, h := range out[0].Holes {
		if p := around(h, tol); simple(p) && shoelace(p) < 0 {
			holes = append(holes, p)
		}
	}
	return outer, holes, true
}

// grownLoop moves a loop to its right by d >= 0; ok is false where the result
// crosses itself or turned over.
func grownLoop(l arc.Path, d, tol float64) (p []r2.Vec, ok bool) {
	flat := around(l, tol)
	p, ok = outset(flat, d)
	return p, ok && len(p) >= 3 && (shoelace(p) > 0) == (shoelace(flat) > 0) && simple(p)
}

// around returns a polygon on the right of a loop, away from its material, and
// within tol of it: tangents of arcs that turn left, chords of the others.
func around(l arc.Path, tol float64) []r2.Vec {
	var p []r2.Vec
	add := func(v r2.Vec) {
		if len(p) == 0 || p[len(p)-1] != v {
			p = append(p, v)
		}
	}
	for i := range l.NumSegments() {
		s := l.Segment(i)
		add(s.A)
		if s.K == 0 || s.Chord() == 0 {
			continue
		}
		n := facets(s, tol)
		from := s.A
		for j := 1; j <= n; j++ {
			to, _ := s.At(s.Length() * float64(j) / float64(n))
			if j == n {
				to = s.B
			}
			if s.K > 0 {
				add(tangentCorner(from, to, float64(s.Angle())/float64(n)))
			} else {
				add(to)
			}
			from = to
		}
	}
	for len(p) > 1 && p[len(p)-1] == p[0] {
		p = p[:len(p)-1]
	}
	return straightened(p)
}

// facets returns into how many pieces to cut an arc so that the tangents stay
// within tol: R(sec(x/2) − 1), x being the turn of a piece, at most 60 degrees.
func facets(s arc.Segment, tol float64) int {
	x := math.Min(math.Pi/3, 2*math.Acos(1/(1+tol/s.Radius())))
	return int(math.Min(512, math.Ceil(math.Abs(float64(s.Angle()))/x-1e-9)))
}

// tangentCorner returns where the tangents at the ends of an arc meet.
func tangentCorner(a, b r2.Vec, turn float64) r2.Vec {
	h := math.Tan(turn/2) / 2
	d := r2.Sub(b, a)
	return r2.Vec{X: (a.X+b.X)/2 + h*d.Y, Y: (a.Y+b.Y)/2 - h*d.X}
}

// straightened drops the vertices at which a polygon goes straight on, to
// within rounding.
func straightened(p []r2.Vec) []r2.Vec {
	var out []r2.Vec
	n := len(p)
	for i, v := range p {
		a, b := r2.Sub(v, p[(i+n-1)%n]), r2.Sub(p[(i+1)%n], v)
		if math.Abs(r2.Cross(a, b)) <= 1e-13*r2.Norm(a)*r2.Norm(b) && r2.Dot(a, b) > 0 {
			continue
		}
		out = append(out, v)
	}
	return out
}

// outset moves every edge of p by d to its right and joins them: at sharp
// corners to the left by two more edges outside the arc of radius d. It is not
// ok where an edge turns round, having no length left.
func outset(p []r2.Vec, d float64) (out []r2.Vec, ok bool) {
	if d == 0 {
		return p, true
	}
	n := len(p)
	first := make([]int, n) // the first point that stands for each vertex
	for i, v := range p {
		first[i] = len(out)
		a, b := r2.Unit(r2.Sub(v, p[(i+n-1)%n])), r2.Unit(r2.Sub(p[(i+1)%n], v))
		turn := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
		right := func(u r2.Vec) r2.Vec { return r2.Vec{X: d * u.Y, Y: -d * u.X} }
		if turn < 1.6 { // a right angle is mitered
			out = append(out, r2.Add(v, r2.Add(right(a), r2.Scale(d*math.Tan(turn/2), a))))
			continue
		}
		t := d * math.Tan(turn/4)
		out = append(out, r2.Add(v, r2.Add(right(a), r2.Scale(t, a))), r2.Add(v, r2.Sub(right(b), r2.Scale(t, b))))
	}
	for i := range p {
		j := (i + 1) % n
		moved := r2.Sub(out[first[j]], out[(first[j]+len(out)-1)%len(out)])
		if r2.Dot(moved, r2.Sub(p[j], p[i])) < 0 {
			return out, false
		}
	}
	return out, true
}

func shoelace(p []r2.Vec) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += r2.Cross(r2.Sub(p[i-1], p[0]), r2.Sub(p[i], p[0]))
	}
	return sum / 2
}

// simple reports whether no two edges of a polygon that are not neighbors
// touch, sweeping over x.
func simple(p []r2.Vec) bool {
	n := len(p)
	order := make([]int, n)
	low := make([]float64, n)
	for i := range p {
		order[i], low[i] = i, math.Min(p[i].X, p[(i+1)%n].X)
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(low[i], low[j]) })
	for k, i := range order {
		a, b := p[i], p[(i+1)%n]
		for _, j := range order[k+1:] {
			if low[j] > math.Max(a.X, b.X) {
				break
			}
			if d := (j - i + n) % n; d > 1 && d < n-1 && touch(a, b, p[j], p[(j+1)%n]) {
				return false
			}
		}
	}
	return true
}

func touch(a, b, c, d r2.Vec) bool {
	if math.Max(a.X, b.X) < math.Min(c.X, d.X) || math.Max(c.X, d.X) < math.Min(a.X, b.X) ||
		math.Max(a.Y, b.Y) < math.Min(c.Y, d.Y) || math.Max(c.Y, d.Y) < math.Min(a.Y, b.Y) {
		return false
	}
	side := func(a, b, p r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) }
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}

// hull returns the convex hull, counter-clockwise (Andrew 1979).
func hull(p []r2.Vec) []r2.Vec {
	p = sortedPoints(p)
	var h []r2.Vec
	for range 2 {
		from := len(h)
		for _, v := range p {
			for len(h) >= from+2 && r2.Cross(r2.Sub(h[len(h)-1], h[len(h)-2]), r2.Sub(v, h[len(h)-2])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, v)
		}
		h = h[:len(h)-1]
		slices.Reverse(p)
	}
	return h
}
