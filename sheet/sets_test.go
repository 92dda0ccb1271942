package sheet

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// Beside a set, four hundred tiles, a hundred to a sheet, are packed in lots:
// all are placed, and no sheet is packed anew for each of them.
func TestSetsArePackedInLots(t *testing.T) {
	tile := Part{Thickness: 1, Qty: 400, Outline: arc.Region{Outer: arc.Rect(0, 0, 100, 50)}}
	pair := Part{Thickness: 1, Qty: 2, Set: "pair", Outline: arc.Region{Outer: arc.Rect(0, 0, 300, 100)}}
	parts, stock := []Part{tile, pair}, []Stock{{Thickness: 1, Length: 1000, Width: 500}}
	r := newRun(context.Background(), parts, stock, groups(parts, stock)[0], Options{Iterations: 1})
	calls := 0
	packer := func(items []rects.Item, bin rects.Size, seed uint64, stop rects.Stop) [][]rects.Placed {
		calls++
		return freeRects(items, bin, seed, stop)
	}
	p, err := r.rectangles(packing{rectPacker: packer})(r.copies(), r.cheapestFirst(), budget{})
	require.NoError(t, err)
	require.True(t, r.done(p))
	require.Len(t, p.sheets, 5)
	require.Less(t, calls, 150)
	placed := 0
	for _, s := range p.sheets {
		placed += len(s.Placements)
	}
	require.Equal(t, 402, placed)
}
