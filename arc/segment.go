package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Segment is one piece of a path: from A to B along a line (K 0) or an
// arc, K = tan(turn/4), positive turning left.
type Segment struct {
	A, B r2.Vec
	K    float64
}

// Chord returns the distance from A to B.
func (s Segment) Chord() float64 { return norm(s.B.X-s.A.X, s.B.Y-s.A.Y) }

// norm is math.Hypot, three times as fast where the square of neither side
// leaves the range of full precision. Squares are rounded each for itself, so
// that every processor gives the same.
func norm(x, y float64) float64 {
	if q := float64(x*x) + float64(y*y); q > 1e-280 && q < 1e280 {
		return math.Sqrt(q)
	}
	return math.Hypot(x, y)
}

// Length returns the length along the segment.
func (s Segment) Length() float64 { return lengthOf(s.Chord(), s.K) }

// Sag returns how far the segment stands off the middle of its chord, in mm.
func (s Segment) Sag() float64 { return math.Abs(s.K) * s.Chord() / 2 }

// Angle returns the signed angle the segment turns through.
func (s Segment) Angle() Angle { return Angle(4 * math.Atan(s.K)) }

// Radius returns the radius, +Inf for a line.
func (s Segment) Radius() float64 {
	return Arc{s.Chord(), math.Abs(s.K)}.Radius()
}

// Curvature returns the signed curvature, 0 for a line.
func (s Segment) Curvature() float64 {
	c := s.Chord()
	if s.K == 0 || c == 0 {
		return 0
	}
	return 4 * s.K / (c * (1 + s.K*s.K))
}

// Center returns the center of the circle; a line has none and gives NaN.
func (s Segment) Center() r2.Vec {
	if s.K == 0 {
		return r2.Vec{X: math.NaN(), Y: math.NaN()}
	}
	// From mid-chord, (1-k²)/(4k) of the chord to the left.
	h := (1/s.K - s.K) / 4
	d := r2.Sub(s.B, s.A)
	return r2.Vec{X: (s.A.X+s.B.X)/2 - h*d.Y, Y: (s.A.Y+s.B.Y)/2 + h*d.X}
}

// Mid returns the point halfway along.
func (s Segment) Mid() r2.Vec {
	// A left turn stands off its chord to the right by k/2 of it.
	h := s.K / 2
	d := r2.Sub(s.B, s.A)
	return r2.Vec{X: (s.A.X+s.B.X)/2 + h*d.Y, Y: (s.A.Y+s.B.Y)/2 - h*d.X}
}

// At returns the point and the unit tangent at a length l from A. The chord
// from A to that point leaves A at half the turn made by then, and is
// l·sin(x)/x long, x being that half; no radius enters, so flat arcs are as
// exact as lines. A segment of no length gives A and a zero tangent.
func (s Segment) At(l float64) (p, tangent r2.Vec) {
	c := s.Chord()
	if c == 0 {
		return s.A, r2.Vec{}
	}
	u := r2.Scale(1/c, r2.Sub(s.B, s.A))
	if s.K == 0 {
		return r2.Add(s.A, r2.Scale(l, u)), u
	}
	turn := float64(s.Angle())
	x := l / s.Length() * turn / 2
	sinc := 1.0
	if x != 0 {
		sinc = math.Sin(x) / x
	}
	return r2.Add(s.A, r2.Scale(l*sinc, turned(u, x-turn/2))), turned(u, 2*x-turn/2)
}

// Bounds returns the exact axis-parallel extent.
func (s Segment) Bounds() r2.Box {
	b := r2.Box{
		Min: r2.Vec{X: math.Min(s.A.X, s.B.X), Y: math.Min(s.A.Y, s.B.Y)},
		Max: r2.Vec{X: math.Max(s.A.X, s.B.X), Y: math.Max(s.A.Y, s.B.Y)},
	}
	if s.K == 0 || s.A == s.B {
		return b
	}
	// With n the outward normal at the middle m, the circle reaches
	// m·d + R(1 − n·d) in a direction d, and 1 − n·d = |d−n|²/2 does not cancel;
	// it lies on the arc where the angle from n to d is at most half the turn.
	u := r2.Scale(1/s.Chord(), r2.Sub(s.B, s.A))
	n := r2.Vec{X: u.Y, Y: -u.X}
	if s.K < 0 {
		n = r2.Scale(-1, n)
	}
	k2 := s.K * s.K
	most := 4 * k2 / (1 + k2)
	over := func(d r2.Vec) (reach float64, ok bool) {
		q := r2.Norm2(r2.Sub(d, n))
		switch {
		case q > most:
			return 0, false
		case q == 0: // and the radius may be infinite
			return r2.Dot(s.Mid(), d), true
		}
		return r2.Dot(s.Mid(), d) + s.Radius()*q/2, true
	}
	if x, ok := over(r2.Vec{X: -1}); ok {
		b.Min.X = math.Min(b.Min.X, -x)
	}
	if y, ok := over(r2.Vec{Y: -1}); ok {
		b.Min.Y = math.Min(b.Min.Y, -y)
	}
	if x, ok := over(r2.Vec{X: 1}); ok {
		b.Max.X = math.Max(b.Max.X, x)
	}
	if y, ok := over(r2.Vec{Y: 1}); ok {
		b.Max.Y = math.Max(b.Max.Y, y)
	}
	return b
}

// Reverse returns the same piece run from B to A.
func (s Segment) Reverse() Segment { return Segment{s.B, s.A, -s.K} }

// turned returns v turned left by x radians.
func turned(v r2.Vec, x float64) r2.Vec {
	sin, cos := math.Sincos(x)
	return r2.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y}
}
