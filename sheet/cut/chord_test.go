package cut

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A point on the common chord of the two halves of a circle is inside it, at
// whatever turn the halves meet.
func TestPointOnTheChordOfTwoArcs(t *testing.T) {
	for _, turn := range []float64{0, 90, 180, 270, 30, 45, 123.4} {
		c := r2.Vec{X: 3.5, Y: -2.25}
		p := arc.Circle(r2.Vec{}, 5).Transform(arc.Rotate(arc.Angle(turn) * arc.Degree).Then(arc.Shift(c)))
		for _, q := range []arc.Path{p, p.Reverse()} {
			loops := []loop{newLoop(q)}
			a, b := q.V[0].P, q.V[1].P
			for i := -6; i <= 16; i++ {
				f := float64(i) / 10
				at := r2.Add(r2.Scale(1-f, a), r2.Scale(f, b))
				want := 5 - r2.Norm(r2.Sub(at, c))
				if math.Abs(want) > 1e-6 {
					assert.InDelta(t, want, depth(loops, at, 9), 1e-9, "%g at %g", turn, f)
				}
			}
		}
	}
}
