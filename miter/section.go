package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A span is a smooth piece of a panel's section, on its show face or behind
// it. It is found from the developed length on the show face, which is what a
// flat blank is drawn in, and from the height.
type span struct {
	u, n  float64 // developed length at its lower end, and how much it covers
	x, z  float64 // its lower end
	slope float64 // angle of the tangent there, from level outward; 0 to π
	kappa float64 // turn to the left per mm developed
	m     float64 // mm along this face per mm developed: 1 − kappa·depth
	run   int     // which run between folds it belongs to
}

// at returns the point and the slope at a developed length l from the lower
// end. As in arc.Segment.At no radius enters, so flat arcs keep their digits.
func (s span) at(l float64) (x, z, slope float64) {
	h := s.kappa * l / 2
	c := s.m * l
	if h != 0 {
		c *= math.Sin(h) / h
	}
	sin, cos := math.Sincos(s.slope + h)
	return s.x + c*cos, s.z + c*sin, s.slope + 2*h
}

// top returns the height of the upper end.
func (s span) top() float64 {
	_, z, _ := s.at(s.n)
	return z
}

// rise returns the developed length at which the span has risen by dz.
//
// With δ = κ dz/m the slope there has the cosine cos α − δ, and the sine of
// the turn is δ·Q, Q = sin α + (2 cos α − δ) cos α/(sin α + sin β): nothing
// cancels as κ goes to 0, where Q is 1/sin α.
func (s span) rise(dz float64) float64 {
	sin, cos := math.Sincos(s.slope)
	d := s.kappa * dz / s.m
	sinB := math.Sqrt(math.Max(0, sin*sin+d*(2*cos-d)))
	q := sin + (2*cos-d)*cos/(sin+sinB)
	y := d * q
	if math.Abs(y) < 0.5 && math.Abs(d) < 0.5 {
		l := dz / s.m * q
		if y != 0 {
			l *= math.Asin(y) / y
		}
		return clamp(l, s.n)
	}
	return clamp((math.Atan2(sinB, cos-d)-s.slope)/s.kappa, s.n)
}

// clamp holds l to [0, n], and to 0 where it is no number.
func clamp(l, n float64) float64 {
	if !(l > 0) {
		return 0
	}
	return math.Min(l, n)
}

// A section is the spans of one face of a panel from bottom to top, rising
// without a gap.
type section []span

// bottom and top return the ends of the section's heights.
func (s section) bottom() float64 { return s[0].z }
func (s section) top() float64    { return s[len(s)-1].top() }

// find returns the span at height z, and the ends' spans beyond the ends.
func (s section) find(z float64) span {
	lo, hi := 0, len(s)-1
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if s[mid].z <= z {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return s[lo]
}

// level is how far in radians a tangent may dip below level at the end of a
// profile that is meant to be level there: rounding, not shape.
const level = 1e-9

// maxSegments bounds a profile.
const maxSegments = 2000

// showSection returns the show face of a profile, or why it cannot be used.
func showSection(fn, name string, p arc.Path) (section, error) {
	if err := p.Usable(); err != nil {
		return nil, fault(fn, name, len(p.V), "vertices", "a finite path of at least one segment", arc.ErrEmpty)
	}
	if p.Closed || p.NumSegments() > maxSegments {
		return nil, fault(fn, name, p.NumSegments(), "segments", "an open path of at most 2000 segments", arc.ErrRange)
	}
	for _, v := range p.V {
		if !length(v.P.X) || !length(v.P.Y) {
			return nil, fault(fn, name, v.P, "mm", "coordinates up to 1e9", arc.ErrRange)
		}
	}
	var out section
	u, run := 0.0, 0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		turn, n := float64(s.Angle()), s.Length()
		_, tangent := s.At(0)
		slope, ok := rising(tangent, turn)
		if !ok || !(n > 0) {
			return nil, fault(fn, item(name, i), s.A, "mm", "segments that rise from end to end", ErrNotRising)
		}
		if i > 0 {
			last := out[i-1]
			if math.Abs(slope-last.slope-last.kappa*last.n) > fold {
				run++
			}
		}
		out = append(out, span{u: u, n: n, x: s.A.X, z: s.A.Y, slope: slope, kappa: turn / n, m: 1, run: run})
		u += n
	}
	return out, nil
}

// rising returns the slope at the start of a segment that turns by turn, and
// whether it rises throughout: no tangent dips below level, and a line is not
// level.
func rising(tangent r2.Vec, turn float64) (float64, bool) {
	slope := math.Atan2(tangent.Y, tangent.X)
	if slope < level-math.Pi {
		slope = math.Pi
	}
	end := slope + turn
	ok := slope >= -level && end >= -level && slope <= math.Pi+level && end <= math.Pi+level
	slope = math.Max(0, math.Min(math.Pi, slope))
	return slope, ok && (math.Abs(turn) > level || math.Sin(slope) > level)
}
