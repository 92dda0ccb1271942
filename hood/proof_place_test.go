package hood

import (
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
		s := arc.Segment{A: r2.Vec{X: 400 * r.Float64()}, B: r2.Vec{X: 900 * r.Float64(), Y: 300 + 900*r.Float64()}, Turn: 0.6 * (r.Float64() - 0.5)}
		p, u := s.At(s.Length() * r.Float64())
		assert.Less(t, toSegment(p, s), 1e-10)
		off := 20 * r.Float64()
		q := r2.Add(p, r2.Scale(off, r2.Vec{X: -u.Y, Y: u.X}))
		assert.InDelta(t, off, toSegment(q, s), 1e-9)
	}
}
