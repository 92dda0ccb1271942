package sheet_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// accepts tells whether an outline is taken for sound.
func accepts(r arc.Region) error {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := sheet.NestStrip(ctx, []sheet.Part{{Name: "p", Qty: 1, Material: "ply", Thickness: 12, Outline: r}}, 3000, sheet.Options{})
	if errors.Is(err, context.Canceled) {
		return nil // after all that is asked of parts
	}
	return err
}

// TestThinSpikes has outlines whose spikes and slots are thinner than any
// step beside them could be, in units down to a micrometer for the whole part:
// sound as long as float64 tells their sides apart, and crossing where they are
// as thick the other way.
func TestThinSpikes(t *testing.T) {
	for _, unit := range []float64{1, 1e-3, 20, 1e-6} {
		for _, w := range []float64{10, 1e-3, 1e-6, 1e-9, 1e-11} {
			for _, sign := range []float64{1, -1} {
				spike := arc.Polygon(r2.Vec{}, r2.Vec{X: 100}, r2.Vec{X: 100, Y: 50 - sign*w}, r2.Vec{X: 150, Y: 50},
					r2.Vec{X: 100, Y: 50 + sign*w}, r2.Vec{X: 100, Y: 90}, r2.Vec{Y: 90})
				slot := arc.Polygon(r2.Vec{}, r2.Vec{X: 100}, r2.Vec{X: 100, Y: 50 - sign*w}, r2.Vec{X: 30, Y: 50},
					r2.Vec{X: 100, Y: 50 + sign*w}, r2.Vec{X: 100, Y: 90}, r2.Vec{Y: 90})
				for name, p := range map[string]arc.Path{"spike": spike, "slot": slot} {
					p = p.Transform(arc.Scale(unit))
					err := accepts(arc.Region{Outer: p})
					what := fmt.Sprintf("%s %g thick in units of %g", name, sign*w, unit)
					if sign > 0 {
						assert.NoError(t, err, what)
					} else {
						assert.ErrorIs(t, err, arc.ErrCrossing, what)
					}
				}
			}
		}
	}
}

// TestOpenOutlines takes the outlines of open sets, some with such spikes.
func TestOpenOutlines(t *testing.T) {
	for _, name := range []string{"gardeyn7", "gardeyn9", "swim"} {
		parts, height := irregularSet(t, name)
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		_, err := sheet.NestStrip(ctx, parts, height, sheet.Options{})
		assert.NotErrorIs(t, err, arc.ErrCrossing, name)
		for _, p := range parts {
			assert.NoError(t, accepts(p.Outline), name)
		}
	}
}

// TestArcsTangentToWalls turns a notch with a round bottom, tangent to both of
// its walls, through positions in which rounding falls either way; and one
// whose bottom goes through the walls.
func TestArcsTangentToWalls(t *testing.T) {
	for i := range 15 {
		m := arc.Rotate(arc.Angle(i) * 7 * arc.Degree)
		for _, deep := range []float64{0, 1e-3, -1e-3} {
			r := 10.0
			// A bottom bulging by deep more than a half circle leaves the walls' line.
			p := arc.Path{Closed: true, V: []arc.Vertex{
				{P: r2.Vec{}}, {P: r2.Vec{X: 100}}, {P: r2.Vec{X: 100, Y: 80}}, {P: r2.Vec{X: 50 + r, Y: 80}},
				{P: r2.Vec{X: 50 + r, Y: 40}, K: -1 - deep}, {P: r2.Vec{X: 50 - r, Y: 40}}, {P: r2.Vec{X: 50 - r, Y: 80}}, {P: r2.Vec{Y: 80}},
			}}
			assert.NoError(t, accepts(arc.Region{Outer: p.Transform(m)}), "position %d, deep %g", i, deep)
			// A disc in a notch as wide: a loop beside it that touches both walls.
			hole := arc.Circle(r2.Vec{X: 50, Y: 60}, r+deep).Reverse()
			frame := arc.Polygon(r2.Vec{}, r2.Vec{X: 100}, r2.Vec{X: 100, Y: 80}, r2.Vec{Y: 80})
			narrow := arc.Region{Outer: frame.Transform(m), Holes: []arc.Path{hole.Transform(m),
				arc.Polygon(r2.Vec{X: 60, Y: 50}, r2.Vec{X: 60, Y: 70}, r2.Vec{X: 70, Y: 70}, r2.Vec{X: 70, Y: 50}).Transform(m),
				arc.Polygon(r2.Vec{X: 30, Y: 50}, r2.Vec{X: 30, Y: 70}, r2.Vec{X: 40, Y: 70}, r2.Vec{X: 40, Y: 50}).Transform(m)}}
			err := accepts(narrow)
			if deep > 0 {
				assert.ErrorIs(t, err, arc.ErrCrossing, "position %d", i)
			} else {
				assert.NoError(t, err, "position %d, deep %g", i, deep)
			}
		}
		// The same arc as part of one loop: a pin that touches or cuts both walls.
		for _, over := range []float64{0, 1e-3} {
			r := 10 + over
			k := math.Tan((math.Pi - 0.2) / 2) // nearly a full turn, from a neck at its foot
			sin, cos := math.Sincos(0.2)
			pin := arc.Path{Closed: true, V: []arc.Vertex{
				{P: r2.Vec{X: 40, Y: 0}}, {P: r2.Vec{X: 50 - r*sin, Y: 0}}, {P: r2.Vec{X: 50 - r*sin, Y: 30 - r*cos}, K: -k},
				{P: r2.Vec{X: 50 + r*sin, Y: 30 - r*cos}}, {P: r2.Vec{X: 50 + r*sin, Y: 0}}, {P: r2.Vec{X: 60, Y: 0}},
				{P: r2.Vec{X: 60, Y: 80}}, {P: r2.Vec{X: 90, Y: 80}}, {P: r2.Vec{X: 90, Y: -20}}, {P: r2.Vec{X: 10, Y: -20}}, {P: r2.Vec{X: 10, Y: 80}}, {P: r2.Vec{X: 40, Y: 80}},
			}}.Reverse()
			pin = pin.Oriented(true).Transform(m)
			err := accepts(arc.Region{Outer: pin})
			if over > 0 {
				assert.ErrorIs(t, err, arc.ErrCrossing, "position %d", i)
			} else {
				assert.NoError(t, err, "position %d", i)
			}
		}
	}
}

// TestCrossingOfPolygons compares with the test of every pair of sides by
// exact fractions of whole numbers.
func TestCrossingOfPolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "n")
		var v []r2.Vec
		seen := map[r2.Vec]bool{}
		for len(v) < n {
			p := r2.Vec{X: float64(rapid.IntRange(0, 30).Draw(t, "x")), Y: float64(rapid.IntRange(0, 30).Draw(t, "y"))}
			if seen[p] {
				t.Skip()
			}
			seen[p] = true
			v = append(v, p)
		}
		side := func(a, b, c r2.Vec) int {
			x := int((b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X))
			return max(-1, min(1, x))
		}
		crosses := false
		for i := range v {
			for j := range i {
				a, b, c, d := v[i], v[(i+1)%n], v[j], v[(j+1)%n]
				s := [4]int{side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)}
				if i != (j+1)%n && j != (i+1)%n && (s[0] == 0 || s[1] == 0 || s[2] == 0 || s[3] == 0) {
					t.Skip() // touching, or in line
				}
				crosses = crosses || s[0]*s[1] < 0 && s[2]*s[3] < 0
			}
		}
		p := arc.Polygon(v...).Oriented(true)
		if p.Area() == 0 {
			t.Skip()
		}
		unit := math.Pow(10, float64(rapid.IntRange(-6, 2).Draw(t, "unit")))
		err := accepts(arc.Region{Outer: p.Transform(arc.Scale(unit))})
		assert.Equal(t, crosses, err != nil, "%v: %v", v, err)
	})
}
