package miter_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// edgesOf returns both blanks' edges, or the kind of refusal.
func edgesOf(p miter.Pair, tol float64) ([2][]miter.Edge, error) {
	s, err := p.Seam()
	if err != nil {
		return [2][]miter.Edge{}, err
	}
	a, b, err := s.Edges(tol)
	return [2][]miter.Edge{a, b}, err
}

// moved returns the pair with both profiles scaled by f, then raised by up and
// set out by out.
func moved(p miter.Pair, f, up, out float64) miter.Pair {
	m := arc.Scale(f).Then(arc.Shift(r2.Vec{X: out, Y: up}))
	for _, q := range []*miter.Panel{&p.First, &p.Second} {
		q.Profile = q.Profile.Transform(m)
		q.Thickness *= f
	}
	return p
}

// TestSeamInvariance swaps the panels of random pairs, which mirrors the
// corner, and raises, shifts and scales them: lengths, areas and extents of the
// edges must follow, and so must refusals.
func TestSeamInvariance(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	const tol = 0.01
	for range count(2000, 150, 30) {
		p := randomPair(r)
		want, err := edgesOf(p, tol)
		for name, c := range map[string]struct {
			pair  miter.Pair
			f     float64
			swap  bool
			shift bool
		}{
			"swapped": {miter.Pair{First: p.Second, Second: p.First, Plan: p.Plan}, 1, true, false},
			"raised":  {moved(p, 1, 1234.5, 0), 1, false, false},
			"out":     {moved(p, 1, 0, -321), 1, false, true},
			"small":   {moved(p, 0.125, 0, 0), 0.125, false, false},
			"large":   {moved(p, 1000, 0, 0), 1000, false, false},
		} {
			got, err2 := edgesOf(c.pair, tol*c.f)
			require.Equal(t, err == nil, err2 == nil, "%s: %v, %v", name, err, err2)
			if err != nil {
				continue
			}
			if c.swap {
				got[0], got[1] = got[1], got[0]
			}
			for i := range want {
				require.Equal(t, len(want[i]), len(got[i]), name)
				for j := range want[i] {
					same(t, name, want[i][j].Show, got[i][j].Show, c.f, tol, c.shift)
					same(t, name, want[i][j].Back, got[i][j].Back, c.f, tol, c.shift)
				}
			}
		}
	}
}

// same compares two edges whose arcs need not be the same.
func same(t *testing.T, name string, want, got arc.Path, f, tol float64, shifted bool) {
	t.Helper()
	w, g := want.Bounds(), got.Bounds()
	if !shifted {
		assert.InDelta(t, f*w.Min.X, g.Min.X, 3*tol*f, name)
		assert.InDelta(t, f*w.Max.X, g.Max.X, 3*tol*f, name)
	}
	assert.InDelta(t, f*(w.Max.X-w.Min.X), g.Max.X-g.Min.X, 3*tol*f, name)
	assert.InDelta(t, f*w.Min.Y, g.Min.Y, 3*tol*f, name)
	assert.InDelta(t, f*w.Max.Y, g.Max.Y, 3*tol*f, name)
	assert.InEpsilon(t, f*want.Length(), got.Length(), 1e-3, name)
}
