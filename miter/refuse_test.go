package miter_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// special holds the values that random draws do not find.
var special = []float64{0, math.Copysign(0, -1), math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64,
	-math.MaxFloat64, math.SmallestNonzeroFloat64, 1e-300, 1e300, -1, math.Pi, math.Pi / 2, 2 * math.Pi}

// refused wants a typed error that names a function and a need, and no value
// that is not a number without one.
func refused(t *testing.T, err error, numbers ...float64) {
	t.Helper()
	var p *miter.ParamError
	if err != nil {
		require.True(t, errors.As(err, &p), "%v", err)
		assert.NotEmpty(t, p.Func)
		assert.NotEmpty(t, p.Need)
		assert.NotNil(t, p.Err)
		return
	}
	for _, n := range numbers {
		assert.False(t, math.IsNaN(n) || math.IsInf(n, 0), "%v", numbers)
	}
}

func TestSpecialValues(t *testing.T) {
	for i, a := range special {
		for j, b := range special {
			if testing.Short() && (i+j)%3 != 0 {
				continue
			}
			c := miter.Corner{Plan: arc.Angle(a), First: miter.Board{Tilt: arc.Angle(b), Thickness: a}, Second: miter.Board{Tilt: 1, Thickness: b}}
			for _, c.Joint = range []miter.Joint{-1, 0, 1, 2, 3} {
				for _, c.Plan = range []arc.Angle{arc.Angle(a), 1} {
					cuts, err := c.Cuts()
					refused(t, err, float64(cuts.First.Bevel), float64(cuts.Second.Bevel), float64(cuts.First.Miter), cuts.Seam.X, cuts.Second.Setback)
				}
			}
			_, err := miter.FromNormals(r3.Vec{X: a, Y: b, Z: 1}, r3.Vec{X: b, Z: a})
			refused(t, err)
			_, err = miter.Crown(arc.Angle(a), arc.Angle(b), false)
			refused(t, err)
			_, err = miter.RegularBox(4, arc.Angle(a))
			refused(t, err)
			p := flared()
			p.First.Profile.V[0].P.X = a
			p.First.Profile.V[1].K = b
			seams(t, p)
			p = flared()
			p.First.Profile.V[0].K = a
			p.Second.Thickness = math.Abs(b)
			seams(t, p)
			p = flared()
			p.Plan, p.First.Profile.V[1].P.Y = arc.Angle(a), b
			seams(t, p)
		}
	}
}

// seams asks everything of a pair that may be nonsense.
func seams(t *testing.T, p miter.Pair) {
	s, err := p.Seam()
	refused(t, err, s.Lower, s.Upper)
	for _, x := range append([]float64{428}, special...) {
		at, err := s.At(x)
		refused(t, err, at.Show.X, at.Back.X, float64(at.First.Bevel))
		trim, err := s.Trim(miter.First, x)
		refused(t, err, trim.Show, trim.Back, float64(trim.Bevel))
	}
	first, second, err := s.Edges(0.5)
	refused(t, err)
	if err == nil {
		fit, err := miter.Refit(miter.Blank{Panel: p.First, Edges: first}, miter.Blank{Panel: p.Second, Edges: second}, p.Plan)
		refused(t, err, fit.Show.Max(), fit.Face.Max(), fit.Back.Max())
	}
	_, gap, err := s.Steps(2)
	refused(t, err, gap)
}

// TestZeroSeam: the zero values are refused, not followed into a panic.
func TestZeroSeam(t *testing.T) {
	seams(t, miter.Pair{})
	_, err := miter.Refit(miter.Blank{}, miter.Blank{}, 1)
	refused(t, err)
	assert.Error(t, err)
	_, err = miter.Corner{}.Cuts()
	assert.ErrorIs(t, err, arc.ErrRange)
}

// TestNextToNothing: profiles that rise by next to nothing, whole or in every
// segment.
func TestNextToNothing(t *testing.T) {
	for _, h := range []float64{1e-3, 1e-6, 1e-7, 1e-12, 1e-300} {
		for _, n := range []int{1, 2, 30} {
			p := miter.Panel{Thickness: 5}
			for i := range n + 1 {
				p.Profile.V = append(p.Profile.V, arc.V(100, h*float64(i), 0))
			}
			seams(t, miter.Pair{First: p, Second: p, Plan: 1.5})
		}
	}
}

// TestReasons holds each reason to the case it is for.
func TestReasons(t *testing.T) {
	line := func(p ...r2.Vec) arc.Path { return arc.Polyline(p...) }
	plumb := line(r2.Vec{X: 500}, r2.Vec{X: 500, Y: 400})
	quarter := func(x, r, k float64) arc.Path {
		return arc.Path{V: []arc.Vertex{arc.V(x, 0, k), arc.V(x-r, r, 0)}}
	}
	k := math.Tan(math.Pi / 8)
	for name, c := range map[string]struct {
		first, second arc.Path
		t             float64
		plan          float64
		want          error
	}{
		"higher up":         {plumb, line(r2.Vec{X: 500, Y: 400}, r2.Vec{X: 500, Y: 900}), 19, 90, miter.ErrNoSeam},
		"in line":           {plumb, plumb, 19, 180.5, miter.ErrNoSeam},
		"level piece":       {plumb, line(r2.Vec{X: 500}, r2.Vec{X: 300}, r2.Vec{X: 300, Y: 400}), 19, 90, miter.ErrNotRising},
		"falls":             {line(r2.Vec{X: 500, Y: 400}, r2.Vec{X: 500}), plumb, 19, 90, miter.ErrNotRising},
		"turns down":        {plumb, arc.Path{V: []arc.Vertex{arc.V(500, 0, 0.9), arc.V(400, 400, 0)}}, 19, 90, miter.ErrNotRising},
		"repeated point":    {plumb, line(r2.Vec{X: 500}, r2.Vec{X: 500}, r2.Vec{X: 500, Y: 400}), 19, 90, miter.ErrNotRising},
		"bow too tight":     {plumb, quarter(500, 40, k), 40, 90, miter.ErrFold},
		"fold on fold":      {plumb, line(r2.Vec{X: 500}, r2.Vec{X: 450, Y: 100}, r2.Vec{X: 449, Y: 101}, r2.Vec{X: 300, Y: 101.5}), 19, 90, miter.ErrFold},
		"closed":            {plumb, arc.Rect(0, 0, 1, 1), 19, 90, arc.ErrRange},
		"one point":         {plumb, line(r2.Vec{}), 19, 90, arc.ErrEmpty},
		"no thickness":      {plumb, plumb, 0, 90, arc.ErrRange},
		"endless thickness": {plumb, plumb, math.Inf(1), 90, arc.ErrRange},
		"level top behind":  {quarter(500, 300, k), line(r2.Vec{X: 500}, r2.Vec{X: 480, Y: 300}), 19, 90, miter.ErrNoSeam},
	} {
		p := miter.Pair{First: miter.Panel{Profile: c.first, Thickness: c.t}, Second: miter.Panel{Profile: c.second, Thickness: c.t}, Plan: deg(c.plan)}
		s, err := p.Seam()
		if err == nil {
			_, _, err = s.Edges(0.01)
		}
		assert.ErrorIs(t, err, c.want, name)
	}
	_, err := miter.Corner{Plan: deg(180), First: miter.Board{Tilt: deg(80)}, Second: miter.Board{Tilt: deg(70)}}.Cuts()
	assert.ErrorIs(t, err, miter.ErrNoSeam)
	_, err = miter.Corner{Plan: deg(90), First: miter.Board{Tilt: 0}, Second: miter.Board{Tilt: deg(70)}}.Cuts()
	assert.ErrorIs(t, err, miter.ErrNoSeam)
	_, err = miter.FromNormals(r3.Vec{Z: 1}, r3.Vec{X: 1})
	assert.ErrorIs(t, err, miter.ErrNoSeam)
}
