package arc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// crumbled cuts every segment in up to n parts, off by up to d, with some
// vertices doubled.
func crumbled(rng *rand.Rand, p arc.Path, n int, d float64) arc.Path {
	out := arc.Path{Closed: p.Closed}
	off := func(v r2.Vec) r2.Vec {
		return r2.Add(v, r2.Scale(d, r2.Vec{X: rng.Float64() - 0.5, Y: rng.Float64() - 0.5}))
	}
	for i := range p.NumSegments() {
		s := p.Segment(i)
		m := 1 + rng.IntN(n)
		for j := range m {
			part := s.Part(s.Length()*float64(j)/float64(m), s.Length()*float64(j+1)/float64(m))
			out.V = append(out.V, arc.Vertex{P: off(part.A), K: part.K})
			if rng.IntN(5) == 0 {
				out.V = append(out.V[:len(out.V)-1], arc.Vertex{P: off(part.A)}, arc.Vertex{P: off(part.A), K: part.K})
			}
		}
	}
	if !p.Closed {
		out.V = append(out.V, arc.Vertex{P: p.V[len(p.V)-1].P})
	}
	return out
}

// TestCleanJoins: a path cut up and moved a little comes back with as many
// vertices as it had or fewer, and neither is off the other.
func TestCleanJoins(t *testing.T) {
	n := 120
	if testing.Short() {
		n = 40
	}
	const tol = 0.01
	legal, bad := 0, 0
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 17))
		p := star(rng, 3+rng.IntN(12), 60)
		if seed%3 == 0 {
			p = arc.Path{V: p.V}
		}
		d := []float64{0, 1e-9, tol / 20}[seed%3]
		given := crumbled(rng, p, 9, d)
		got, err := given.Clean(tol)
		require.NoError(t, err)
		require.Equal(t, p.Closed, got.Closed)
		require.LessOrEqual(t, len(got.V), len(p.V)+2, "seed %d", seed)
		for _, q := range along(given, 9) {
			require.LessOrEqual(t, got.Distance(q), tol, "seed %d", seed)
		}
		for _, q := range along(got, 33) {
			require.LessOrEqual(t, given.Distance(q), tol, "seed %d", seed)
		}
		if !p.Closed {
			require.Equal(t, given.V[0].P, got.V[0].P)
			require.Equal(t, given.V[len(given.V)-1].P, got.V[len(got.V)-1].P)
		}
		if p.Closed && p.Check(tol) == nil && given.Check(0) == nil {
			legal++
			if got.Check(tol) != nil {
				bad++
			}
		}
		again, err := got.Clean(tol)
		require.NoError(t, err)
		require.LessOrEqual(t, len(again.V), len(got.V))
	}
	assert.Greater(t, legal, n/4)
	assert.Zero(t, bad, "crosses itself")
}

func TestCleanKnown(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	// Facets of a circle become a few arcs again.
	f, err := arc.Circle(v(3, 4), 100).Flatten(0.01)
	require.NoError(t, err)
	require.Greater(t, len(f.V), 200)
	c, err := f.Clean(0.02)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(c.V), 4)
	assert.InEpsilon(t, math.Pi*1e4, c.Area(), 1e-3)
	// Though each chord is far shorter than the tolerance.
	f, err = arc.Circle(v(3, 4), 100).Flatten(1e-7)
	require.NoError(t, err)
	require.Less(t, f.Segment(0).Length(), 0.01)
	for _, closed := range []bool{true, false} {
		f.Closed = closed
		c, err = f.Clean(0.1)
		require.NoError(t, err)
		assert.LessOrEqual(t, len(c.V), 5)
		assert.InDelta(t, f.Length(), c.Length(), 0.4)
		for _, q := range along(f, 2)[:2000] {
			require.LessOrEqual(t, c.Distance(q), 0.1)
		}
	}
	for name, x := range map[string]struct {
		p    arc.Path
		n    int
		area float64
	}{
		"collinear":          {arc.Polygon(v(5, 0), v(10, 0), v(10, 10), v(7, 10), v(0, 10), v(0, 3), v(0, 0)), 4, 100},
		"needle outward":     {arc.Polygon(v(0, 0), v(10, 0), v(10, 5), v(20, 5), v(10, 5.001), v(10, 10), v(0, 10)), 4, 100},
		"needle at start":    {arc.Polygon(v(20, 0), v(10, 0.001), v(10, 10), v(0, 10), v(0, 0)), 4, 100},
		"needle inward":      {arc.Polygon(v(0, 0), v(5, 0), v(5, 8), v(5.001, 0), v(10, 0), v(10, 10), v(0, 10)), 4, 100},
		"doubled vertices":   {arc.Polygon(v(0, 0), v(0, 0), v(10, 0), v(10, 0), v(10, 10), v(0, 10), v(0, 10)), 4, 100},
		"a notch that stays": {arc.Polygon(v(0, 0), v(4, 0), v(4, 3), v(6, 3), v(6, 0), v(10, 0), v(10, 10), v(0, 10)), 8, 94},
	} {
		for _, m := range motions[:4] {
			got, err := x.p.Transform(m.m).Clean(0.01)
			require.NoError(t, err, name)
			f := m.m.Factor()
			if f != 1 {
				continue
			}
			assert.Len(t, got.V, x.n, "%s, %s", name, m.name)
			assert.InDelta(t, x.area, math.Abs(got.Area()), 0.2, "%s, %s", name, m.name)
		}
	}
	_, err = arc.Polygon(v(0, 0), v(10, 0), v(10, 0.001)).Clean(0.01)
	assert.ErrorIs(t, err, arc.ErrEmpty)
	r, err := region(arc.Rect(0, 0, 50, 50), arc.Polygon(v(10, 10), v(10, 20), v(10.001, 10)), arc.Circle(v(30, 30), 5).Reverse()).Clean(0.01)
	require.NoError(t, err)
	assert.Len(t, r.Holes, 1)
	require.NoError(t, r.Check(0))
	for _, x := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = arc.Rect(0, 0, 1, 1).Clean(x)
		assert.Error(t, err)
	}
}

// An outline traced as many short lines, as files of others have it.
func ExamplePath_Clean() {
	arch, err := arc.SegmentalArch(900, 120)
	if err != nil {
		fmt.Println(err)
		return
	}
	traced, _ := arch.Flatten(0.01)
	clean, err := traced.Clean(0.05)
	fmt.Printf("%d vertices became %d: radius %.1f of %.1f mm, %v\n", len(traced.V), len(clean.V), clean.Segment(0).Radius(), arch.Segment(0).Radius(), err)
	// Output:
	// 112 vertices became 2: radius 903.8 of 903.8 mm, <nil>
}
