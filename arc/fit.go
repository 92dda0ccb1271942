package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
)

// A CircleFit is the circle nearest to measured points.
type CircleFit struct {
	Center r2.Vec
	Radius float64
	RMS    float64 // root of the mean squared distance of the points, mm
	Max    float64 // largest distance of a point, mm
}

// FitCircle returns the circle for which the squared distances of the points
// sum to least, from at least three points that are not in line. The points
// may lie on a short and flat arc, but then measuring errors make for large
// errors of the radius: see what a change of one point does.
func FitCircle(points []r2.Vec) (CircleFit, error) {
	return FitCircleContext(context.Background(), points)
}

// FitCircleContext is [FitCircle], stopped with the context's error when ctx is done.
func FitCircleContext(ctx context.Context, points []r2.Vec) (CircleFit, error) {
	const fn = "arc.FitCircle"
	if len(points) < 3 {
		return CircleFit{}, &ParamError{fn, "points", len(points), "", "at least 3", ErrEmpty}
	}
	if err := needPoints(fn, points...); err != nil {
		return CircleFit{}, err
	}
	mean, size := middle(points)
	if size == 0 || math.IsInf(size, 0) {
		return CircleFit{}, &ParamError{fn, "points", size, "mm", "points apart, and not too far", ErrRange}
	}
	c, ok := algebraicCircle(points, mean, size)
	for range 50 {
		if err := ctx.Err(); err != nil {
			return CircleFit{}, err
		}
		if !ok {
			return CircleFit{}, &ParamError{fn, "points", len(points), "", "points that are not in line", ErrZeroArea}
		}
		var step float64
		if step, ok = c.improve(points, mean, size); step < 1e-14 {
			break
		}
	}
	out := CircleFit{Center: r2.Add(mean, r2.Scale(size, r2.Vec{X: c.x, Y: c.y})), Radius: size * c.r}
	for _, p := range points {
		d := math.Abs(r2.Norm(r2.Sub(p, out.Center)) - out.Radius)
		out.Max = math.Max(out.Max, d)
		out.RMS += d * d / float64(len(points))
	}
	out.RMS = math.Sqrt(out.RMS)
	return out, nil
}

// middle returns the mean of the points and how far they are from it at most.
func middle(points []r2.Vec) (mean r2.Vec, size float64) {
	for _, p := range points {
		mean = r2.Add(mean, r2.Scale(1/float64(len(points)), p))
	}
	for _, p := range points {
		size = math.Max(size, math.Hypot(p.X-mean.X, p.Y-mean.Y))
	}
	return mean, size
}

// circle is a center and radius in a frame where the points are of size 1.
type circle struct{ x, y, r float64 }

// algebraicCircle minimizes the sum of (q² − 2q·c − d)²: a first guess.
func algebraicCircle(points []r2.Vec, mean r2.Vec, size float64) (circle, bool) {
	a, b := mat.NewDense(len(points), 3, nil), mat.NewVecDense(len(points), nil)
	for i, p := range points {
		q := r2.Scale(1/size, r2.Sub(p, mean))
		a.SetRow(i, []float64{2 * q.X, 2 * q.Y, 1})
		b.SetVec(i, r2.Norm2(q))
	}
	var v mat.VecDense
	if err := v.SolveVec(a, b); err != nil {
		return circle{}, false
	}
	c := circle{x: v.AtVec(0), y: v.AtVec(1)}
	c.r = math.Sqrt(v.AtVec(2) + c.x*c.x + c.y*c.y)
	return c, c.r < 1e9
}

// improve makes one step of Gauss and Newton on the distances themselves and
// returns its size in proportion to the radius.
func (c *circle) improve(points []r2.Vec, mean r2.Vec, size float64) (float64, bool) {
	a, b := mat.NewDense(len(points), 3, nil), mat.NewVecDense(len(points), nil)
	for i, p := range points {
		q := r2.Scale(1/size, r2.Sub(p, mean))
		d := r2.Vec{X: q.X - c.x, Y: q.Y - c.y}
		l := math.Hypot(d.X, d.Y)
		if l == 0 {
			return 0, false
		}
		a.SetRow(i, []float64{d.X / l, d.Y / l, 1})
		b.SetVec(i, l-c.r)
	}
	var v mat.VecDense
	if err := v.SolveVec(a, b); err != nil {
		return 0, false
	}
	c.x, c.y, c.r = c.x+v.AtVec(0), c.y+v.AtVec(1), c.r+v.AtVec(2)
	step := (math.Abs(v.AtVec(0)) + math.Abs(v.AtVec(1)) + math.Abs(v.AtVec(2))) / c.r
	return step, c.r > 0 && c.r < 1e9
}

// SmoothThrough returns a path of tangent arcs that passes through the points
// in order, two arcs from each to the next. At each point it runs in the
// direction of the circle through it and its neighbours; at the ends of an
// open path that of the last three points. Two points make a line.
func SmoothThrough(points []r2.Vec, closed bool) (Path, error) {
	const fn = "arc.SmoothThrough"
	n := len(points)
	if n < 2 || closed && n < 3 {
		return Path{}, &ParamError{fn, "points", n, "", "at least 2, or 3 for a closed path", ErrEmpty}
	}
	if err := needPoints(fn, points...); err != nil {
		return Path{}, err
	}
	if n == 2 {
		return Polyline(points...), nil
	}
	out := Path{Closed: closed}
	last := n - 1
	if closed {
		last = n
	}
	for i := range last {
		j := (i + 1) % n
		pair, err := Biarc(points[i], direction(points, i, closed), points[j], direction(points, j, closed))
		if err != nil {
			return Path{}, &ParamError{fn, "points", points[j], "mm", "points apart that a smooth curve can take in this order", ErrRange}
		}
		out.V = append(out.V, Vertex{pair[0].A, pair[0].K}, Vertex{pair[1].A, pair[1].K})
	}
	if !closed {
		out.V = append(out.V, Vertex{P: points[n-1]})
	}
	return out, nil
}

// direction returns the direction at point i of the circle through it and its
// neighbours: the chords' directions mixed so that the nearer counts more.
func direction(points []r2.Vec, i int, closed bool) r2.Vec {
	n := len(points)
	at := func(j int) r2.Vec { return points[(j+n)%n] }
	if closed || i > 0 && i < n-1 {
		return circleDirection(at(i-1), at(i), at(i+1))
	}
	if i == 0 {
		return endDirection(at(0), at(1), at(2))
	}
	return r2.Scale(-1, endDirection(at(n-1), at(n-2), at(n-3)))
}

// circleDirection returns the tangent at q of the circle p, q, s.
func circleDirection(p, q, s r2.Vec) r2.Vec {
	u, v := r2.Sub(q, p), r2.Sub(s, q)
	return r2.Add(r2.Scale(r2.Norm2(v), u), r2.Scale(r2.Norm2(u), v))
}

// endDirection returns the tangent at p of the circle p, q, s: that at q
// mirrored in the chord from p to q.
func endDirection(p, q, s r2.Vec) r2.Vec {
	u, t := r2.Sub(q, p), circleDirection(p, q, s)
	return r2.Sub(r2.Scale(2*r2.Dot(t, u), u), r2.Scale(r2.Norm2(u), t))
}
