package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// needPoints returns a *ParamError unless every coordinate is finite.
func needPoints(fn string, points ...r2.Vec) error {
	for _, p := range points {
		for _, x := range [2]float64{p.X, p.Y} {
			if err := needFinite(fn, "point", x, "mm"); err != nil {
				return err
			}
		}
	}
	return nil
}

// ThreePoints returns the arc from a through m to b; a line where m lies
// straight between them. It is an error where two points are the same or m
// lies on the line outside a and b, where no arc passes.
func ThreePoints(a, m, b r2.Vec) (Segment, error) {
	const fn = "arc.ThreePoints"
	if err := needPoints(fn, a, m, b); err != nil {
		return Segment{}, err
	}
	if a == m || m == b || a == b {
		return Segment{}, &ParamError{fn, "points", a, "mm", "three different points", ErrRange}
	}
	// The chords turn at m through half the turn of the arc.
	k := quarterTan(r2.Sub(m, a), r2.Sub(b, m))
	return newSegment(fn, "m", m, "a point not in line with a and b outside them", Segment{a, b, k})
}

// Tangent returns the arc that leaves a along the direction dir, of any
// length, and ends at b; a line where b lies ahead. It is an error where b
// lies straight behind, or a and b are the same.
func Tangent(a, dir, b r2.Vec) (Segment, error) {
	const fn = "arc.Tangent"
	if err := needPoints(fn, a, dir, b); err != nil {
		return Segment{}, err
	}
	if dir == (r2.Vec{}) {
		return Segment{}, &ParamError{fn, "dir", dir, "", "a direction", ErrRange}
	}
	if a == b {
		return Segment{}, &ParamError{fn, "b", b, "mm", "another point than a", ErrRange}
	}
	// Between the tangent and the chord lies half the turn.
	return newSegment(fn, "b", b, "a point that is not straight behind", Segment{a, b, quarterTan(dir, r2.Sub(b, a))})
}

func newSegment(fn, param string, v r2.Vec, need string, s Segment) (Segment, error) {
	if math.IsNaN(s.K) || math.IsInf(s.K*s.K, 0) {
		return Segment{}, &ParamError{fn, param, v, "mm", need, ErrRange}
	}
	return s, nil
}

// quarterTan returns the tangent of half the angle from u to v, infinite where
// they are opposite and NaN where one has no length. Both are scaled to unit
// size first so that nothing overflows.
func quarterTan(u, v r2.Vec) float64 {
	u, v = unitSize(u), unitSize(v)
	sin, cos := crossExact(u, v), r2.Dot(u, v)
	r := math.Hypot(sin, cos)
	switch {
	case cos >= 0:
		return sin / (r + cos)
	case sin == 0:
		return math.Inf(1)
	}
	return (r - cos) / sin
}

// unitSize scales v by a power of two to a size near 1, which rounds nothing.
func unitSize(v r2.Vec) r2.Vec {
	_, e := math.Frexp(math.Max(math.Abs(v.X), math.Abs(v.Y)))
	return r2.Vec{X: math.Ldexp(v.X, -e), Y: math.Ldexp(v.Y, -e)}
}

// crossExact returns u×v with an error below 2 ulp, however much the two
// products cancel (Kahan's way with a fused multiply-add; Jeannerod, Louvet
// and Muller, Math. Comp. 82, 2013).
func crossExact(u, v r2.Vec) float64 {
	w := u.Y * v.X
	e := math.FMA(-u.Y, v.X, w)
	return math.FMA(u.X, v.Y, -w) + e
}

// A ring is a circle or line by a point on it, its direction there and its
// curvature.
type ring struct {
	at, dir r2.Vec
	bend    float64
}

func ringOf(s Segment) ring {
	_, t := s.At(0)
	return ring{s.A, t, s.Curvature()}
}

// distance returns how far p is from the ring: 2F/(1 + √(1 − 2κF)) with
// F = N·q − κq²/2, q from the point on the ring to p, N the left normal there
// and κ the curvature. No radius enters, so flat rings lose nothing.
func (r ring) distance(p r2.Vec) float64 {
	q := r2.Sub(p, r.at)
	f := r2.Cross(r.dir, q) - r.bend*r2.Norm2(q)/2
	return math.Abs(2 * f / (1 + math.Sqrt(math.Max(0, 1-2*r.bend*f))))
}
