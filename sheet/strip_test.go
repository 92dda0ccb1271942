package sheet_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

func TestStripRandom(t *testing.T) {
	rapidN(t, cases(3, 8, 200), func(t *rapid.T) {
		parts, _, opt := drawJob(t)
		for i := range parts {
			parts[i].Material, parts[i].Set = "ply", ""
			if parts[i].Grain == sheet.Across && parts[i].Turns > sheet.RightAngles {
				parts[i].Turns = sheet.RightAngles // else no turn suits
			}
		}
		opt.Workers = 1
		s, err := sheet.NestStrip(context.Background(), parts, 800, opt)
		require.NoError(t, err)
		require.Len(t, s.Placements, total(parts))
		requireApart(t, parts, []sheet.Stock{sheetOf(s.Length, 800)}, sheet.Sheet{Placements: s.Placements}, opt)
		opt.Workers = 2
		again, err := sheet.NestStrip(context.Background(), parts, 800, opt)
		require.NoError(t, err)
		require.Equal(t, s, again)
	})
}

// Rectangles that cut up a larger one, gap and margin put between and around
// them: the length is that of the larger one, to the micrometer.
func TestStripOfRectanglesIsExact(t *testing.T) {
	for _, gap := range []float64{0, 3.2} {
		parts := []sheet.Part{panel("a", 600-gap, 400-gap, 1), panel("b", 400-gap, 400-gap, 1), panel("c", 600-gap, 200-gap, 1), panel("d", 400-gap, 200-gap, 1)}
		s, err := sheet.NestStrip(context.Background(), parts, 600+2*10-gap, sheet.Options{Gap: gap, Margin: 10, Iterations: 20})
		require.NoError(t, err)
		assert.InDelta(t, 1000+2*10-gap, s.Length, 1e-6)
	}
}

// A part as long as the roll is wide goes across it only where it may turn.
func TestStripTooWide(t *testing.T) {
	p := panel("p", 300, 900, 1)
	s, err := sheet.NestStrip(context.Background(), []sheet.Part{p}, 820, sheet.Options{Margin: 10, Iterations: 1})
	require.NoError(t, err)
	assert.InDelta(t, 920, s.Length, 1e-9)
	p.Turns = sheet.NoTurn
	_, err = sheet.NestStrip(context.Background(), []sheet.Part{p}, 820, sheet.Options{Margin: 10, Iterations: 1})
	var e *sheet.ParamError
	require.ErrorAs(t, err, &e)
	assert.ErrorIs(t, err, arc.ErrRange)
}
