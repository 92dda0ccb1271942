package svg

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A bezier is a curve of the third degree by its control points.
type bezier [4]r2.Vec

// lerp returns the point at the part t of the way from a to b.
func lerp(a, b r2.Vec, t float64) r2.Vec { return r2.Add(r2.Scale(1-t, a), r2.Scale(t, b)) }

// split cuts the curve in two at t (P. de Casteljau's scheme).
func (c bezier) split(t float64) (x, y bezier) {
	ab, bc, cd := lerp(c[0], c[1], t), lerp(c[1], c[2], t), lerp(c[2], c[3], t)
	abc, bcd := lerp(ab, bc, t), lerp(bc, cd, t)
	m := lerp(abc, bcd, t)
	return bezier{c[0], ab, abc, m}, bezier{m, bcd, cd, c[3]}
}

// size returns how far a control point is from the first at most.
func (c bezier) size() float64 {
	s := 0.0
	for _, p := range c[1:] {
		s = math.Max(s, r2.Norm(r2.Sub(p, c[0])))
	}
	return s
}

// straight reports whether the curve runs from end to end along a line, to
// within tol: the inner control points lie along it in turn.
func (c bezier) straight(tol float64) bool {
	d := r2.Sub(c[3], c[0])
	l := r2.Norm(d)
	if l == 0 {
		return false
	}
	last := 0.0
	for _, p := range c[1:3] {
		v := r2.Sub(p, c[0])
		if math.Abs(r2.Cross(d, v)) > tol*l {
			return false
		}
		along := r2.Dot(d, v) / l
		if along < last-tol || along > l+tol {
			return false
		}
		last = math.Max(last, along)
	}
	return true
}

// smooth cuts the curve at its inflections and where it may turn back, which
// leaves pieces that bend one way and have no cusp inside.
func (c bezier) smooth() []bezier {
	// The derivative is a(1−t)² + 2b·t(1−t) + d·t², up to a factor.
	a, b, d := r2.Sub(c[1], c[0]), r2.Sub(c[2], c[1]), r2.Sub(c[3], c[2])
	// It crosses its own derivative where
	// ab(1−t)² + ad·t(1−t) + bd·t² = 0, ab standing for a×b.
	at := quadratic(r2.Cross(a, b), r2.Cross(a, d), r2.Cross(b, d))
	// A curve along a line turns back where the derivative along it is zero.
	u := r2.Sub(c[3], c[0])
	if u == (r2.Vec{}) {
		u = a
	}
	at = append(at, quadratic(r2.Dot(a, u), 2*r2.Dot(b, u), r2.Dot(d, u))...)
	slices.Sort(at)
	out := []bezier{}
	from := 0.0
	for _, t := range at {
		if t-from < 1e-9 || 1-t < 1e-9 {
			continue
		}
		x, y := c.split((t - from) / (1 - from))
		out = append(out, x)
		c, from = y, t
	}
	return append(out, c)
}

// quadratic returns the t between 0 and 1 where q0(1−t)² + q1·t(1−t) + q2·t² is
// zero.
func quadratic(q0, q1, q2 float64) []float64 {
	disc := q1*q1 - 4*q0*q2
	if !(disc >= 0) {
		// A double root may be lost by rounding: the least is where it was.
		if !(disc >= -1e-9*(q1*q1)) || q0 == 0 {
			return nil
		}
		disc = 0
	}
	m := -(q1 + math.Copysign(math.Sqrt(disc), q1)) / 2
	var out []float64
	for _, x := range [2][2]float64{{m, q2}, {q0, m}} {
		// t/(1−t) = x0/x1
		if t := x[0] / (x[0] + x[1]); t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}

// curve returns the curve as a function. Where control points at an end
// coincide, the direction there is towards the next.
func (c bezier) curve() arc.Curve {
	least := 1e-7 * c.size()
	first, last := c.lead(least), bezier{c[3], c[2], c[1], c[0]}.lead(least)
	last = r2.Scale(-1, last)
	return func(t float64) (p, dir r2.Vec) {
		switch t {
		case 0:
			return c[0], first
		case 1:
			return c[3], last
		}
		ab, bc, cd := lerp(c[0], c[1], t), lerp(c[1], c[2], t), lerp(c[2], c[3], t)
		abc, bcd := lerp(ab, bc, t), lerp(bc, cd, t)
		return lerp(abc, bcd, t), r2.Sub(bcd, abc)
	}
}

// lead returns the direction in which the curve leaves its start.
func (c bezier) lead(least float64) r2.Vec {
	for _, p := range c[1:] {
		if d := r2.Sub(p, c[0]); r2.Norm(d) > least {
			return d
		}
	}
	return r2.Vec{}
}
