package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Closest returns the length along the segment at which it comes nearest to q,
// and the point there. The center of an arc, being as near to all of it, gives
// its middle.
//
// With x and y the place of q along the chord from its middle and to its
// right, the foot stands at the part φ/a of half the arc from its middle, where
// a is half the turn and tan φ = 4kx / (4ky + c(1 − k²)).
func (s Segment) Closest(q r2.Vec) (l float64, p r2.Vec) {
	c, length := s.Chord(), s.Length()
	if c == 0 {
		return 0, s.A
	}
	u := r2.Scale(1/c, r2.Sub(s.B, s.A))
	v := r2.Sub(q, r2.Scale(0.5, r2.Add(s.A, s.B)))
	x, y := r2.Dot(u, v), -r2.Cross(u, v)
	part := 2 * x / c
	if k := s.K; k != 0 {
		part = math.Atan2(4*k*x, 4*k*y+c*(1-k)*(1+k)) / (2 * math.Atan(k))
	}
	if math.Abs(part) < 1 {
		l = length / 2 * (1 + part)
		p, _ = s.At(l)
		return l, p
	}
	if r2.Norm2(r2.Sub(q, s.A)) <= r2.Norm2(r2.Sub(q, s.B)) {
		return 0, s.A
	}
	return length, s.B
}

// Closest returns the length along the path at which it comes nearest to q,
// and the point there; of equals the first. An empty path gives NaN.
func (p Path) Closest(q r2.Vec) (l float64, pt r2.Vec) {
	nan := math.NaN()
	l, pt = nan, r2.Vec{X: nan, Y: nan}
	if len(p.V) > 0 {
		l, pt = 0, p.V[0].P
	}
	best, sum := r2.Norm(r2.Sub(q, pt)), 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		at, foot := s.Closest(q)
		if d := r2.Norm(r2.Sub(q, foot)); d < best {
			best, l, pt = d, sum+at, foot
		}
		sum += s.Length()
	}
	return l, pt
}

// Distance returns the distance of q from the path, NaN where it is empty.
func (p Path) Distance(q r2.Vec) float64 {
	_, pt := p.Closest(q)
	return r2.Norm(r2.Sub(q, pt))
}

// Distance returns how far q is outside the region: its distance from the
// boundary, negative where q lies inside.
func (r Region) Distance(q r2.Vec) float64 {
	d := r.Outer.Distance(q)
	for _, h := range r.Holes {
		d = math.Min(d, h.Distance(q))
	}
	if r.Locate(q) == Inside {
		return -d
	}
	return d
}
