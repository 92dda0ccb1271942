package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// drawArc draws an arc by chord and sag ratio, flat ones and major ones alike.
func drawArc(t *rapid.T) arc.Arc {
	chord := rapid.Float64Range(0.1, 5000).Draw(t, "chord")
	ratio := math.Pow(10, rapid.Float64Range(-9, 1).Draw(t, "log of sag/chord"))
	a, err := arc.FromChordSag(chord, chord*ratio)
	require.NoError(t, err)
	return a
}

// Each ordinate, and the area and centroid under them, by quadrature of the
// circle's own equation.
func TestOrdinatesAreOnTheCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawArc(t)
		s := a.OnChord()
		l := s.Length() * rapid.Float64Range(0, 1).Draw(t, "along")
		p, _ := s.At(l)
		if a.K() <= 1 { // rounding may put a point beside the chord's end
			p.X = math.Max(0, math.Min(p.X, a.Chord()))
		}
		up := a.K() <= 1 || p.Y >= a.Sag()-a.Radius() // the upper half of a major arc
		if up {
			slope := a.K() + 1/math.Max(1e-9, math.Abs(p.Y/a.Sag()-1)+1e-9) // a steep side magnifies x
			assert.InDelta(t, p.Y, a.Ordinate(p.X), 1e-9*a.Sag()*(1+slope))
		}
	})
}

func TestOrdinatesSumToTheArea(t *testing.T) {
	for _, sag := range []float64{1e-6, 0.5, 12, 100, 499} {
		a, err := arc.FromChordSag(1000, sag)
		require.NoError(t, err)
		// x = c/2·(1 − cos t) takes the steep ends out of the integrand.
		integrate := func(f func(y float64) float64) float64 {
			return quad.Fixed(func(t float64) float64 {
				return f(a.Ordinate(500*(1-math.Cos(t)))) * 500 * math.Sin(t)
			}, 0, math.Pi, 400, quad.Legendre{}, 0)
		}
		assert.InEpsilon(t, a.Area(), integrate(func(y float64) float64 { return y }), 1e-7)
		assert.InEpsilon(t, a.Centroid()*a.Area(), integrate(func(y float64) float64 { return y * y / 2 }), 1e-7)
	}
}

func TestOrdinateEdges(t *testing.T) {
	minor, err := arc.FromChordSag(8, 2)
	require.NoError(t, err)
	assert.Zero(t, minor.Ordinate(0))
	assert.Zero(t, minor.Ordinate(8))
	assert.Equal(t, 2.0, minor.Ordinate(4))
	for _, x := range []float64{-1e-9, 8.1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.True(t, math.IsNaN(minor.Ordinate(x)), x)
		_, err := minor.Ordinates([]float64{1, x})
		assert.ErrorIs(t, err, arc.ErrRange)
	}
	major, err := arc.FromChordSag(8, 8) // radius 5, center 3 above the chord
	require.NoError(t, err)
	assert.InDelta(t, 8, major.Ordinate(4), 1e-14)
	assert.InDelta(t, 6, major.Ordinate(0), 1e-14)
	assert.InDelta(t, 3, major.Ordinate(-1), 1e-7)
	assert.True(t, math.IsNaN(major.Ordinate(-1.01)))
	line, err := arc.FromChordSag(8, 0)
	require.NoError(t, err)
	y, err := line.Ordinates([]float64{0, 3, 8})
	assert.Equal(t, []float64{0, 0, 0}, y)
	assert.NoError(t, err)
}

func TestDivideIsEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawArc(t)
		n := rapid.IntRange(1, 60).Draw(t, "n")
		p, err := a.Divide(n)
		require.NoError(t, err)
		require.Len(t, p, n+1)
		part, err := arc.FromRadiusTurn(a.Radius(), a.Turn()/arc.Angle(n))
		require.NoError(t, err)
		for i := range n {
			assert.InEpsilon(t, part.Chord(), r2.Norm(r2.Sub(p[i+1], p[i])), 1e-6)
		}
	})
	a, _ := arc.FromChordSag(1, 1)
	for _, n := range []int{0, -1, math.MinInt, math.MaxInt, 1<<20 + 1} {
		_, err := a.Divide(n)
		assert.ErrorIs(t, err, arc.ErrRange)
	}
}

func TestConcentric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawArc(t)
		d := a.Radius() * rapid.Float64Range(-0.99, 3).Draw(t, "d/R")
		b, err := a.Concentric(d)
		require.NoError(t, err)
		assert.InEpsilon(t, a.Radius()+d, b.Radius(), 1e-9)
		assert.Equal(t, a.Turn(), b.Turn())
		_, err = a.Concentric(-1.01 * a.Radius())
		assert.ErrorIs(t, err, arc.ErrRange)
	})
}

func TestFacetSagIsWithinTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawArc(t)
		tol := a.Sag() * rapid.Float64Range(1e-4, 2).Draw(t, "tol/sag")
		n, err := a.Facets(tol)
		require.NoError(t, err)
		sag, err := a.FacetSag(n)
		require.NoError(t, err)
		assert.LessOrEqual(t, sag, tol*(1+1e-9))
		if n > 1 {
			sag, err = a.FacetSag(n - 1)
			require.NoError(t, err)
			assert.Greater(t, sag, tol*(1-1e-9), "one fewer would not do")
		}
		whole, err := a.FacetSag(1)
		require.NoError(t, err)
		assert.InEpsilon(t, a.Sag(), whole, 1e-12)
	})
}

func TestThreePointsAndTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(-8, 8).Draw(t, "k")
		s := arc.Segment{
			A: r2.Vec{X: rapid.Float64Range(-900, 900).Draw(t, "x"), Y: 7},
			B: r2.Vec{X: 1000, Y: rapid.Float64Range(-900, 900).Draw(t, "y")},
			K: k,
		}
		m, _ := s.At(s.Length() * rapid.Float64Range(0.05, 0.95).Draw(t, "m"))
		got, err := arc.ThreePoints(s.A, m, s.B)
		require.NoError(t, err)
		assert.InDelta(t, k, got.K, 1e-9*(1+k*k))
		_, u := s.At(0)
		got, err = arc.Tangent(s.A, r2.Scale(3, u), s.B)
		require.NoError(t, err)
		assert.InDelta(t, k, got.K, 1e-12*(1+k*k))
	})
}

func TestThreePointsSpecial(t *testing.T) {
	o, x, y := r2.Vec{}, r2.Vec{X: 10}, r2.Vec{X: 4}
	s, err := arc.ThreePoints(o, y, x)
	require.NoError(t, err)
	assert.Zero(t, s.K)
	for _, p := range [][3]r2.Vec{
		{o, o, x}, {o, x, x}, {o, x, o}, {o, {X: 11}, x}, {o, {X: -1}, x}, {o, {X: math.NaN()}, x}, {o, {Y: math.Inf(1)}, x},
	} {
		_, err := arc.ThreePoints(p[0], p[1], p[2])
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe, p)
	}
	for _, p := range [][3]r2.Vec{
		{o, {X: -1}, x}, {o, {}, x}, {o, {X: 1}, o}, {o, {X: math.NaN()}, x}, {o, {X: 1}, {X: math.Inf(1)}},
	} {
		_, err := arc.Tangent(p[0], p[1], p[2])
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe, p)
	}
	// Three points nearly in line: the sag comes back to its last bits.
	s, err = arc.ThreePoints(o, r2.Vec{X: 0.5, Y: -1e-9}, r2.Vec{X: 1})
	require.NoError(t, err)
	assert.InEpsilon(t, 2e-9, s.K, 1e-15)
}

// The nearest of many points along the segment is a bound from above.
func TestSegmentDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := arc.Segment{B: r2.Vec{X: 10, Y: 3}, K: rapid.Float64Range(-6, 6).Draw(t, "k")}
		p := r2.Vec{X: rapid.Float64Range(-40, 50).Draw(t, "x"), Y: rapid.Float64Range(-40, 40).Draw(t, "y")}
		nearest := math.Inf(1)
		for i := range 2001 {
			q, _ := s.At(s.Length() * float64(i) / 2000)
			nearest = math.Min(nearest, r2.Norm(r2.Sub(p, q)))
		}
		step := s.Length() / 4000
		assert.InDelta(t, nearest, s.Distance(p), 1e-9+math.Min(step, step*step*(1/nearest+math.Abs(s.Curvature()))))
	})
}

// On a flat arc, far from its center, the distance keeps its digits: points
// offset square to it by a known amount.
func TestDistanceFromFlatArcs(t *testing.T) {
	for _, k := range []float64{1e-12, 1e-8, 1e-4, -1e-6, 0} {
		s := arc.Segment{B: r2.Vec{X: 1000}, K: k}
		for _, d := range []float64{1e-6, 0.5, -3} {
			p, u := s.At(300)
			got := s.Distance(r2.Vec{X: p.X - d*u.Y, Y: p.Y + d*u.X})
			assert.InDelta(t, math.Abs(d), got, 1e-12)
		}
	}
}

// special are the numbers every function must take without a panic, an
// infinite loop or a result that is not a number.
var special = []float64{
	0, math.Copysign(0, -1), 1, -1, math.SmallestNonzeroFloat64, 1e-300, 1e-160, 1e-16, 1e16, 1e154, 1e160, 1e300,
	math.MaxFloat64, 3.1, math.Pi, 2 * math.Pi, math.Nextafter(2*math.Pi, 0), math.NaN(), math.Inf(1), math.Inf(-1),
}

func TestConstructorsTakeSpecialValues(t *testing.T) {
	angle := func(f func(float64, arc.Angle) (arc.Arc, error)) func(float64, float64) (arc.Arc, error) {
		return func(x, y float64) (arc.Arc, error) { return f(x, arc.Angle(y)) }
	}
	for name, f := range map[string]func(x, y float64) (arc.Arc, error){
		"chord sag": arc.FromChordSag, "chord length": arc.FromChordLength, "sag radius": arc.FromSagRadius,
		"radius length": arc.FromRadiusLength, "chord turn": angle(arc.FromChordTurn), "sag turn": angle(arc.FromSagTurn),
		"radius turn": angle(arc.FromRadiusTurn),
		"length turn": func(x, y float64) (arc.Arc, error) { return arc.FromLengthTurn(x, arc.Angle(y)) },
		"minor":       func(x, y float64) (arc.Arc, error) { return arc.FromChordRadius(x, y, false) },
		"major":       func(x, y float64) (arc.Arc, error) { return arc.FromChordRadius(x, y, true) },
		"low":         func(x, y float64) (arc.Arc, error) { return arc.FromSagLength(x, y, false) },
		"high":        func(x, y float64) (arc.Arc, error) { return arc.FromSagLength(x, y, true) },
	} {
		made := 0
		for _, x := range special {
			for _, y := range special {
				a, err := f(x, y)
				var pe *arc.ParamError
				if err != nil {
					assert.ErrorAs(t, err, &pe, "%s %v %v", name, x, y)
					assert.Equal(t, arc.Arc{}, a)
					continue
				}
				made++
				for _, v := range []float64{a.Chord(), a.K(), a.Sag(), float64(a.Turn())} {
					assert.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < 0, "%s %v %v: %v", name, x, y, a)
				}
				for _, v := range []float64{a.Radius(), a.Length(), a.Area(), a.Centroid(), a.Curvature()} {
					assert.False(t, math.IsNaN(v) || v < 0, "%s %v %v: %v", name, x, y, a)
				}
			}
		}
		assert.NotZero(t, made, name)
	}
}

func TestZeroArc(t *testing.T) {
	var a arc.Arc
	assert.Zero(t, a.Length())
	assert.Zero(t, a.Area())
	assert.Zero(t, a.Centroid())
	assert.Zero(t, a.Curvature())
	sag, err := a.FacetSag(3)
	assert.NoError(t, err)
	assert.Zero(t, sag)
	_, err = a.FacetSag(0)
	assert.ErrorIs(t, err, arc.ErrRange)
	for _, d := range special {
		_, err := a.Concentric(d)
		assert.Error(t, err)
	}
}

// Two arcs of sag 100 and length 300: one turns a little less than 267° and
// one a little more.
func TestSagLengthHasTwoAnswers(t *testing.T) {
	low, err := arc.FromSagLength(100, 300, false)
	require.NoError(t, err)
	high, err := arc.FromSagLength(100, 300, true)
	require.NoError(t, err)
	for _, a := range []arc.Arc{low, high} {
		assert.InEpsilon(t, 100, a.Sag(), 1e-14)
		assert.InEpsilon(t, 300, a.Length(), 1e-14)
	}
	assert.Less(t, low.Turn().Degrees(), 267.0)
	assert.Greater(t, high.Turn().Degrees(), 268.0)
	_, err = arc.FromSagLength(100, 315, true) // the full circle is 100π = 314.16 long
	assert.ErrorIs(t, err, arc.ErrRange)
	_, err = arc.FromSagLength(100, 276, false)
	assert.ErrorIs(t, err, arc.ErrRange)
}

var sink float64

func BenchmarkFromChordSagAndAll(b *testing.B) {
	b.ReportAllocs()
	sag := 45.0
	for b.Loop() {
		a, err := arc.FromChordSag(758.946638, sag)
		if err != nil {
			b.Fatal(err)
		}
		sink = a.K() + a.Chord() + a.Sag() + a.Radius() + float64(a.Turn()) + a.Length() + a.Area() + a.Curvature()
	}
}

func BenchmarkCentroid(b *testing.B) {
	b.ReportAllocs()
	a, _ := arc.FromChordSag(758.946638, 45)
	for b.Loop() {
		sink = a.Centroid()
	}
}
