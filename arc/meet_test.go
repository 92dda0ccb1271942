package arc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Two arcs as flat as a neck half a millimeter narrower makes them, which meet
// at an angle of a few millionths, shift by the thickness of a board.
func TestShiftNearlyTangent(t *testing.T) {
	p := Path{V: []Vertex{V(10.25, 821.6499057597282, 2.5569782320452435e-06), V(10.120560683889266, 415.82495422272166, 8.387533829532688e-06), V(10, 10, 0)}}
	for _, by := range []float64{-19, -1, 1, 18.999676460711463, 19} {
		q, err := p.Shift([]float64{by}, 0)
		require.NoError(t, err)
		for i := range 3 {
			a, b := p.V[i].P, q.V[i].P
			require.InDelta(t, math.Abs(by), r2.Norm(r2.Sub(a, b)), 1e-6)
		}
		back, err := q.Shift([]float64{-by}, 0)
		require.NoError(t, err)
		for i := range 3 {
			require.InDelta(t, 0, r2.Norm(r2.Sub(back.V[i].P, p.V[i].P)), 1e-6)
		}
	}
}

// An arc whose radius overflows is flattened to its chord.
func TestFlattenToOverflowingRadius(t *testing.T) {
	for _, k := range []float64{-8.9e-308, 5e-324, 1e-300, -1e-200} {
		p := Path{Closed: true, V: []Vertex{V(31, 1, 0.15), V(-14, 27, 0.15), V(-14, -25, k)}}
		for _, side := range []Side{Inside, OnBoundary, Outside} {
			q, err := p.FlattenTo(side, 1)
			require.NoError(t, err)
			require.InDelta(t, p.Area(), q.Area(), 1.1*p.Length())
		}
	}
}
