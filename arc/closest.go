package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A foot is where a point q stands to a segment's whole line or circle. With x
// and y the place of q along the chord from its middle and to its right, the
// tangent at the foot is turned left from the chord by the angle φ that has
//
//	tan φ = a/b, a = 4kx, b = 4ky + c(1 − k²)
//
// for k = tan(turn/4) and c the chord. Nothing here has a radius in it.
type foot struct {
	s       Segment
	c, x, y float64
	u       r2.Vec // along the chord
	a, b, h float64
}

func (s Segment) foot(q r2.Vec) foot {
	f := foot{s: s, c: s.Chord()}
	f.u = r2.Scale(1/f.c, r2.Sub(s.B, s.A))
	v := r2.Vec{X: q.X - s.A.X/2 - s.B.X/2, Y: q.Y - s.A.Y/2 - s.B.Y/2}
	f.x, f.y = r2.Dot(f.u, v), -r2.Cross(f.u, v)
	f.a, f.b, f.h = 0, f.c, f.c
	if k := s.K; k != 0 {
		f.a, f.b = 4*k*f.x, 4*k*f.y+f.c*(1-k)*(1+k)
		f.h = math.Sqrt(f.a*f.a + f.b*f.b)
	}
	return f
}

// on reports whether the foot lies on the segment: |φ| <= turn/2, which is
// |tan(φ/2)| <= |k| with tan(φ/2) = a/(h + b).
func (f *foot) on() bool { return 4*math.Abs(f.x) <= f.h+f.b }

// point returns the foot. From the middle of the arc it is reached by a chord
// c(1+k²)x/(h·cos(φ/2)) long that leaves at φ/2; the center, for which all of
// the circle is as near, has the middle for its foot.
func (f *foot) point() r2.Vec {
	m := f.s.Mid()
	if f.h == 0 {
		return m
	}
	k := f.s.K
	g := f.c * (1 + k*k) / f.h
	up := 0.0
	switch {
	case f.b >= 0:
		up = f.x * (f.a / (f.h + f.b))
	case k != 0:
		up = (f.h - f.b) / (4 * k)
	}
	return r2.Add(m, r2.Scale(g, r2.Vec{X: f.x*f.u.X - up*f.u.Y, Y: f.x*f.u.Y + up*f.u.X}))
}

// length returns the length from the middle to the foot, c(1+k²)/(4k)·φ.
func (f *foot) length() float64 {
	k := f.s.K
	switch {
	case f.h == 0:
		return 0
	case f.b > 0 && math.Abs(f.a) < 1e-9*f.h: // φ is a/h to the last bit
		return f.c * (1 + k*k) * (f.x / f.h)
	}
	return f.c * (1/k + k) / 4 * math.Atan2(f.a, f.b)
}

// left returns how far q stands to the left of the line or circle:
// 2F/(1 + √(1 − 2κF)) with F = w − κ(x² + w²)/2, w the place of q to the left
// of the arc's middle and κ the curvature.
func (f *foot) left() float64 {
	if f.s.K == 0 {
		return -f.y
	}
	k := f.s.K
	w, bend := k*f.c/2-f.y, 4*k/(f.c*(1+k*k))
	g := w - bend*(f.x*f.x+w*w)/2
	return 2 * g / (1 + math.Sqrt(math.Max(0, 1-2*bend*g)))
}

// Project returns the foot of q on the whole line or circle that the segment
// is a piece of: its length along from A, which is below 0 or above the
// segment's length where the foot is no point of it, and how far q stands to
// the left of it in mm, negative on the right. On a circle the length is
// within half a turn of the middle of the arc. A segment of no length gives 0
// and the distance from A.
func (s Segment) Project(q r2.Vec) (l, left float64) {
	if s.A == s.B {
		return 0, math.Hypot(q.X-s.A.X, q.Y-s.A.Y)
	}
	f := s.foot(q)
	return s.Length()/2 + f.length(), f.left()
}

// Closest returns the length along the segment at which it comes nearest to q,
// and the point there. The center of an arc, being as near to all of it, gives
// its middle.
func (s Segment) Closest(q r2.Vec) (l float64, p r2.Vec) {
	if s.A == s.B {
		return 0, s.A
	}
	f := s.foot(q)
	length := s.Length()
	if f.on() {
		return length/2 + f.length(), f.point()
	}
	if r2.Norm2(r2.Sub(q, s.A)) <= r2.Norm2(r2.Sub(q, s.B)) {
		return 0, s.A
	}
	return length, s.B
}

// Distance returns the distance of q from the nearest point of the segment.
func (s Segment) Distance(q r2.Vec) float64 {
	if s.A == s.B {
		return math.Hypot(q.X-s.A.X, q.Y-s.A.Y)
	}
	f := s.foot(q)
	if f.on() {
		return math.Abs(f.left())
	}
	return math.Min(norm(q.X-s.A.X, q.Y-s.A.Y), norm(q.X-s.B.X, q.Y-s.B.Y))
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
	if len(p.V) == 0 {
		return math.NaN()
	}
	d := norm(q.X-p.V[0].P.X, q.Y-p.V[0].P.Y)
	for i := range p.NumSegments() {
		d = math.Min(d, p.Segment(i).Distance(q))
	}
	return d
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
