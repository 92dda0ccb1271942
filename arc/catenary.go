package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/num"
)

// maxCatenary is the largest rise in spans that the solver takes; a chain that
// hangs thirty times as deep as it is wide is two plumb lines.
const maxCatenary = 30

// catenaryHalf returns u = span/(2a) of the catenary y = a·cosh(x/a) with the
// given rise: (cosh u − 1)/(2u) = rise/span, or with cosh u − 1 = 2·sinh²(u/2),
// sinh²(u/2)/u = rise/span.
func catenaryHalf(fn string, span, rise float64) (float64, error) {
	if err := needSpanRise(fn, span, rise); err != nil {
		return 0, err
	}
	r := rise / span
	if r > maxCatenary || r < 1e-100 {
		return 0, &ParamError{fn, "rise", rise, "mm", "from 1e-100 to 30 times the span", ErrRange}
	}
	f := func(u float64) float64 { s := math.Sinh(u / 2); return s*s/u - r }
	// sinh(u/2) >= u/2, so u <= 4r, and the rise of 30 spans has u below 10.
	hi := math.Min(4*r, 10)
	lo := hi
	for f(lo) >= 0 {
		lo /= 2
	}
	u, err := num.Root(f, lo, hi, 0)
	if err != nil {
		return 0, &ParamError{fn, "rise", rise, "mm", "a rise in proportion to the span", ErrRange}
	}
	return u, nil
}

// CatenaryLength returns the length in mm of a chain that hangs rise deep
// between two points span apart: 2a·sinh(span/2a).
func CatenaryLength(span, rise float64) (float64, error) {
	u, err := catenaryHalf("arc.CatenaryLength", span, rise)
	if err != nil {
		return 0, err
	}
	return span * math.Sinh(u) / u, nil
}

// Catenary returns the arch whose shape is that of a hanging chain turned
// upside down, of a span and a rise up to 30 times it, as tangent arcs that
// leave it by no more than tol. Like the other arches it runs from the origin
// to x = span; it is the same on both sides.
func Catenary(span, rise, tol float64) (Path, error) {
	return CatenaryContext(context.Background(), span, rise, tol)
}

// CatenaryContext is [Catenary], stopped with the context's error when ctx is done.
func CatenaryContext(ctx context.Context, span, rise, tol float64) (Path, error) {
	const fn = "arc.Catenary"
	u, err := catenaryHalf(fn, span, rise)
	if err != nil {
		return Path{}, err
	}
	if err := needPositive(fn, "tol", tol, "mm"); err != nil {
		return Path{}, err
	}
	a := span / 2 / u
	// By the arc length s from the crown: x = a·asinh(s/a), and the drop is
	// √(a² + s²) − a = s²/(√(a² + s²) + a).
	curve := func(s float64) (p, dir r2.Vec) {
		return r2.Vec{X: a * math.Asinh(s/a), Y: rise - s*s/(math.Hypot(a, s)+a)}, r2.Vec{X: a, Y: -s}
	}
	right, err := ApproximateContext(ctx, curve, 0, a*math.Sinh(u), tol)
	if err != nil {
		return Path{}, err
	}
	right.V[len(right.V)-1].P = r2.Vec{X: span / 2} // to the last bit
	return join(right.Transform(MirrorX()).Reverse(), right).Transform(Shift(r2.Vec{X: span / 2})), nil
}
