package cut

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A row of the grid through the ends of half circles, in an edge or in a
// straight line with it, tells inside from outside as arc does.
func TestRowThroughEndsOfArcs(t *testing.T) {
	bites := arc.Path{Closed: true, V: []arc.Vertex{
		arc.V(0, 7, 0), arc.V(12, 7, -1), arc.V(22, 7, 0), arc.V(22, 0, 0), arc.V(55, 0, 0), arc.V(55, 7, -1), arc.V(65, 7, 0),
		arc.V(77, 7, 0), arc.V(77, 41, 0), arc.V(0, 41, 0),
	}}
	for _, p := range []arc.Path{bites, arc.Circle(r2.Vec{X: 15, Y: 15}, 15), eared(0, 5, 40, 25, 5)} {
		for _, turn := range []float64{0, 90, 180, 270} {
			q := p.Transform(arc.Rotate(arc.Angle(turn) * arc.Degree).Then(arc.Shift(r2.Vec{X: 3.25, Y: -8.75})))
			loops := []loop{newLoop(q)}
			box := q.Bounds()
			seen, want := map[r2.Vec]bool{}, 0
			g := newGrid(box, 2)
			g.inside(loops, func(v r2.Vec, _ bool) {
				seen[v] = true
				assert.Greater(t, depth(loops, v, 9), -0.01, "%g: %v", turn, v)
				assert.True(t, q.Distance(v) < 0.01 || q.Contains(v), "%g: %v", turn, v)
			})
			for iy := range g.ny {
				for ix := range g.nx {
					v := r2.Vec{X: box.Min.X + 2*float64(ix) + 1, Y: box.Min.Y + 2*float64(iy) + 1}
					if q.Contains(v) && q.Distance(v) > 0.01 {
						want++
						assert.True(t, seen[v], "%g: %v is missed", turn, v)
					}
				}
			}
			assert.Greater(t, want, 100)
		}
	}
}
