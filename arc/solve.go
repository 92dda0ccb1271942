package arc

import (
	"math"

	"example.com/sagitta/internal/num"
)

// Beyond these sizes, in mm, squares and products of sizes overflow.
const (
	leastSize = 1e-150
	mostSize  = 1e150
)

// newArc returns the arc of a chord and k that were found from the parameter
// named, or the error that there is none of a size to calculate with.
func newArc(fn, param string, value float64, unit string, chord, k float64) (Arc, error) {
	if !(chord >= leastSize && chord <= mostSize && k >= 0 && k <= mostSize && chord*k <= mostSize) {
		return Arc{}, &ParamError{fn, param, value, unit, "sizes whose arc has a chord from 1e-150 to 1e150 mm and a sag below that", ErrRange}
	}
	return Arc{chord, k + 0}, nil // + 0 makes a sag of -0 a plain 0
}

// tangent is math.Tan with the terms that it leaves out for small x: below 1e-7
// it returns x, which is up to 15 ulp off.
func tangent(x float64) float64 {
	if q := x * x; q < 1e-6 {
		return x + x*q/3*(1+q*2/5)
	}
	return math.Tan(x)
}

// needTurn returns a *ParamError unless the turn is from 0 to below 2π.
func needTurn(fn string, turn Angle, orZero bool) error {
	if err := needFinite(fn, "turn", float64(turn), "rad"); err != nil {
		return err
	}
	if turn < 0 || turn == 0 && !orZero || turn >= 2*math.Pi {
		need := "> 0 and < 2π"
		if orZero {
			need = ">= 0 and < 2π"
		}
		return &ParamError{fn, "turn", float64(turn), "rad", need, ErrRange}
	}
	return nil
}

// needBoth returns a *ParamError unless two lengths are finite and above zero.
func needBoth(fn, a string, va float64, b string, vb float64) error {
	if err := needPositive(fn, a, va, "mm"); err != nil {
		return err
	}
	return needPositive(fn, b, vb, "mm")
}

// FromChordRadius returns the arc of a radius >= chord/2 over a chord > 0: the
// minor arc, or the major one where major is set. The sag of a flat arc is
// poorly known from its radius; where the sag was measured use [FromChordSag].
func FromChordRadius(chord, radius float64, major bool) (Arc, error) {
	const fn = "arc.FromChordRadius"
	if err := needBoth(fn, "chord", chord, "radius", radius); err != nil {
		return Arc{}, err
	}
	h := chord / 2
	if radius < h {
		return Arc{}, &ParamError{fn, "radius", radius, "mm", ">= half the chord", ErrRange}
	}
	// tan(x/2) = sin x / (1 + cos x) with sin x = h/R, and the other arc has
	// the reciprocal. R − h is exact where it matters, near the half circle.
	k := h / (radius + math.Sqrt(radius-h)*math.Sqrt(radius+h))
	if major {
		k = 1 / k
	}
	return newArc(fn, "radius", radius, "mm", chord, k)
}

// FromChordTurn returns the arc that turns through 0 <= turn < 2π over a
// chord > 0.
func FromChordTurn(chord float64, turn Angle) (Arc, error) {
	const fn = "arc.FromChordTurn"
	if err := needPositive(fn, "chord", chord, "mm"); err != nil {
		return Arc{}, err
	}
	if err := needTurn(fn, turn, true); err != nil {
		return Arc{}, err
	}
	return newArc(fn, "turn", float64(turn), "rad", chord, tangent(float64(turn)/4))
}

// FromChordLength returns the arc of a length >= chord over a chord > 0: a
// strip of that length sprung between two points. With x half the turn,
// sin x / x = chord/length.
func FromChordLength(chord, length float64) (Arc, error) {
	const fn = "arc.FromChordLength"
	if err := needBoth(fn, "chord", chord, "length", length); err != nil {
		return Arc{}, err
	}
	if length < chord {
		return Arc{}, &ParamError{fn, "length", length, "mm", ">= the chord", ErrRange}
	}
	var k float64
	if d := (length - chord) / length; d <= 0.5 {
		k = tangent(halfTurnOf(d) / 2)
	} else {
		k = 1 / tangent(shortOfCircle(chord/length)/2)
	}
	return newArc(fn, "length", length, "mm", chord, k)
}

// halfTurnOf solves 1 − sin x / x = d for 0 <= d <= 1/2 by Newton's method from
// below, d being given to its last bit.
func halfTurnOf(d float64) float64 {
	x := math.Sqrt(6 * d)
	for range 12 {
		// The derivative of sin x / x is (cos x − sin x / x)/x, and
		// 1 − sin x / x needs its series: the difference cancels.
		f, g := oneLessSinc(x), oneLessCos(x)
		if f == 0 {
			break
		}
		step := (d - f) * x / (g - f)
		x += step
		if math.Abs(step) <= 1e-16*x {
			break
		}
	}
	return x
}

// oneLessSinc returns 1 − sin x / x for 0 <= x <= 2.
func oneLessSinc(x float64) float64 { return x * x / 6 * sincSeries(x) }

// sincFactors holds 1/(2n(2n+1)), n = 2, 3, …
var sincFactors = [...]float64{
	1.0 / (4 * 5), 1.0 / (6 * 7), 1.0 / (8 * 9), 1.0 / (10 * 11),
	1.0 / (12 * 13), 1.0 / (14 * 15), 1.0 / (16 * 17), 1.0 / (18 * 19),
	1.0 / (20 * 21), 1.0 / (22 * 23), 1.0 / (24 * 25),
}

// sincSeries returns 1 − x²/20·(1 − x²/42·(1 − …)) for 0 <= x <= 2, where 11
// factors leave less than 1e-17.
func sincSeries(x float64) float64 {
	q, s := x*x, 1.0
	for n := len(sincFactors) - 1; n >= 0; n-- {
		s = 1 - q*sincFactors[n]*s
	}
	return s
}

// oneLessCos returns 1 − cos x.
func oneLessCos(x float64) float64 {
	s := math.Sin(x / 2)
	return 2 * s * s
}

// shortOfCircle solves sin y = r(π − y) for 0 < r <= 1/2: by how much half the
// turn falls short of π.
func shortOfCircle(r float64) float64 {
	y := math.Pi * r / (1 + r)
	for range 12 {
		step := (r*(math.Pi-y) - math.Sin(y)) / (math.Cos(y) + r)
		y += step
		if math.Abs(step) <= 1e-16*y {
			break
		}
	}
	return y
}

// FromSagRadius returns the arc of a sag > 0 and a radius > sag/2.
func FromSagRadius(sag, radius float64) (Arc, error) {
	const fn = "arc.FromSagRadius"
	if err := needBoth(fn, "sag", sag, "radius", radius); err != nil {
		return Arc{}, err
	}
	h := sag / 2
	if radius <= h {
		return Arc{}, &ParamError{fn, "radius", radius, "mm", "> half the sag", ErrRange}
	}
	// sag = 2R·sin²(turn/4), so k² = h/(R − h), and chord = 2·sag/k.
	k := math.Sqrt(h) / math.Sqrt(radius-h)
	return newArc(fn, "radius", radius, "mm", 2*sag/k, k)
}

// FromSagTurn returns the arc of a sag > 0 that turns through 0 < turn < 2π.
func FromSagTurn(sag float64, turn Angle) (Arc, error) {
	const fn = "arc.FromSagTurn"
	if err := needPositive(fn, "sag", sag, "mm"); err != nil {
		return Arc{}, err
	}
	if err := needTurn(fn, turn, false); err != nil {
		return Arc{}, err
	}
	k := tangent(float64(turn) / 4)
	return newArc(fn, "turn", float64(turn), "rad", 2*sag/k, k)
}

// The sag of an arc of given length grows with its turn up to
// tan(turn/4) = turn/2, where it is most of all in proportion to its length,
// and then falls again to 1/π for the full circle.
const (
	highestQuarter = 1.1655611852072113 // x where tan x = 2x
	highestRatio   = 0.36230568298205   // sin²x/(2x) there, rounded up
)

// FromSagLength returns the arc of a sag > 0 and a length > sag·2.7601…. From
// a length of π times the sag downward there are two such arcs, and major
// says which: that of the larger turn (267° and more) or the other.
func FromSagLength(sag, length float64, major bool) (Arc, error) {
	const fn = "arc.FromSagLength"
	if err := needBoth(fn, "sag", sag, "length", length); err != nil {
		return Arc{}, err
	}
	r := sag / length
	// With x a quarter of the turn, sin²x / x = 2·sag/length.
	f := func(x float64) float64 { s := math.Sin(x); return s*s/x - 2*r }
	need := ""
	switch {
	case r > highestRatio || f(highestQuarter) < 0:
		need = "> 2.7601 times the sag"
	case major && r <= 1/math.Pi:
		need = "< π times the sag for the major arc"
	}
	if need != "" {
		return Arc{}, &ParamError{fn, "length", length, "mm", need, ErrRange}
	}
	// sin²x/x is at most x, and not below x/1.6087 up to the highest.
	lo, hi := 2*r, math.Min(highestQuarter, 2*r*1.61)
	if major {
		lo, hi = highestQuarter, math.Pi/2
	}
	x, err := num.Root(f, lo, hi, 0)
	if err != nil {
		// Both ends on one side: the root is at the end by rounding.
		x = lo
		if math.Abs(f(hi)) < math.Abs(f(lo)) {
			x = hi
		}
	}
	k := tangent(x)
	return newArc(fn, "length", length, "mm", 2*sag/k, k)
}

// FromRadiusTurn returns the arc of a radius > 0 that turns through
// 0 < turn < 2π.
func FromRadiusTurn(radius float64, turn Angle) (Arc, error) {
	const fn = "arc.FromRadiusTurn"
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return Arc{}, err
	}
	if err := needTurn(fn, turn, false); err != nil {
		return Arc{}, err
	}
	k := tangent(float64(turn) / 4)
	return newArc(fn, "turn", float64(turn), "rad", chordOf(radius, k), k)
}

// chordOf returns the chord of an arc by its radius: c = 4Rk/(1+k²).
func chordOf(radius, k float64) float64 { return 4 * radius / (1/k + k) }

// FromRadiusLength returns the arc of a radius > 0 and a length > 0 and below
// that of the full circle.
func FromRadiusLength(radius, length float64) (Arc, error) {
	const fn = "arc.FromRadiusLength"
	if err := needBoth(fn, "radius", radius, "length", length); err != nil {
		return Arc{}, err
	}
	turn := length / radius
	if turn >= 2*math.Pi {
		return Arc{}, &ParamError{fn, "length", length, "mm", "< 2π times the radius", ErrRange}
	}
	k := tangent(turn / 4)
	return newArc(fn, "length", length, "mm", chordOf(radius, k), k)
}

// FromLengthTurn returns the arc of a length > 0 that turns through
// 0 <= turn < 2π: a panel bent to a given turn.
func FromLengthTurn(length float64, turn Angle) (Arc, error) {
	const fn = "arc.FromLengthTurn"
	if err := needPositive(fn, "length", length, "mm"); err != nil {
		return Arc{}, err
	}
	if err := needTurn(fn, turn, true); err != nil {
		return Arc{}, err
	}
	k := tangent(float64(turn) / 4)
	chord := length
	if k > 0 {
		chord = chordOf(length/float64(turn), k)
	}
	return newArc(fn, "length", length, "mm", chord, k)
}
