package svg

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A conic is an ellipse by its center and two conjugate half diameters: the
// points c + u·cos t + v·sin t. A matrix maps it by mapping the three.
type conic struct{ c, u, v r2.Vec }

func (e conic) at(t float64) r2.Vec {
	sin, cos := math.Sincos(t)
	return r2.Add(e.c, r2.Add(r2.Scale(cos, e.u), r2.Scale(sin, e.v)))
}

// arc draws an elliptical arc of path data, by the steps of the standard (SVG
// 1.1, appendix F.6.5 and F.6.6): half axes that are too short grow until the
// ellipse passes through both ends.
func (p *pen) arc(rx, ry, degrees float64, large, sweep bool, to r2.Vec) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	switch {
	case to == p.pos:
		return
	case rx == 0 || ry == 0:
		p.line(to)
		return
	}
	m := turn(degrees)
	u, v := r2.Scale(rx, m.linear(r2.Vec{X: 1})), r2.Scale(ry, m.linear(r2.Vec{Y: 1}))
	// Half the way from end to start, where the ellipse is the unit circle.
	h := r2.Scale(0.5, r2.Sub(p.pos, to))
	w := r2.Vec{X: r2.Dot(h, u) / rx / rx, Y: r2.Dot(h, v) / ry / ry}
	q := math.Hypot(w.X, w.Y)
	if !(q > 0) || math.IsInf(q, 0) {
		p.fail("an arc of a size that cannot be used")
		p.line(to)
		return
	}
	if q > 1 {
		u, v, w = r2.Scale(q, u), r2.Scale(q, v), r2.Scale(1/q, w)
		q = 1
	}
	// The center stands off the middle of the chord to one side.
	f := math.Sqrt(math.Max(0, (1-q)*(1+q))) / q
	if large == sweep {
		f = -f
	}
	c := r2.Vec{X: f * w.Y, Y: -f * w.X}
	from := math.Atan2(w.Y-c.Y, w.X-c.X)
	sweepBy := math.Atan2(-w.Y-c.Y, -w.X-c.X) - from
	if sweep && sweepBy < 0 {
		sweepBy += 2 * math.Pi
	} else if !sweep && sweepBy > 0 {
		sweepBy -= 2 * math.Pi
	}
	mid := r2.Scale(0.5, r2.Add(p.pos, to))
	center := r2.Add(mid, r2.Add(r2.Scale(c.X, u), r2.Scale(c.Y, v)))
	p.bow(conic{center, u, v}, from, sweepBy, to)
}

// bow draws the ellipse from the parameter from on, by an angle, to a point.
func (p *pen) bow(e conic, from, by float64, to r2.Vec) {
	p.begin()
	m, end := p.at.m, p.at.m.apply(to)
	defer func() { p.pos = to }()
	e = conic{m.apply(e.c), m.linear(e.u), m.linear(e.v)}
	lu, lv := r2.Norm(e.u), r2.Norm(e.v)
	const round = 1e-9 // how far from a circle is one
	if math.Abs(lu-lv) <= round*lu && math.Abs(r2.Dot(e.u, e.v)) <= round*lu*lv {
		n := math.Ceil(math.Abs(by)/math.Pi - 1e-9)
		k := math.Copysign(math.Tan(math.Abs(by)/n/4), by*r2.Cross(e.u, e.v))
		for i := 1.0; i < n; i++ {
			p.add(k, e.at(from+by*i/n))
		}
		p.add(k, end)
		return
	}
	// The principal axes a and b are e at t0 and a quarter turn on.
	t0 := math.Atan2(2*r2.Dot(e.u, e.v), (lu-lv)*(lu+lv)) / 2
	a, b := r2.Sub(e.at(t0), e.c), r2.Sub(e.at(t0+math.Pi/2), e.c)
	rx, ry := r2.Norm(a), r2.Norm(b)
	if !(ry > 1e-9*rx && rx > 1e-9*ry) {
		p.fail("an ellipse without width, read as a line")
		p.add(0, end)
		return
	}
	t1, t2 := from-t0, from-t0+by
	q, why := p.d.approximate(func(tol float64) (arc.Path, error) {
		return arc.EllipticalArcContext(p.d.ctx, rx, ry, arc.Angle(math.Min(t1, t2)), arc.Angle(math.Max(t1, t2)), tol)
	})
	if why != "" {
		p.fail(why)
		p.add(0, end)
		return
	}
	if by < 0 {
		q = q.Reverse()
	}
	move := arc.Rotate(arc.Angle(math.Atan2(a.Y, a.X))).Then(arc.Shift(e.c))
	if r2.Cross(a, b) < 0 {
		move = arc.MirrorY().Then(move)
	}
	p.follow(q.Transform(move), end)
}

// follow draws a path that starts where the pen is and ends at a point.
func (p *pen) follow(q arc.Path, end r2.Vec) {
	for i := range q.NumSegments() {
		to := q.V[i+1].P
		if i == q.NumSegments()-1 {
			to = end
		}
		p.add(q.V[i].K, to)
	}
}

// approximate makes a curve within the tolerance, unless there were too many.
func (d *decoder) approximate(f func(tol float64) (arc.Path, error)) (arc.Path, string) {
	if d.curves++; d.curves > maxCurves || d.vertices > maxVertices || d.failed > maxFailed || d.ctx.Err() != nil {
		return arc.Path{}, "too many curves in the file"
	}
	q, err := f(d.o.Tolerance)
	if err != nil {
		d.failed++
		return q, "a curve that arcs cannot follow within the tolerance, read as a line"
	}
	return q, ""
}

// cubic draws a Bézier curve of the third degree.
func (p *pen) cubic(a, b, to r2.Vec) {
	m := p.at.m
	c := bezier{m.apply(p.pos), m.apply(a), m.apply(b), m.apply(to)}
	p.begin()
	p.pos = to
	c[0] = p.path.V[len(p.path.V)-1].P
	for _, c := range c.smooth() {
		p.bezier(c, 0)
	}
}

// bezier draws a curve that is smooth. What is smaller than the tolerance is
// drawn as a line, and what cannot be followed is halved until it is.
func (p *pen) bezier(c bezier, depth int) {
	size := c.size()
	if size == 0 {
		return
	}
	if size <= p.d.o.Tolerance/4 || c.straight(p.d.o.Tolerance*1e-3) {
		p.add(0, c[3])
		return
	}
	q, why := p.d.approximate(func(tol float64) (arc.Path, error) { return arc.ApproximateContext(p.d.ctx, c.curve(), 0, 1, tol) })
	switch {
	case why == "":
		p.follow(q, c[3])
	case depth < 12 && p.d.failed <= maxFailed && p.d.curves <= maxCurves && p.d.ctx.Err() == nil:
		x, y := c.split(0.5)
		p.bezier(x, depth+1)
		p.bezier(y, depth+1)
	default:
		p.fail(why)
		p.add(0, c[3])
	}
}
