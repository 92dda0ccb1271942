package arc

import "math"

// An Arc is the shape of a circular arc: its chord and how far it stands off
// it. It has no place; see [Segment] for an arc that has. The zero Arc has no
// length.
//
// The formulas are those of the circular segment, Machinery's Handbook, 31st
// ed., pp. 79-83, written in k = tan(turn/4) = 2·sag/chord.
type Arc struct {
	chord, k float64
}

// FromChordSag returns the arc over a chord > 0 that stands off it by a sag
// >= 0 at its middle; a sag of zero is a straight line, a sag of half the
// chord a semicircle, more a major arc.
func FromChordSag(chord, sag float64) (Arc, error) {
	const fn = "arc.FromChordSag"
	if err := needPositive(fn, "chord", chord, "mm"); err != nil {
		return Arc{}, err
	}
	if err := needFinite(fn, "sag", sag, "mm"); err != nil {
		return Arc{}, err
	}
	if sag < 0 {
		return Arc{}, &ParamError{fn, "sag", sag, "mm", ">= 0", ErrRange}
	}
	return newArc(fn, "sag", sag, "mm", chord, 2*(sag/chord))
}

// K returns tan(turn/4) = 2·sag/chord, as [Vertex.K].
func (a Arc) K() float64 { return a.k }

// Chord returns the straight distance between the ends, in mm.
func (a Arc) Chord() float64 { return a.chord }

// Sag returns the height of the arc over the middle of its chord, in mm.
func (a Arc) Sag() float64 { return a.chord * a.k / 2 }

// Radius returns the radius in mm, +Inf for a straight line.
func (a Arc) Radius() float64 {
	if a.k == 0 {
		return math.Inf(1)
	}
	return a.chord / 4 * (1/a.k + a.k)
}

// Turn returns the angle between the tangents at the ends, which is also the
// angle at the center, from 0 to just under 2π.
func (a Arc) Turn() Angle { return Angle(4 * math.Atan(a.k)) }

// Length returns the length along the arc in mm.
func (a Arc) Length() float64 { return lengthOf(a.chord, a.k) }

// Area returns the area between arc and chord in mm².
func (a Arc) Area() float64 { return segmentArea(a.chord, a.k) }

// lengthOf returns the length of an arc over chord c, whatever the sign of k:
// c·(1/k + k)·atan k, which for |k| < 1e-9 is c to the last bit.
func lengthOf(c, k float64) float64 {
	if math.Abs(k) < 1e-9 {
		return c
	}
	return c * (math.Atan(k) * (1/k + k))
}

// areaSeries holds the numbers (−1)ⁿ⁺¹ / ((2n−1)(2n+1)(2n+3)).
var areaSeries = [...]float64{
	1.0 / (1 * 1 * 3), 1.0 / (1 * 3 * 5), -1.0 / (3 * 5 * 7), 1.0 / (5 * 7 * 9), -1.0 / (7 * 9 * 11),
	1.0 / (9 * 11 * 13), -1.0 / (11 * 13 * 15), 1.0 / (13 * 15 * 17), -1.0 / (15 * 17 * 19),
	1.0 / (17 * 19 * 21), -1.0 / (19 * 21 * 23), 1.0 / (21 * 23 * 25), -1.0 / (23 * 25 * 27),
}

// segmentArea returns the area between an arc and its chord c, with the sign
// of k: c²/8·((k² + 2 + 1/k²)·atan k − (1/k − k)). Below |k| = 1/4 that
// difference cancels, and the alternating series
//
//	c² Σ (−1)ⁿ⁺¹ k²ⁿ⁺¹ / ((2n−1)(2n+1)(2n+3))
//
// is summed instead: its terms fall by more than 16 a step, so 13 of them
// leave less than 1e-17 of the first.
func segmentArea(c, k float64) float64 {
	q := k * k
	if q >= 1.0/16 {
		return c * (c / 8 * ((q+2+1/q)*math.Atan(k) - (1/k - k)))
	}
	sum := 0.0
	for n := len(areaSeries) - 1; n >= 0; n-- {
		sum = sum*q + areaSeries[n]
	}
	return c * (c * k * sum)
}
