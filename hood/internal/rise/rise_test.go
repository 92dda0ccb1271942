package rise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A point of an arc is no distance from it, and one beside it as far as it was
// moved off square.
func TestDistanceOfPointsOnAnArc(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	for range 2000 {
		s := arc.Segment{A: r2.Vec{X: 400 * r.Float64()}, B: r2.Vec{X: 900 * r.Float64(), Y: 300 + 900*r.Float64()}, K: 0.6 * (r.Float64() - 0.5)}
		p, u := s.At(s.Length() * r.Float64())
		path := arc.Path{V: []arc.Vertex{{P: s.A, K: s.K}, {P: s.B}}}
		assert.Less(t, path.Distance(p), 1e-10)
		off := 20 * r.Float64()
		q := r2.Add(p, r2.Scale(off, r2.Vec{X: -u.Y, Y: u.X}))
		assert.InDelta(t, off, path.Distance(q), 1e-9)
	}
}

// A rising arc is as far out at the height of any of its points as that point,
// from level tangents to arcs that are flat but for rounding.
func TestOutAtIsOnTheArc(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	for range 3000 {
		up := r2.Vec{X: 600 * (r.Float64() - 0.5), Y: 300 + 900*r.Float64()}
		// The most an arc can turn with both tangents still going up.
		most := math.Tan((math.Pi/2 - math.Abs(math.Atan2(up.X, up.Y))) / 2)
		turn := most * (2*r.Float64() - 1) * math.Pow(10, -12*float64(r.IntN(2))*r.Float64())
		if r.IntN(8) == 0 {
			turn = most
		}
		s := arc.Segment{B: up, K: turn}
		p, _ := s.At(s.Length() * r.Float64())
		x, ok := OutOn(s, p.Y, false)
		assert.True(t, ok)
		assert.InDelta(t, p.X, x, 1e-7, "%v at %v", s, p)
	}
}

// A path that goes through the line at a vertex ends there.
func TestEndAtAVertex(t *testing.T) {
	for _, k := range []float64{0, 1e-17, 0.1, -0.1} {
		p := arc.Path{V: []arc.Vertex{{P: r2.Vec{X: 5}}, {P: r2.Vec{X: 5, Y: 100}, K: k}, {P: r2.Vec{X: 4, Y: 300}}}}
		q, ok := EndAt(p, HalfPlane{r2.Vec{Y: 100}, r2.Vec{Y: 1}})
		assert.True(t, ok)
		assert.InDelta(t, 100, q.Length(), 1e-9)
		q, ok = StartAt(p, HalfPlane{r2.Vec{Y: 100}, r2.Vec{Y: -1}})
		assert.True(t, ok)
		assert.InDelta(t, p.Length()-100, q.Length(), 1e-9)
	}
}
