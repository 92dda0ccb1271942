package dxf

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// maxDegree and maxControl bound a spline.
const (
	maxDegree  = 25
	maxControl = 1 << 14
)

// spline reads a spline by its control points, which every one has, as tangent
// arcs between its knots. Points are (w·x, w·y, w), so that a rational one is
// no other case.
func (d *decoder) spline(e *entity, f float64) (arc.Path, string) {
	deg := e.int(71)
	knots, w := e.all(40), e.all(41)
	xs, ys := e.all(10), e.all(20)
	n := len(xs)
	switch {
	case deg < 1 || deg > maxDegree || n <= deg || n > maxControl || len(ys) != n:
		return arc.Path{}, "a degree or control points that cannot be used"
	case len(knots) != n+deg+1 || len(w) != 0 && len(w) != n:
		return arc.Path{}, "knots or weights of another number than its points need"
	}
	for i, k := range knots {
		if math.IsNaN(k) || math.IsInf(k, 0) || i > 0 && k < knots[i-1] {
			return arc.Path{}, "knots that do not rise"
		}
	}
	c := make([]r3.Vec, n)
	for i := range c {
		c[i] = r3.Vec{X: xs[i], Y: ys[i], Z: 1}
		if len(w) > 0 {
			c[i] = r3.Scale(w[i], c[i])
		}
		if !(c[i].Z > 0) {
			return arc.Path{}, "weights not above 0"
		}
	}
	var out arc.Path
	for k := deg; k < n; k++ {
		if knots[k] == knots[k+1] {
			continue
		}
		p, why := d.span(knots, c, deg, k, f)
		if why != "" {
			return arc.Path{}, why
		}
		if len(out.V) > 0 {
			out.V = out.V[:len(out.V)-1]
		}
		out.V = append(out.V, p.V...)
	}
	if len(out.V) == 0 {
		return out, "no length of its knots"
	}
	return out, ""
}

// span returns the stretch from knot k to the next.
func (d *decoder) span(knots []float64, c []r3.Vec, deg, k int, f float64) (arc.Path, string) {
	if deg == 1 {
		a, _ := curveAt(knots, c, deg, k, knots[k])
		b, _ := curveAt(knots, c, deg, k, knots[k+1])
		return arc.Polyline(a, b), ""
	}
	p, err := arc.ApproximateContext(d.ctx, func(t float64) (p, dir r2.Vec) { return curveAt(knots, c, deg, k, t) },
		knots[k], knots[k+1], d.o.Tolerance/f)
	if err != nil {
		return arc.Path{}, "not smooth within the tolerance between its knots"
	}
	return p, ""
}

// curveAt returns the point and the derivative, up to a factor above 0, at t
// between knots k and k+1, by de Boor's scheme (C. de Boor, A Practical Guide
// to Splines, 1978, ch. X): the last two of its points span the tangent.
func curveAt(knots []float64, c []r3.Vec, deg, k int, t float64) (p, dir r2.Vec) {
	var q [maxDegree + 1]r3.Vec
	copy(q[:], c[k-deg:k+1])
	var tangent r3.Vec
	for r := 1; r <= deg; r++ {
		if r == deg {
			tangent = r3.Sub(q[deg], q[deg-1])
		}
		for j := deg; j >= r; j-- {
			lo, hi := knots[j+k-deg], knots[j+1+k-r]
			a := (t - lo) / (hi - lo)
			q[j] = r3.Add(r3.Scale(1-a, q[j-1]), r3.Scale(a, q[j]))
		}
	}
	v := q[deg]
	p = r2.Vec{X: v.X / v.Z, Y: v.Y / v.Z}
	dir = r2.Vec{X: tangent.X*v.Z - v.X*tangent.Z, Y: tangent.Y*v.Z - v.Y*tangent.Z}
	return p, r2.Scale(1/(v.Z*v.Z), dir)
}
