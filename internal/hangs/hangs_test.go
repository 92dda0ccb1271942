package hangs

import (
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// A square cut all around is loose; what is left of a side holds it, if it is
// as high and as wide as asked.
func TestLoose(t *testing.T) {
	for _, c := range []struct {
		left, z float64 // length left of the last side, and how high
		want    []string
	}{
		{0, 0, []string{"part 0"}}, {8, 0, []string{"part 0"}}, {30, 3, nil}, {30, 2, []string{"part 0"}}, {12, 3, []string{"part 0"}},
	} {
		s, err := New(200, 200, 18, 0.5, []arc.Region{{Outer: arc.Rect(50, 50, 150, 150)}})
		require.NoError(t, err)
		p := []r2.Vec{{X: 46, Y: 46}, {X: 154, Y: 46}, {X: 154, Y: 154}, {X: 46, Y: 154}, {X: 46, Y: 46}}
		for i := range 4 {
			a, b := p[i], p[i+1]
			if i == 3 {
				s.Cut(Move{Way: arc.Segment{A: r2.Vec{X: 46, Y: 100 - c.left/2}, B: b}, Radius: 4})
				s.Cut(Move{Way: arc.Segment{A: a, B: r2.Vec{X: 46, Y: 100 + c.left/2}}, Radius: 4})
				a, b = r2.Vec{X: 46, Y: 100 + c.left/2}, r2.Vec{X: 46, Y: 100 - c.left/2}
			}
			z := 0.0
			if i == 3 {
				z = c.z
			}
			s.Cut(Move{Way: arc.Segment{A: a, B: b}, From: z, To: z, Radius: 4})
		}
		assert.Equal(t, c.want, s.Loose(2.9, 3, 100), "%+v", c)
	}
}
