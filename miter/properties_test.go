package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// The invariants of corners and seams, one a test.

func anyBoard(t *rapid.T, name string, thick bool) miter.Board {
	b := miter.Board{Tilt: arc.Angle(rapid.Float64Range(20, 160).Draw(t, name+" tilt")) * arc.Degree}
	if thick {
		b.Thickness = rapid.Float64Range(6, 40).Draw(t, name+" thickness")
	}
	return b
}

// anyCorner draws a mitered corner that has a seam.
func anyCorner(t *rapid.T) (miter.Corner, miter.Cuts) {
	thick := rapid.Bool().Draw(t, "thick")
	c := miter.Corner{
		Plan:   arc.Angle(rapid.Float64Range(30, 330).Draw(t, "plan")) * arc.Degree,
		First:  anyBoard(t, "first", thick),
		Second: anyBoard(t, "second", thick),
	}
	cuts, err := c.Cuts()
	if err != nil {
		t.Skip(err)
	}
	return c, cuts
}

// outward returns the outward normals of both faces: the corner at the origin,
// its bisector inward along -x, the walls half the plan angle to each side.
func outward(c miter.Corner) (n [2]r3.Vec) {
	for i, b := range [2]miter.Board{c.First, c.Second} {
		side := []float64{-1, 1}[i]
		sin, cos := math.Sincos(float64(c.Plan) / 2)
		// The wall runs from the corner along (-cos, side·sin); square to it and
		// outward, on the other side of it from the bisector.
		level := r3.Vec{X: sin, Y: side * cos}
		up, out := math.Cos(float64(b.Tilt)), math.Sin(float64(b.Tilt))
		n[i] = r3.Add(r3.Scale(out, level), r3.Vec{Z: up})
	}
	return n
}

func TestBevelsAddUpToWhatTheFacesTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, cuts := anyCorner(t)
		n := outward(c)
		turn := math.Acos(math.Max(-1, math.Min(1, r3.Dot(n[0], n[1]))))
		sum := float64(cuts.First.Bevel + cuts.Second.Bevel)
		assert.InDelta(t, math.Pi-float64(cuts.Dihedral), sum, 1e-12)
		assert.InDelta(t, turn, math.Abs(sum), 1e-7, "acos of a number near 1 keeps half the digits")
	})
}

func TestSwappedBoardsSwapTheAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, cuts := anyCorner(t)
		c.First, c.Second = c.Second, c.First
		got, err := c.Cuts()
		require.NoError(t, err)
		assert.InDelta(t, float64(cuts.First.Miter), float64(got.Second.Miter), 1e-12)
		assert.InDelta(t, float64(cuts.Second.Miter), float64(got.First.Miter), 1e-12)
		assert.InDelta(t, float64(cuts.First.Bevel), float64(got.Second.Bevel), 1e-12)
		assert.InDelta(t, float64(cuts.Second.Bevel), float64(got.First.Bevel), 1e-12)
		assert.InDelta(t, cuts.Seam.Y, -got.Seam.Y, 1e-12)
	})
}

func TestPlumbBoardsHaveNoFaceMiter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := anyCorner(t)
		c.First.Tilt, c.Second.Tilt = 90*arc.Degree, 90*arc.Degree
		cuts, err := c.Cuts()
		require.NoError(t, err)
		assert.InDelta(t, 0, float64(cuts.First.Miter), 1e-15)
		assert.InDelta(t, 0, float64(cuts.Second.Miter), 1e-15)
		assert.InDelta(t, float64(180*arc.Degree-c.Plan), float64(cuts.First.Bevel+cuts.Second.Bevel), 1e-12)
	})
}

func TestEqualProfilesMeetOverTheBisector(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(-0.25, 0.25).Draw(t, "k")
		top := r2.Vec{X: rapid.Float64Range(100, 400).Draw(t, "top"), Y: rapid.Float64Range(400, 900).Draw(t, "height")}
		panel := miter.Panel{Thickness: rapid.Float64Range(6, 25).Draw(t, "thickness"),
			Profile: arc.Path{V: []arc.Vertex{{P: r2.Vec{X: 500}, K: k}, {P: top}}}}
		p := miter.Pair{First: panel, Second: panel, Plan: arc.Angle(rapid.Float64Range(40, 300).Draw(t, "plan")) * arc.Degree}
		s, err := p.Seam()
		if err != nil {
			t.Skip(err)
		}
		at, err := s.At(s.Lower + (s.Upper-s.Lower)*rapid.Float64Range(0, 1).Draw(t, "height"))
		require.NoError(t, err)
		assert.InDelta(t, at.First.Show.X, at.Second.Show.X, 1e-9)
		assert.InDelta(t, float64(at.First.Bevel), float64(at.Second.Bevel), 1e-12)
		half := float64(p.Plan) / 2
		assert.InDelta(t, at.First.Show.X*math.Sin(half), at.Show.Y*math.Cos(half), 1e-8)
	})
}
