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
