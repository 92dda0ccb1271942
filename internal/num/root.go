// Package num finds roots between two ends, which gonum does not.
package num

import (
	"errors"
	"math"
)

// The kinds of fault.
var (
	ErrBracket   = errors.New("num: the function does not change sign between the ends")
	ErrNotFinite = errors.New("num: an end, the tolerance or a value of the function is NaN or infinite")
)

// Root returns a zero of f between a and b to within tol, or as near as
// float64 allows where tol is smaller than that. f must be continuous and of
// opposite sign at a and b, or zero at one of them.
//
// The method is ITP (Oliveira and Takahashi, ACM TOMS 47(1), 2020,
// doi 10.1145/3423597): it takes at most two calls of f more than bisection and
// on smooth functions far fewer.
func Root(f func(float64) float64, a, b, tol float64) (float64, error) {
	if a > b {
		a, b = b, a
	}
	ya, yb := f(a), f(b)
	if !finite(a, b, b-a, tol, ya, yb) {
		return math.NaN(), ErrNotFinite
	}
	switch {
	case ya == 0:
		return a, nil
	case yb == 0:
		return b, nil
	case (ya > 0) == (yb > 0):
		return math.NaN(), ErrBracket
	}
	sign := 1.0 // makes f rise from a to b
	if ya > 0 {
		sign, ya, yb = -1, -ya, -yb
	}
	// Two neighbouring numbers are one ulp apart, at most 2^-52 of the larger:
	// a half width of half of that always is reached.
	tol = math.Max(tol, math.Ldexp(math.Max(math.Abs(a), math.Abs(b)), -53))
	tol = math.Max(tol, math.SmallestNonzeroFloat64)
	return itp(func(x float64) float64 { return sign * f(x) }, a, b, ya, yb, tol)
}

// itp narrows a, b, where f(a) = ya < 0 < yb = f(b), to a width of 2·tol.
func itp(f func(float64) float64, a, b, ya, yb, tol float64) (float64, error) {
	steps := math.Ceil(math.Log2(b-a) - math.Log2(2*tol)) // of bisection
	k1 := 0.2 / (b - a)
	for left := steps + 1; b-a > 2*tol && left > -2; left-- {
		x := a/2 + b/2
		// No farther from the middle than leaves bisection time to finish.
		room := math.Max(0, math.Ldexp(tol, int(left))-(b-a)/2)
		regula := a + (b-a)*(-ya/(yb-ya))
		toward := math.Copysign(1, x-regula)
		t := regula + toward*math.Min(k1*(b-a)*(b-a), math.Abs(x-regula))
		if math.Abs(t-x) > room {
			t = x - toward*room
		}
		if t <= a || t >= b {
			t = x
		}
		y := f(t)
		switch {
		case !finite(y):
			return math.NaN(), ErrNotFinite
		case y > 0:
			b, yb = t, y
		case y < 0:
			a, ya = t, y
		default:
			return t, nil
		}
	}
	return a/2 + b/2, nil
}

func finite(x ...float64) bool {
	for _, x := range x {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
