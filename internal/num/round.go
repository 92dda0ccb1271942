package num

import "math"

// nearHalf is how near to half a step still counts as half, in steps. The last
// bits of a result differ between processors, some of which multiply and add in
// one rounding; that comes to 1e-8 of a printed step, and half a step is where
// lengths of few digits often lie.
const nearHalf = 1e-4

// Round returns the multiple of a step nearest to x, and of two as near, or all
// but, the one farther from 0. It returns x where the step is finer than x.
func Round(x, step float64) float64 {
	n := math.Abs(x / step)
	if !(n < 1<<52) {
		return x
	}
	return math.Copysign(math.Floor(n+(0.5+nearHalf))*step, x) + 0
}

// Decimals is Round to a number of decimals, the nearest number of so many.
func Decimals(x float64, decimals int) float64 {
	f := math.Pow10(decimals)
	n := math.Abs(float64(x * f))
	if !(n < 1<<52) {
		return x
	}
	return math.Copysign(math.Floor(n+(0.5+nearHalf))/f, x) + 0
}

// Digits rounds to a number of significant digits, but to no more decimals than
// given.
func Digits(x float64, digits, decimals int) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	before := 0 // digits before the point
	for before < digits && math.Abs(x) >= math.Pow10(before) {
		before++
	}
	return Decimals(x, max(0, min(decimals, digits-before)))
}
