package sheet_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// offcutJobs are layouts on whole and irregular sheets, with and without knots.
func offcutJobs(t *testing.T, outlines bool, do func(parts []sheet.Part, stock []sheet.Stock, l sheet.Layout, opt sheet.Options)) {
	rng := rand.New(rand.NewPCG(12, 5))
	for k := range 6 {
		st := sheetOf(1200, 800)
		if k%3 == 1 {
			st = sheet.Stock{Material: st.Material, Thickness: st.Thickness, Outline: arc.Region{Outer: arc.Polygon(r2.Vec{}, r2.Vec{X: 1300, Y: 100}, r2.Vec{X: 900, Y: 800}, r2.Vec{X: 80, Y: 760})}}
		}
		if k%3 == 2 {
			st.Forbidden = []arc.Region{{Outer: arc.Circle(r2.Vec{X: 900, Y: 400}, 60)}}
		}
		st.Count = 1
		var parts []sheet.Part
		for range 2 + rng.IntN(4) {
			g := bracket(float64(200+rng.IntN(400)), float64(200+rng.IntN(250)), 60)
			if rng.IntN(3) == 0 {
				g = arc.Region{Outer: arc.Rect(0, 0, 300, 260), Holes: []arc.Path{arc.Rect(30, 30, 270, 230).Reverse()}}
			}
			parts = append(parts, sheet.Part{Name: "p", Material: st.Material, Thickness: st.Thickness, Outline: g})
		}
		opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 20, Seed: uint64(k), TrueOffcuts: outlines}
		l, err := sheet.Nest(context.Background(), parts, []sheet.Stock{st}, opt)
		require.NoError(t, err)
		do(parts, []sheet.Stock{st}, l, opt)
	}
}

// Every offcut, taken as one more part, keeps the gap from all parts and lies on
// its sheet; none of two overlap; and no rectangle of 40 mm cells that is clear
// is larger than all of them.
func TestOffcutsAreClearAndTheLargest(t *testing.T) {
	inner := 0
	offcutJobs(t, false, func(parts []sheet.Part, stock []sheet.Stock, l sheet.Layout, opt sheet.Options) {
		s := l.Sheets[0]
		st := stock[0]
		require.NotEmpty(t, s.Offcuts)
		largest, sum := 0.0, 0.0
		for i, o := range s.Offcuts {
			with := append(parts[:len(parts):len(parts)], sheet.Part{Name: "offcut", Material: st.Material, Thickness: st.Thickness, Outline: o.Stock.Shape()})
			m := l
			// The two that cuts across a whole sheet free may hold what is forbidden.
			bare := st
			if i < 2 {
				bare.Forbidden = nil
			} else {
				inner++
			}
			m.Sheets = []sheet.Sheet{{Placements: append(s.Placements[:len(s.Placements):len(s.Placements)], sheet.Placement{Part: len(parts), At: o.At})}}
			require.NoError(t, sheet.Check(with, []sheet.Stock{bare}, m, sheet.Options{Gap: opt.Gap}))
			for _, q := range s.Offcuts[:i] {
				x := min(o.At.X+o.Stock.Length, q.At.X+q.Stock.Length) - max(o.At.X, q.At.X)
				y := min(o.At.Y+o.Stock.Width, q.At.Y+q.Stock.Width) - max(o.At.Y, q.At.Y)
				require.False(t, x > 1e-6 && y > 1e-6)
			}
			largest, sum = max(largest, o.Stock.Area()), sum+o.Stock.Area()
		}
		require.InDelta(t, max(0, st.Area()-l.Use*st.Area()-sum), l.Waste, 1e-3*st.Area())
		require.GreaterOrEqual(t, largest*1.0005, cellRectangle(parts, st, s, opt.Gap))
	})
	require.Greater(t, inner, 5)
}

// cellRectangle is the area of the largest rectangle of cells of 40 mm no point
// of which, of a raster of 5 mm, is off the sheet or nearer to a part than the gap.
func cellRectangle(parts []sheet.Part, st sheet.Stock, s sheet.Sheet, gap float64) float64 {
	shape := st.Shape()
	const cell = 40.0
	var placed []arc.Region
	for _, p := range s.Placements {
		placed = append(placed, parts[p.Part].Outline.Transform(p.Motion()))
	}
	free := func(v r2.Vec) bool {
		if shape.Locate(v) == arc.Outside {
			return false
		}
		for _, g := range placed {
			if g.Locate(v) != arc.Outside || g.Distance(v) < gap {
				return false
			}
		}
		for _, f := range st.Forbidden {
			if f.Locate(v) != arc.Outside || f.Distance(v) < gap {
				return false
			}
		}
		return true
	}
	clear := func(i, j int) bool {
		for a := 0.0; a <= cell; a += 5 {
			for b := 0.0; b <= cell; b += 5 {
				if !free(r2.Vec{X: cell*float64(i) + a, Y: cell*float64(j) + b}) {
					return false
				}
			}
		}
		return true
	}
	var tall [40]int
	best := 0
	for j := range 25 {
		for i := range tall {
			if tall[i]++; !clear(i, j) {
				tall[i] = 0
			}
		}
		for i := range tall {
			low := tall[i]
			for k := i; k < len(tall) && low > 0; k++ {
				low = min(low, tall[k])
				best = max(best, low*(k-i+1))
			}
		}
	}
	return float64(best) * cell * cell
}

// True outlines hold a point exactly where it is on the sheet and beyond the
// gap, but for pieces under a hundredth of the sheet; the next job lies on them.
func TestTrueOffcuts(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	offcutJobs(t, true, func(parts []sheet.Part, stock []sheet.Stock, l sheet.Layout, opt sheet.Options) {
		s := l.Sheets[0]
		st := stock[0]
		shape := st.Shape()
		missing, held := 0, 0
		const n = 3000
		for range n {
			v := r2.Vec{X: 1300 * rng.Float64(), Y: 800 * rng.Float64()}
			in := 0
			for _, o := range s.Offcuts {
				if o.Stock.Outline.Locate(r2.Sub(v, o.At)) == arc.Inside {
					in++
				}
			}
			free := shape.Locate(v) != arc.Outside
			for _, p := range s.Placements {
				g := parts[p.Part].Outline.Transform(p.Motion())
				free = free && g.Locate(v) == arc.Outside && g.Distance(v) >= opt.Gap-1e-6
			}
			require.LessOrEqual(t, in, 1)
			require.False(t, in == 1 && !free, "%v", v)
			if free && in == 0 {
				missing++
			}
			held += in
		}
		require.Less(t, missing, n/20)
		require.Greater(t, held, n/20)
		next := []sheet.Part{{Name: "small", Material: st.Material, Thickness: st.Thickness, Outline: disc(20)}}
		opt.TrueOffcuts = false
		m, err := sheet.Nest(context.Background(), next, []sheet.Stock{s.Offcuts[0].Stock}, opt)
		require.NoError(t, err)
		require.Empty(t, m.Unplaced)
		require.NoError(t, sheet.Check(next, []sheet.Stock{s.Offcuts[0].Stock}, m, opt))
	})
}
