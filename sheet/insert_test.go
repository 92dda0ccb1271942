package sheet_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// roomFor reports whether the box of a part has room on a sheet of a layout, clear
// of the boxes there, at some point of a raster.
func roomFor(l sheet.Layout, parts []sheet.Part, stock []sheet.Stock, part int, opt sheet.Options) bool {
	const step = 20.0
	w, h := parts[part].Size()
	for _, s := range l.Sheets {
		st := stock[s.Stock]
		var boxes []r2.Box
		for _, p := range s.Placements {
			boxes = append(boxes, parts[p.Part].Outline.Transform(p.Motion()).Bounds())
		}
		for _, d := range [2][2]float64{{w, h}, {h, w}} {
			for x := opt.Margin; x+d[0] <= st.Length-opt.Margin; x += step {
				for y := opt.Margin; y+d[1] <= st.Width-opt.Margin; y += step {
					free := true
					for _, b := range boxes {
						free = free && (b.Max.X+opt.Gap <= x || b.Min.X-opt.Gap >= x+d[0] || b.Max.Y+opt.Gap <= y || b.Min.Y-opt.Gap >= y+d[1])
					}
					if free {
						return true
					}
				}
			}
		}
	}
	return false
}

// Nothing is left out for which the sheets in use have plain room.
func TestNothingIsLeftOutThatHasRoom(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 5))
	left := 0
	for k := range 16 {
		st := sheetOf(float64(900+rng.IntN(1500)), float64(600+rng.IntN(600)))
		st.Count = 1
		var parts []sheet.Part
		for range 3 + rng.IntN(5) {
			l, w := float64(100+rng.IntN(700)), float64(80+rng.IntN(400))
			g := arc.Region{Outer: arc.Rect(0, 0, l, w)}
			if rng.IntN(2) == 0 {
				g = bracket(l+80, w+80, 60)
			}
			parts = append(parts, sheet.Part{Name: "p", Qty: 1 + rng.IntN(4), Material: st.Material, Thickness: st.Thickness, Outline: g})
		}
		for _, opt := range []sheet.Options{
			{Gap: 8, Margin: 10, Iterations: 2, Seed: uint64(k)}, {Gap: 8, Margin: 10, Time: 300 * time.Millisecond, Seed: uint64(k)},
		} {
			l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{st}, opt)
			require.NoError(t, err)
			for _, u := range l.Unplaced {
				left++
				require.False(t, roomFor(l, parts, []sheet.Stock{st}, u.Part, opt), "job %d: %v", k, u)
			}
		}
	}
	require.Greater(t, left, 10)
}
