package arc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// along returns n points in even lengths along a path.
func along(p arc.Path, n int) []r2.Vec {
	var out []r2.Vec
	for i := range p.NumSegments() {
		s := p.Segment(i)
		for j := range n {
			q, _ := s.At(s.Length() * float64(j) / float64(n-1))
			out = append(out, q)
		}
	}
	return out
}

// TestGapOfSegments compares with points tried by the hundred along both, then
// closer and closer around the nearest pair.
func TestGapOfSegments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawnSegment(t, "a"), drawnSegment(t, "b")
		if rapid.Bool().Draw(t, "flat") {
			a.K *= 1e-7
		}
		g, err := a.Path().Gap(b.Path())
		require.NoError(t, err)
		require.InDelta(t, g.Distance, r2.Norm(r2.Sub(g.P, g.Q)), 1e-9)
		p, _ := a.At(g.AtP)
		q, _ := b.At(g.AtQ)
		require.InDelta(t, 0, r2.Norm(r2.Sub(p, g.P))+r2.Norm(r2.Sub(q, g.Q)), 1e-9)
		require.InDelta(t, 0, a.Distance(g.P)+b.Distance(g.Q), 1e-9)
		best := math.Inf(1)
		const n = 60
		for i := range n + 1 {
			p, _ := a.At(a.Length() * float64(i) / n)
			best = math.Min(best, b.Distance(p))
		}
		// The least of all is no more than half a step less.
		require.LessOrEqual(t, g.Distance, best+1e-9)
		require.GreaterOrEqual(t, g.Distance, best-a.Length()/n/2-1e-9)
		back, err := b.Path().Gap(a.Path())
		require.NoError(t, err)
		require.InDelta(t, g.Distance, back.Distance, 1e-9)
	})
}

// TestGapOfPaths compares with the distance of many points of one from the
// other, and that of regions with where points lie.
func TestGapOfPaths(t *testing.T) {
	n := 200
	if testing.Short() {
		n = 60
	}
	apart, in, cross, legal := 0, 0, 0, 0
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 91))
		p := star(rng, 3+rng.IntN(8), 20+40*rng.Float64())
		q := star(rng, 3+rng.IntN(8), 3+40*rng.Float64()*rng.Float64()).Transform(arc.Shift(r2.Scale([]float64{0.1, 0.5, 1}[seed%3], r2.Vec{X: 150 * rng.Float64(), Y: 50 * rng.Float64()})))
		g, err := p.Gap(q)
		require.NoError(t, err)
		best, longest := math.Inf(1), 0.0
		for i := range p.NumSegments() {
			longest = math.Max(longest, p.Segment(i).Length())
		}
		for _, x := range along(p, 40) {
			best = math.Min(best, q.Distance(x))
		}
		require.LessOrEqual(t, g.Distance, best+1e-9)
		require.GreaterOrEqual(t, g.Distance, best-longest/78-1e-9, "seed %d", seed)
		a, b := arc.Region{Outer: p.Oriented(true)}, arc.Region{Outer: q.Oriented(true)}
		r, err := a.Gap(b)
		require.NoError(t, err)
		if p.Check(0) != nil || q.Check(0) != nil {
			continue // a star that crosses itself
		}
		legal++
		common, err := arc.Intersection([]arc.Region{a}, []arc.Region{b}, 0)
		require.NoError(t, err)
		switch {
		case g.Distance < 1e-6:
			cross++
			require.InDelta(t, 0, r.Distance, 1e-6)
		case len(common) > 0:
			in++
			require.Zero(t, r.Distance)
			require.Equal(t, r.P, r.Q)
			require.True(t, a.Distance(r.P) < 1e-9 && b.Distance(r.P) < 1e-9)
		default:
			apart++
			require.Equal(t, g.Distance, r.Distance)
		}
	}
	assert.True(t, apart > legal/5 && in > 0 && cross > legal/10 && legal > n/2, "%d %d %d of %d", apart, in, cross, legal)
	// A disc in the hole of a ring.
	ring := region(arc.Circle(r2.Vec{}, 50), arc.Circle(r2.Vec{}, 30).Reverse())
	g, err := ring.Gap(region(arc.Circle(r2.Vec{X: 10}, 12)))
	require.NoError(t, err)
	assert.InDelta(t, 8, g.Distance, 1e-12)
	assert.Equal(t, 1, g.LoopP)
	assert.InDelta(t, 30, g.P.X, 1e-9)
	assert.InDelta(t, 22, g.Q.X, 1e-9)
	_, err = region(arc.Circle(r2.Vec{}, 5).Reverse()).Gap(ring)
	assert.ErrorIs(t, err, arc.ErrOrientation)
	_, err = arc.Path{}.Gap(ring.Outer)
	assert.ErrorIs(t, err, arc.ErrEmpty)
}

// A shelf pin's hole and the edge of a curved cheek: how much wood is between.
func ExampleRegion_Gap() {
	edge := arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(400, 0, 0), arc.V(400, 300, 0.2), arc.V(0, 300, 0)}, Closed: true}
	pin := arc.Region{Outer: arc.Circle(r2.Vec{X: 180, Y: 200}, 2.5)}
	g, err := pin.Outer.Gap(edge)
	fmt.Printf("%.2f mm, from (%.2f, %.2f) to (%.2f, %.2f), %v\n", g.Distance, g.P.X, g.P.Y, g.Q.X, g.Q.Y, err)
	// Output:
	// 136.97 mm, from (179.87, 202.50) to (172.67, 339.28), <nil>
}
