package arc_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// tangentAt checks that a path turns nowhere by more than tol radians at its
// inner vertices.
func assertTangent(t require.TestingT, p arc.Path, tol float64) {
	for i := range p.NumSegments() {
		j := i + 1
		if j == p.NumSegments() {
			if !p.Closed {
				return
			}
			j = 0
		}
		s, u := p.Segment(i), p.Segment(j)
		_, a := s.At(s.Length())
		_, b := u.At(0)
		require.InDelta(t, 0, math.Atan2(r2.Cross(a, b), r2.Dot(a, b)), tol, "at vertex %d", j)
	}
}

// offEllipse is how far a point is from the ellipse about the origin, found by
// bisection on the normal's foot in the first quarter: nothing of the library
// is in it.
func offEllipse(p r2.Vec, rx, ry float64) float64 {
	x, y := math.Abs(p.X), math.Abs(p.Y)
	lo, hi := 0.0, math.Pi/2
	for range 200 {
		t := (lo + hi) / 2
		sin, cos := math.Sincos(t)
		// The derivative of half the squared distance.
		if (x-rx*cos)*rx*sin-(y-ry*sin)*ry*cos < 0 {
			lo = t
		} else {
			hi = t
		}
	}
	sin, cos := math.Sincos(lo)
	return math.Hypot(x-rx*cos, y-ry*sin)
}

func samples(p arc.Path, n int, f func(q r2.Vec)) {
	for i := range p.NumSegments() {
		s := p.Segment(i)
		for j := range n {
			q, _ := s.At(s.Length() * float64(j) / float64(n))
			f(q)
		}
	}
}

// A quarter ellipse of 600 by 200 within 0.01 mm takes at most 20 arcs, and is
// within 0.01 mm both ways: every point of the arcs from the ellipse, and
// every point of the ellipse from the arcs.
func TestQuarterEllipse(t *testing.T) {
	p, err := arc.EllipticalArc(600, 200, 0, 90*arc.Degree, 0.01)
	require.NoError(t, err)
	t.Logf("%d arcs", p.NumSegments())
	assert.LessOrEqual(t, p.NumSegments(), 20)
	worst := 0.0
	samples(p, 200, func(q r2.Vec) { worst = math.Max(worst, offEllipse(q, 600, 200)) })
	for i := range 4001 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / 4000)
		near := math.Inf(1)
		for j := range p.NumSegments() {
			near = math.Min(near, p.Segment(j).Distance(r2.Vec{X: 600 * cos, Y: 200 * sin}))
		}
		worst = math.Max(worst, near)
	}
	t.Logf("largest deviation %.6f mm", worst)
	assert.LessOrEqual(t, worst, 0.01)
	assertTangent(t, p, 1e-9)
	_, at := p.At(0)
	assert.InDelta(t, 0, at.X, 1e-9, "plumb at its end")
}

func TestEllipsesStayWithinTolerance(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range count(300, 20, 4) {
		rx := logUniform(r, 5, 3000)
		ry := rx * logUniform(r, 0.05, 20)
		tol := math.Min(rx, ry) * logUniform(r, 1e-6, 1e-2)
		p, err := arc.Ellipse(r2.Vec{}, rx, ry, tol)
		require.NoError(t, err, "%v %v %v", rx, ry, tol)
		worst := 0.0
		samples(p, 16, func(q r2.Vec) { worst = math.Max(worst, offEllipse(q, rx, ry)) })
		require.LessOrEqual(t, worst, tol, "%v %v %v", rx, ry, tol)
		assertTangent(t, p, 1e-7)
		assert.InDelta(t, math.Pi*rx*ry, p.Area(), tol*p.Length())
		assert.InEpsilon(t, arc.EllipseLength(rx, ry), p.Length(), 1e-2)
		b := p.Bounds()
		assert.InDelta(t, 2*rx, b.Max.X-b.Min.X, 2*tol)
		assert.InDelta(t, 2*ry, b.Max.Y-b.Min.Y, 2*tol)
	}
}

// The length around an ellipse by quadrature, and for a fine path; and of a
// part by the incomplete elliptic integral of the second kind.
func TestEllipseLength(t *testing.T) {
	for _, c := range [][2]float64{{600, 200}, {1, 1}, {3, 40}, {5, 5.001}} {
		rx, ry := c[0], c[1]
		want := 4 * quad.Fixed(func(t float64) float64 { return math.Hypot(rx*math.Sin(t), ry*math.Cos(t)) }, 0, math.Pi/2, 200, nil, 0)
		assert.InEpsilon(t, want, arc.EllipseLength(rx, ry), 1e-12)
	}
	// From the end of the short axis over an eccentric angle of 40°:
	// b·E(40° | 1 − a²/b²), b the long half axis.
	p, err := arc.EllipticalArc(600, 200, 50*arc.Degree, 90*arc.Degree, 1e-6)
	require.NoError(t, err)
	assert.InEpsilon(t, 600*mathext.EllipticE(40*math.Pi/180, 1-1.0/9), p.Length(), 1e-8)
	for _, c := range [][2]float64{{0, 1}, {-1, 1}, {math.NaN(), 1}} {
		assert.True(t, math.IsNaN(arc.EllipseLength(c[0], c[1])))
	}
}

func TestEllipticalArcAcrossTheAxes(t *testing.T) {
	whole, err := arc.EllipticalArc(300, 100, -200*arc.Degree, 160*arc.Degree, 0.01)
	require.NoError(t, err)
	assert.InDelta(t, arc.EllipseLength(300, 100), whole.Length(), 0.1)
	assertTangent(t, whole, 1e-7)
	part, err := arc.EllipticalArc(300, 100, 17*arc.Degree, 110*arc.Degree, 0.01)
	require.NoError(t, err)
	samples(part, 20, func(q r2.Vec) { assert.LessOrEqual(t, offEllipse(q, 300, 100), 0.01) })
	last := part.V[len(part.V)-1].P
	assert.InDelta(t, 300*math.Cos(110*math.Pi/180), last.X, 1e-9)
}

// Every arch starts and ends on its springing line, rises to its rise and is
// the same on both sides.
func assertArch(t require.TestingT, p arc.Path, span, rise float64) {
	require.Equal(t, r2.Vec{}, p.V[0].P)
	require.InDelta(t, span, p.V[len(p.V)-1].P.X, 1e-12*span)
	require.InDelta(t, 0, p.V[len(p.V)-1].P.Y, 1e-12*span)
	require.InEpsilon(t, rise, p.Bounds().Max.Y, 1e-12)
	turned := p.Transform(arc.MirrorX()).Reverse().Transform(arc.Shift(r2.Vec{X: span}))
	for i, v := range p.V {
		require.InDelta(t, 0, r2.Norm(r2.Sub(v.P, turned.V[i].P)), 1e-10*span)
	}
	for _, v := range p.V[:len(p.V)-1] {
		require.LessOrEqual(t, v.K, 0.0, "an arch turns right")
	}
}

func assertPlumb(t require.TestingT, p arc.Path) {
	_, u := p.At(0)
	require.InDelta(t, 0, u.X, 1e-9)
	require.Greater(t, u.Y, 0.0)
}

func TestArches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := rapid.Float64Range(10, 6000).Draw(t, "span")
		ratio := rapid.Float64Range(0.02, 0.49).Draw(t, "rise/span")

		p, err := arc.SegmentalArch(span, ratio*span)
		require.NoError(t, err)
		assertArch(t, p, span, ratio*span)

		p, err = arc.BasketArch(span, ratio*span)
		require.NoError(t, err)
		assertArch(t, p, span, ratio*span)
		assertTangent(t, p, 1e-9)
		assertPlumb(t, p)
		require.Equal(t, 3, p.NumSegments())

		rise := span * rapid.Float64Range(0.02, 1.1).Draw(t, "pointed rise/span")
		p, err = arc.FourCenteredArch(span, rise)
		require.NoError(t, err)
		require.Equal(t, 4, p.NumSegments())
		require.InDelta(t, rise, p.V[2].P.Y, 1e-12*rise)
		require.InEpsilon(t, rise, p.Bounds().Max.Y, 1e-9, "the point is the top")
		assertPlumb(t, p)
		half := arc.Path{V: p.V[:3]}
		assertTangent(t, half, 1e-9)
		_, start := half.Segment(1).At(0)
		_, top := half.At(half.Length())
		require.InDelta(t, math.Atan2(start.Y, start.X)/2, math.Atan2(top.Y, top.X), 1e-9)

		p, err = arc.EllipticalArch(span, rise, 0.001*math.Min(span, rise))
		require.NoError(t, err)
		assertArch(t, p, span, rise)
		assertPlumb(t, p)
		assertTangent(t, p, 1e-8)
	})
	p, err := arc.SemicircularArch(1000)
	require.NoError(t, err)
	assertArch(t, p, 1000, 500)
	assertPlumb(t, p)
}

// A three-centered arch of span 10 and rise 3, worked by hand: √34 − 2 =
// 3.830952 remains of the line to the crown; small radius half of that times
// √34/5 = 2.233822, large radius (√34 + 2)/2 · √34/3 = 7.610306.
func TestBasketArchByHand(t *testing.T) {
	p, err := arc.BasketArch(10, 3)
	require.NoError(t, err)
	h := math.Sqrt(34)
	assert.InDelta(t, (h-2)/2*h/5, p.Segment(0).Radius(), 1e-12)
	assert.InDelta(t, 2.233810, p.Segment(0).Radius(), 2e-5)
	assert.InDelta(t, (h+2)/2*h/3, p.Segment(1).Radius(), 1e-12)
	assert.InDelta(t, 0, p.Segment(0).Center().Y, 1e-12, "centers of the sides on the springing line")
	assert.InDelta(t, 5, p.Segment(1).Center().X, 1e-12)
}

// Length and sag of a hanging chain have closed forms: with the parameter a,
// length 2a·sinh(span/2a), rise a·cosh(span/2a) − a.
func TestCatenary(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range count(200, 15, 4) {
		a, u := logUniform(r, 10, 2000), logUniform(r, 0.01, 4)
		span, rise := 2*a*u, a*(math.Cosh(u)-1)
		length, err := arc.CatenaryLength(span, rise)
		require.NoError(t, err)
		require.InEpsilon(t, 2*a*math.Sinh(u), length, 1e-10)
		tol := span * logUniform(r, 1e-6, 1e-3)
		p, err := arc.Catenary(span, rise, tol)
		require.NoError(t, err)
		assertArch(t, p, span, rise)
		assertTangent(t, p, 1e-6)
		require.InEpsilon(t, length, p.Length(), 1e-2)
		// Off the curve by no more than tol: by no more than that either along
		// the plumb line or along the level.
		worst := 0.0
		samples(p, 16, func(q r2.Vec) {
			x, y := q.X-span/2, q.Y
			down := rise - y
			plumb := math.Abs(a*(math.Cosh(x/a)-1) - down)
			slope := math.Sinh(x / a)
			worst = math.Max(worst, plumb/math.Hypot(1, slope))
		})
		require.LessOrEqual(t, worst, tol*(1+1e-3))
	}
	// The chain of parameter 1 and half span 1: length 2·sinh 1 = 2.350402.
	l, err := arc.CatenaryLength(2, math.Cosh(1)-1)
	require.NoError(t, err)
	assert.InDelta(t, 2.3504023872876, l, 1e-12)
}

func TestOgee(t *testing.T) {
	a, b := r2.Vec{X: 540, Y: 140}, r2.Vec{X: 300, Y: 860}
	for _, sag := range []float64{30, -30, 0} {
		p, err := arc.Ogee(a, b, sag)
		require.NoError(t, err)
		assertTangent(t, p, 1e-12)
		assert.InDelta(t, math.Abs(sag), math.Abs(p.V[0].K)*p.Segment(0).Chord()/2, 1e-12)
		assert.Equal(t, r2.Vec{X: 420, Y: 500}, p.V[1].P)
		side := r2.Cross(r2.Sub(b, a), r2.Sub(p.Segment(0).Mid(), a))
		assert.Equal(t, sag < 0, side > 0, "a sag > 0 stands to the right first")
	}
}

func TestFitCircle(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for _, c := range []struct{ radius, from, turn float64 }{{100, 0, 6.2}, {1622.5, 1, 0.47}, {5000, 2, 0.05}, {3, 4, 2}} {
		var exact, noisy []r2.Vec
		for i := range 40 {
			sin, cos := math.Sincos(c.from + c.turn*float64(i)/39)
			exact = append(exact, r2.Vec{X: 700 + c.radius*cos, Y: -300 + c.radius*sin})
			e := 0.2 * r.NormFloat64()
			noisy = append(noisy, r2.Vec{X: 700 + (c.radius+e)*cos, Y: -300 + (c.radius+e)*sin})
		}
		f, err := arc.FitCircle(exact)
		require.NoError(t, err)
		assert.InEpsilon(t, c.radius, f.Radius, 1e-7)
		assert.Less(t, f.Max, 1e-7)
		// The nearest circle is no worse than the one the points were made
		// from, and no small change makes it better.
		f, err = arc.FitCircle(noisy)
		require.NoError(t, err)
		cost := func(center r2.Vec, radius float64) float64 {
			sum := 0.0
			for _, p := range noisy {
				sum += math.Pow(r2.Norm(r2.Sub(p, center))-radius, 2)
			}
			return sum
		}
		best := cost(f.Center, f.Radius)
		assert.InEpsilon(t, best, f.RMS*f.RMS*40, 1e-9)
		assert.LessOrEqual(t, best, cost(r2.Vec{X: 700, Y: -300}, c.radius))
		for _, d := range []r2.Vec{{X: 1e-3}, {X: -1e-3}, {Y: 1e-3}, {Y: -1e-3}} {
			assert.Less(t, best, cost(r2.Add(f.Center, d), f.Radius))
			assert.Less(t, best, cost(f.Center, f.Radius+d.X+d.Y))
		}
	}
}

func TestFitCircleRefuses(t *testing.T) {
	o, x := r2.Vec{}, r2.Vec{X: 1}
	for _, p := range [][]r2.Vec{
		nil, {o, x}, {o, o, o}, {o, x, {X: 2}}, {o, x, {X: 2}, {X: 7}}, {o, x, {X: math.NaN()}}, {o, x, {Y: math.Inf(1)}},
		{o, x, {X: math.MaxFloat64, Y: math.MaxFloat64}},
	} {
		_, err := arc.FitCircle(p)
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe, "%v", p)
	}
}

func TestSmoothThrough(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		var pts []r2.Vec
		n := 3 + r.IntN(12)
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			d := 100 + 30*r.Float64()
			pts = append(pts, r2.Vec{X: d * cos, Y: d * sin})
		}
		for _, closed := range []bool{false, true} {
			p, err := arc.SmoothThrough(pts, closed)
			require.NoError(t, err)
			assertTangent(t, p, 1e-9)
			for i, q := range pts {
				assert.Equal(t, q, p.V[2*i].P)
			}
		}
	}
	// Points of a circle give the circle.
	var pts []r2.Vec
	for i := range 7 {
		sin, cos := math.Sincos(float64(i))
		pts = append(pts, r2.Vec{X: 50 * cos, Y: 50 * sin})
	}
	p, err := arc.SmoothThrough(pts, false)
	require.NoError(t, err)
	assert.InEpsilon(t, 300, p.Length(), 1e-12)
	for i := range p.NumSegments() {
		assert.InEpsilon(t, 50, p.Segment(i).Radius(), 1e-9)
	}
	line, err := arc.SmoothThrough([]r2.Vec{{}, {X: 1}, {X: 4}, {X: 5}}, false)
	require.NoError(t, err)
	assert.InDelta(t, 5, line.Length(), 1e-15)
	for _, bad := range [][]r2.Vec{nil, {{}}, {{}, {}, {X: 1}}, {{}, {X: math.NaN()}, {X: 1}}, {{}, {X: 1}, {}}} {
		_, err := arc.SmoothThrough(bad, false)
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe, "%v", bad)
	}
}

func TestCurvesTakeSpecialValues(t *testing.T) {
	two := func(f func(a, b, tol float64) (arc.Path, error)) func(a, b, tol float64) (arc.Path, error) { return f }
	for name, f := range map[string]func(a, b, tol float64) (arc.Path, error){
		"segmental": two(func(a, b, _ float64) (arc.Path, error) { return arc.SegmentalArch(a, b) }),
		"basket":    two(func(a, b, _ float64) (arc.Path, error) { return arc.BasketArch(a, b) }),
		"four":      two(func(a, b, _ float64) (arc.Path, error) { return arc.FourCenteredArch(a, b) }),
		"semi":      two(func(a, _, _ float64) (arc.Path, error) { return arc.SemicircularArch(a) }),
		"ogee":      two(func(a, b, s float64) (arc.Path, error) { return arc.Ogee(r2.Vec{X: a}, r2.Vec{Y: b}, s) }),
		"ellipse":   two(func(a, b, tol float64) (arc.Path, error) { return arc.Ellipse(r2.Vec{}, a, b, tol) }),
		"part": two(func(a, b, tol float64) (arc.Path, error) {
			return arc.EllipticalArc(3, 2, arc.Angle(a), arc.Angle(b), tol)
		}),
		"elliptical": arc.EllipticalArch,
		"catenary":   arc.Catenary,
	} {
		made := 0
		some := []float64{0, -1, 1, 3, 1e-160, 1e-16, 1e16, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
		for _, a := range some {
			for _, b := range some {
				for _, tol := range []float64{0, 0.1, 1e-300, math.NaN(), math.Inf(1), -1} {
					p, err := f(a, b, tol)
					var pe *arc.ParamError
					if err != nil {
						require.ErrorAs(t, err, &pe, name)
						continue
					}
					made++
					require.NoError(t, p.Usable(), "%s %v %v %v", name, a, b, tol)
				}
			}
		}
		assert.NotZero(t, made, name)
	}
}

// A curve that no tangent arcs follow is refused: one that
// stands still, one that is nowhere.
func TestApproximateRefuses(t *testing.T) {
	for name, c := range map[string]arc.Curve{
		"still": func(float64) (p, d r2.Vec) { return r2.Vec{}, r2.Vec{X: 1} },
		"NaN":   func(float64) (p, d r2.Vec) { return r2.Vec{X: math.NaN()}, r2.Vec{X: 1} },
		"zero":  func(t float64) (p, d r2.Vec) { return r2.Vec{X: t}, r2.Vec{} },
	} {
		_, err := arc.Approximate(c, 0, 1, 1e-3)
		assert.ErrorIs(t, err, arc.ErrRange, name)
	}
	line := func(t float64) (p, d r2.Vec) { return r2.Vec{X: t}, r2.Vec{X: 1} }
	for _, c := range [][3]float64{{0, 0, 1}, {1, 0, 1}, {0, 1, 0}, {0, 1, -1}, {math.NaN(), 1, 1}, {0, math.Inf(1), 1}, {0, 1, math.NaN()}} {
		_, err := arc.Approximate(line, c[0], c[1], c[2])
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe)
	}
	p, err := arc.Approximate(line, 0, 1, 1e-9)
	require.NoError(t, err)
	assert.InDelta(t, 1, p.Length(), 1e-15)
}

// TestApproximateBreaks: corners are kept where breaks are, and detail between
// the points of a piece is found where breaks are as close as it is.
func TestApproximateBreaks(t *testing.T) {
	const tol = 1e-3
	check := func(c arc.Curve, t1 float64, breaks ...float64) float64 {
		p, err := arc.Approximate(c, 0, t1, tol, breaks...)
		require.NoError(t, err)
		dev := 0.0
		for i := range 4001 {
			q, _ := c(t1 * float64(i) / 4000)
			dev = math.Max(dev, p.Distance(q))
		}
		return dev
	}
	hops := func(t float64) (p, d r2.Vec) {
		sin, cos := math.Sincos(t)
		return r2.Vec{X: 10 * t, Y: 10 * math.Abs(sin)}, r2.Vec{X: 1, Y: math.Copysign(1, sin) * cos}
	}
	assert.LessOrEqual(t, check(hops, 9, 2*math.Pi, math.Pi, -1, 50), tol)
	p, err := arc.Approximate(hops, 0, 9, tol, math.Pi, 2*math.Pi)
	require.NoError(t, err)
	corners := 0
	for i := range p.NumSegments() - 1 {
		_, u := p.Segment(i).Tangents()
		v, _ := p.Segment(i + 1).Tangents()
		if r2.Dot(u, v) < 0.5 {
			corners++
		}
	}
	assert.Equal(t, 2, corners)
	// A bump a hundredth of the line long, between two of the points looked at.
	bump := func(t float64) (p, d r2.Vec) {
		x := (t - 50.8) / 0.5
		if math.Abs(x) >= 1 {
			return r2.Vec{X: t}, r2.Vec{X: 1}
		}
		w := 1 - x*x
		return r2.Vec{X: t, Y: w * w * w / 10}, r2.Vec{X: 1, Y: -6 * x * w * w / 5}
	}
	var close []float64
	for i := range 200 {
		close = append(close, float64(i)/2)
	}
	assert.Greater(t, check(bump, 100), 50*tol, "missed, as the page says")
	assert.LessOrEqual(t, check(bump, 100, close...), tol)
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		_, err := arc.Approximate(hops, 0, 9, tol, x)
		assert.ErrorIs(t, err, arc.ErrNotFinite)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = arc.ApproximateContext(ctx, hops, 0, 9, tol)
	assert.ErrorIs(t, err, context.Canceled)
}

func BenchmarkQuarterEllipse(b *testing.B) {
	b.ReportAllocs()
	var p arc.Path
	for b.Loop() {
		p, _ = arc.EllipticalArc(600, 200, 0, 90*arc.Degree, 0.01)
	}
	b.ReportMetric(float64(p.NumSegments()), "arcs")
}

func TestApproximateOfNothing(t *testing.T) {
	_, err := arc.Approximate(nil, 0, 1, 0.1)
	assert.ErrorIs(t, err, arc.ErrRange)
}
