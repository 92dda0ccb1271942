package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/num"
)

// The arches below are laid out on their springing line: they run from the
// origin up over the opening and down to x = span, turning right.

// needSpanRise checks the two sizes of an arch.
func needSpanRise(fn string, span, rise float64) error {
	return needBoth(fn, "span", span, "rise", rise)
}

// SegmentalArch returns the arch of one arc. It runs from the origin up
// over the opening and down to x = span, turning right.
func SegmentalArch(span, rise float64) (Path, error) {
	const fn = "arc.SegmentalArch"
	if err := needSpanRise(fn, span, rise); err != nil {
		return Path{}, err
	}
	a, err := newArc(fn, "rise", rise, "mm", span, 2*(rise/span))
	if err != nil {
		return Path{}, err
	}
	return archOf(r2.Vec{}, -a.k, r2.Vec{X: span}), nil
}

// archOf returns a path of one segment.
func archOf(a r2.Vec, turn float64, b r2.Vec) Path {
	return Path{V: []Vertex{{a, turn}, {P: b}}}
}

// SemicircularArch returns the half circle over a span, run as [SegmentalArch].
func SemicircularArch(span float64) (Path, error) {
	if err := needPositive("arc.SemicircularArch", "span", span, "mm"); err != nil {
		return Path{}, err
	}
	return archOf(r2.Vec{}, -1, r2.Vec{X: span}), nil
}

// BasketArch returns the three-centered arch of a span and a rise below half
// of it: plumb at the springings and level at the crown. Of the many such
// arches it is the one of the drawing board: on the line from a springing to
// the crown the excess of half the span over the rise is set off from the
// crown, and the perpendicular bisector of what is left passes through the
// centers (common practice, no source). It runs as [SegmentalArch].
func BasketArch(span, rise float64) (Path, error) {
	const fn = "arc.BasketArch"
	if err := needSpanRise(fn, span, rise); err != nil {
		return Path{}, err
	}
	a, b := span/2, rise
	if b >= a {
		return Path{}, &ParamError{fn, "rise", rise, "mm", "< half the span", ErrRange}
	}
	// The bisector stands on the line from springing to crown, so the side arc
	// turns from plumb to that line's direction, by atan(a/b).
	h := math.Hypot(a, b)
	r := (h - (a - b)) / 2 * (h / a)
	knee := r2.Vec{X: r * (1 - b/h), Y: r * (a / h)}
	side, crown := math.Tan(math.Atan2(a, b)/4), math.Tan(math.Atan2(b, a)/2)
	return Path{V: []Vertex{
		{r2.Vec{}, -side}, {knee, -crown}, {r2.Vec{X: span - knee.X, Y: knee.Y}, -side}, {P: r2.Vec{X: span}},
	}}, nil
}

// FourCenteredArch returns the depressed pointed arch: two arcs plumb at the
// springings, and two flatter ones tangent to them that meet in a point at the
// crown. The side arcs have a quarter of the span for radius, or two thirds of
// the rise where that is less, and the flat arcs reach the crown at half the
// slope they start with: a choice of ours among the many in use. The rise must
// be below 1.2 times the span. It runs as [SegmentalArch].
func FourCenteredArch(span, rise float64) (Path, error) {
	const fn = "arc.FourCenteredArch"
	if err := needSpanRise(fn, span, rise); err != nil {
		return Path{}, err
	}
	if rise >= 1.2*span {
		return Path{}, &ParamError{fn, "rise", rise, "mm", "< 1.2 times the span", ErrRange}
	}
	r, crown := math.Min(span/4, rise*2/3), r2.Vec{X: span / 2, Y: rise}
	// The side arc ends at the knee, rising at an angle s; the chord from there
	// to the crown must rise at ¾s, for then the flat arc ends at s/2.
	knee := func(s float64) r2.Vec {
		sin, cos := math.Sincos(s)
		return r2.Vec{X: r * (1 - sin), Y: r * cos}
	}
	s, err := num.Root(func(s float64) float64 {
		d := r2.Sub(crown, knee(s))
		return math.Atan2(d.Y, d.X) - 0.75*s
	}, 0, math.Pi/2, 1e-15)
	if err != nil {
		return Path{}, &ParamError{fn, "rise", rise, "mm", "a rise in proportion to the span", ErrRange}
	}
	j := knee(s)
	side, flat := math.Tan((math.Pi/2-s)/4), math.Tan(s/8)
	return Path{V: []Vertex{
		{r2.Vec{}, -side}, {j, -flat}, {crown, -flat}, {r2.Vec{X: span - j.X, Y: j.Y}, -side}, {P: r2.Vec{X: span}},
	}}, nil
}

// EllipticalArch returns the half ellipse of a span and a rise as tangent arcs
// that leave it by no more than tol. It is the same on both sides and runs as
// [SegmentalArch].
func EllipticalArch(span, rise, tol float64) (Path, error) {
	return EllipticalArchContext(context.Background(), span, rise, tol)
}

// EllipticalArchContext is [EllipticalArch], stopped with the context's error when ctx is done.
func EllipticalArchContext(ctx context.Context, span, rise, tol float64) (Path, error) {
	const fn = "arc.EllipticalArch"
	if err := needSpanRise(fn, span, rise); err != nil {
		return Path{}, err
	}
	if rise == span/2 {
		return SemicircularArch(span)
	}
	quarter, err := ApproximateContext(ctx, ellipseCurve(span/2, rise), 0, math.Pi/2, tol)
	if err != nil {
		return Path{}, err
	}
	left := quarter.Transform(MirrorX())
	return join(left, quarter.Reverse()).Transform(Shift(r2.Vec{X: span / 2})), nil
}

// Ogee returns two tangent arcs of equal and opposite sag that meet at the
// middle of the straight line from a to b, each standing sag off its half of
// it: first to the right of the way from a to b where sag > 0, turning left,
// then the other way.
func Ogee(a, b r2.Vec, sag float64) (Path, error) {
	const fn = "arc.Ogee"
	if err := needPoints(fn, a, b); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "sag", sag, "mm"); err != nil {
		return Path{}, err
	}
	chord := math.Hypot(b.X-a.X, b.Y-a.Y) / 2
	half, err := newArc(fn, "sag", sag, "mm", chord, 2*(math.Abs(sag)/chord))
	if err != nil {
		return Path{}, err
	}
	k := math.Copysign(half.k, sag)
	mid := r2.Vec{X: a.X/2 + b.X/2, Y: a.Y/2 + b.Y/2}
	return Path{V: []Vertex{{a, k}, {mid, -k}, {P: b}}}, nil
}
