package bend_test

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The strain of a plan is that of its board; figures of a kerf that is off come
// from the closed forms w/(t - b/2) and b·a/(2w), worked by hand.
func TestKerfOffItsPlan(t *testing.T) {
	b := bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}
	a := 4 * arc.Degree
	assert.InDelta(t, 1.6*4*math.Pi/180/6.4, b.Strain(a), 1e-15)
	assert.InDelta(t, b.Strain(a), b.Strain(-a), 0)
	for _, c := range []struct{ zero, wide, strain, closing float64 }{
		{0.1, 0, 1.7 * 4 * math.Pi / 180 / 6.4, 3.2 / 18.15}, {-0.1, 0, 1.5 * 4 * math.Pi / 180 / 6.4, 3.2 / 18.25},
		{0, 0.1, 1.6 * 4 * math.Pi / 180 / 6.6, 3.3 / 18.2}, {0, -0.1, 1.6 * 4 * math.Pi / 180 / 6.2, 3.1 / 18.2},
	} {
		off := b.Off(c.zero, c.wide)
		assert.InDelta(t, c.strain, off.Strain(a), 1e-12)
		assert.InDelta(t, c.closing, float64(off.ClosingAngle()), 1e-12)
	}
	assert.ErrorIs(t, b.Off(-1.6, 0).Check(), bend.ErrRange)
	require.NoError(t, b.Off(0.1, 0.1).Check())
}
