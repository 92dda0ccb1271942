package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r2"
)

// ellipseCurve is the ellipse about the origin by its eccentric angle.
func ellipseCurve(rx, ry float64) Curve {
	return func(t float64) (p, dir r2.Vec) {
		sin, cos := Angle(t).sincos()
		return r2.Vec{X: rx * cos, Y: ry * sin}, r2.Vec{X: -rx * sin, Y: ry * cos}
	}
}

// Ellipse returns the counter-clockwise ellipse about c with half axes rx
// along x and ry along y, as tangent arcs that leave it by no more than tol. It
// starts at c.X + rx and is the same in all four quarters.
func Ellipse(c r2.Vec, rx, ry, tol float64) (Path, error) {
	return EllipseContext(context.Background(), c, rx, ry, tol)
}

// EllipseContext is [Ellipse], stopped with the context's error when ctx is done.
func EllipseContext(ctx context.Context, c r2.Vec, rx, ry, tol float64) (Path, error) {
	const fn = "arc.Ellipse"
	if err := needPoints(fn, c); err != nil {
		return Path{}, err
	}
	if err := needBoth(fn, "rx", rx, "ry", ry); err != nil {
		return Path{}, err
	}
	if rx == ry {
		return Circle(c, rx), nil
	}
	quarter, err := ApproximateContext(ctx, ellipseCurve(rx, ry), 0, math.Pi/2, tol)
	if err != nil {
		return Path{}, err
	}
	half := join(quarter, quarter.Transform(MirrorX()).Reverse())
	p := join(half, half.Transform(MirrorY()).Reverse())
	p.V, p.Closed = p.V[:len(p.V)-1], true
	return p.Transform(Shift(c)), nil
}

// EllipticalArc returns the part of an ellipse about the origin, half axes rx
// along x and ry along y, from the eccentric angle from to the larger angle to,
// at most one turn on and so counter-clockwise, as tangent arcs that leave it by
// no more than tol. The eccentric angle t belongs to the point (rx·cos t, ry·sin t).
func EllipticalArc(rx, ry float64, from, to Angle, tol float64) (Path, error) {
	return EllipticalArcContext(context.Background(), rx, ry, from, to, tol)
}

// EllipticalArcContext is [EllipticalArc], stopped with the context's error when ctx is done.
func EllipticalArcContext(ctx context.Context, rx, ry float64, from, to Angle, tol float64) (Path, error) {
	const fn = "arc.EllipticalArc"
	if err := needBoth(fn, "rx", rx, "ry", ry); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "from", float64(from), "rad"); err != nil {
		return Path{}, err
	}
	if !(to > from && to-from <= 2*math.Pi*(1+1e-15)) {
		return Path{}, &ParamError{fn, "to", float64(to), "rad", "> from, by at most one turn", ErrRange}
	}
	// Cut at the ends of the axes, where the curvature is greatest or least.
	var out Path
	for t := float64(from); t < float64(to); {
		next := math.Min(float64(to), (math.Floor(t/(math.Pi/2)+1e-9)+1)*(math.Pi/2))
		p, err := ApproximateContext(ctx, ellipseCurve(rx, ry), t, next, tol)
		if err != nil {
			return Path{}, err
		}
		out, t = join(out, p), next
	}
	return out, nil
}

// join returns the open path p and then q, which starts where p ends.
func join(p, q Path) Path {
	if len(p.V) == 0 {
		return q
	}
	v := append([]Vertex(nil), p.V[:len(p.V)-1]...)
	return Path{V: append(v, q.V...)}
}

// EllipseLength returns the length around the ellipse with half axes rx and
// ry, 4·b·E(1 − a²/b²), b the larger one and E the complete elliptic integral
// of the second kind; NaN unless both are above zero.
func EllipseLength(rx, ry float64) float64 {
	a, b := math.Min(rx, ry), math.Max(rx, ry)
	if !(a > 0) {
		return math.NaN()
	}
	r := a / b
	return 4 * b * mathext.CompleteE((1-r)*(1+r))
}
