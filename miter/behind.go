package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// fold is the turn in radians between two segments of a profile above which
// the panel is folded there, as at the top of a skirt, and not smooth. Taking
// a smaller one for smooth shifts the back by no more than thickness·1e-7.
const fold = 1e-7

// backSection returns the back face of a panel of thickness t behind its show
// face, without what a fold cuts off and with what it adds.
func backSection(fn, name string, show section, t float64) (section, error) {
	var out section
	for i, s := range show {
		b := s.behind(t)
		if !(b.m > level) { // a radius less than the rounding of its curvature is none
			return nil, fault(fn, name, t, "mm", "less than the profile's least convex radius", ErrFold)
		}
		if i > 0 && s.run != show[i-1].run {
			var ok bool
			if out, b, ok = foldAt(out, b, t); !ok {
				return nil, fault(fn, name, t, "mm", "a thickness that leaves the back of every fold some width", ErrFold)
			}
		}
		out = append(out, b)
	}
	if !out.rises() {
		return nil, fault(fn, name, t, "mm", "a thickness that leaves the back of every fold some width", ErrFold)
	}
	return out, nil
}

// behind returns the span at depth t behind a show span.
func (s span) behind(t float64) span {
	sin, cos := math.Sincos(s.slope)
	s.x -= t * sin
	s.z += t * cos
	s.m = 1 - s.kappa*t
	return s
}

// foldAt joins the back face so far to the next span b, across a fold.
func foldAt(out section, b span, t float64) (section, span, bool) {
	a := out[len(out)-1]
	end := a.slope + a.kappa*a.n
	turn := b.slope - end
	reach := t * math.Tan(math.Abs(turn)/2)
	if turn < 0 {
		// The faces spread at the back: both go on straight until they meet.
		if !(math.Sin(end) > 0 && math.Sin(b.slope) > 0) {
			return out, b, false
		}
		return append(out, a.after(reach), b.before(reach)), b, true
	}
	la, lb, ok := crossing(a, b)
	if !ok {
		return out, b, false
	}
	out[len(out)-1].n = la
	return out, b.from(lb), true
}

// from returns the span without its first l.
func (s span) from(l float64) span {
	s.x, s.z, s.slope = s.at(l)
	s.u += l
	s.n -= l
	return s
}

// after and before return straight spans of length l that carry a span on
// beyond its upper and before its lower end.
func (s span) after(l float64) span {
	e := s.from(s.n)
	e.n, e.kappa, e.m = l, 0, 1
	return e
}

func (s span) before(l float64) span {
	sin, cos := math.Sincos(s.slope)
	return span{u: s.u - l, n: l, x: s.x - l*cos, z: s.z - l*sin, slope: s.slope, m: 1, run: s.run}
}

// crossing returns where two neighboring spans cross, a near its end and b near
// its start, as developed lengths.
func crossing(a, b span) (float64, float64, bool) {
	la, lb, ok := arc.Meet(a.segment(), b.segment(), 0)
	la, lb = la/a.m, lb/b.m
	return la, lb, ok && la > 0 && lb > 0 && la < a.n && lb < b.n
}

// segment returns the span as a piece of its section.
func (s span) segment() arc.Segment {
	x, z, _ := s.at(s.n)
	return arc.Segment{A: r2.Vec{X: s.x, Y: s.z}, B: r2.Vec{X: x, Y: z}, K: math.Tan(s.kappa * s.n / 4)}
}

// rises reports whether every span is higher than the one before.
func (s section) rises() bool {
	for i := range s {
		if !(s[i].n > 0 && s[i].top() > s[i].z) {
			return false
		}
	}
	return true
}

// extended carries a back face on along both its end tangents by a rise of dz,
// for a mating panel whose back ends elsewhere; a level end cannot go on.
func (s section) extended(dz float64) section {
	first, last := s[0], s[len(s)-1]
	if sin := math.Sin(first.slope); sin > level {
		s = append(section{first.before(dz / sin)}, s...)
	}
	if sin := math.Sin(last.slope + last.kappa*last.n); sin > level {
		s = append(s, last.after(dz/sin))
	}
	return s
}
