package sheet_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

func panel(name string, l, w float64, qty int) sheet.Part {
	return sheet.Part{Name: name, Qty: qty, Material: "ply", Thickness: 12, Outline: arc.Region{Outer: arc.Rect(0, 0, l, w)}}
}

// sawn makes the cuts one by one, knowing nothing but where the blade runs: a
// cut must go from edge to edge of one piece, and what it leaves are two
// pieces. It returns the pieces that are left.
func sawn(t require.TestingT, panel r2.Box, saw sheet.Saw, cuts []sheet.SawCut) []r2.Box {
	pieces := []r2.Box{panel}
	const e = 1e-6
	for _, c := range cuts {
		hit := -1
		for i, p := range pieces {
			lo, hi, from, to := p.Min.X, p.Max.X, p.Min.Y, p.Max.Y
			if c.AlongX {
				lo, hi, from, to = from, to, lo, hi
			}
			if c.At > lo-saw.Kerf-e && c.At < hi+e && math.Abs(c.From-from) < e && math.Abs(c.To-to) < e {
				require.Equal(t, -1, hit, "a cut goes through two pieces")
				hit = i
			}
		}
		require.GreaterOrEqual(t, hit, 0, "cut %+v goes from edge to edge of no piece", c)
		p := pieces[hit]
		a, b := p, p
		if c.AlongX {
			a.Max.Y, b.Min.Y = c.At, math.Min(p.Max.Y, c.At+saw.Kerf)
		} else {
			a.Max.X, b.Min.X = c.At, math.Min(p.Max.X, c.At+saw.Kerf)
		}
		pieces[hit] = a
		pieces = append(pieces, b)
	}
	return pieces
}

// requireCut demands that every part comes off the saw as a piece of its own.
func requireCut(t require.TestingT, parts []sheet.Part, stock []sheet.Stock, saw sheet.Saw, l sheet.SawLayout) {
	for i, s := range l.Sheets {
		st := stock[s.Stock]
		st.Length, st.Width = st.Length-saw.Trim, st.Width-saw.Trim
		var cuts []sheet.SawCut
		for _, c := range l.Cuts[i] {
			if c.Stage > 0 {
				cuts = append(cuts, c)
			}
		}
		pieces := sawn(t, r2.Box{Min: r2.Vec{X: saw.Trim, Y: saw.Trim}, Max: r2.Vec{X: st.Length, Y: st.Width}}, saw, cuts)
		for _, p := range s.Placements {
			b := parts[p.Part].Outline.Transform(p.Motion()).Bounds()
			found := false
			for _, q := range pieces {
				found = found || r2.Norm(r2.Sub(q.Min, b.Min)) < 1e-6 && r2.Norm(r2.Sub(q.Max, b.Max)) < 1e-6
			}
			require.True(t, found, "part %d comes off as no piece of its own: %v of %v", p.Part, b, pieces)
		}
	}
}

func TestStraightCutsFreeEveryPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		saw := sheet.Saw{
			Kerf: rapid.SampledFrom([]float64{0, 2.2, 3.2}).Draw(t, "kerf"), Trim: rapid.SampledFrom([]float64{0, 10}).Draw(t, "trim"),
			Stages: rapid.SampledFrom([]int{0, 2, 3}).Draw(t, "stages"), First: sheet.Direction(rapid.IntRange(0, 2).Draw(t, "first")),
			Exact: rapid.Bool().Draw(t, "exact"),
		}
		var parts []sheet.Part
		for range rapid.IntRange(1, 12).Draw(t, "parts") {
			p := panel("p", float64(rapid.IntRange(40, 900).Draw(t, "l")), float64(rapid.IntRange(40, 600).Draw(t, "w")), rapid.IntRange(1, 4).Draw(t, "qty"))
			p.Grain = sheet.Grain(rapid.IntRange(0, 2).Draw(t, "grain"))
			p.Outline = p.Outline.Transform(arc.Shift(r2.Vec{X: -20, Y: 33}))
			parts = append(parts, p)
		}
		stock := []sheet.Stock{sheetOf(2440, 1220), sheetOf(1220, 610)}
		stock[1].Count, stock[1].GrainAcross = 2, rapid.Bool().Draw(t, "across")
		l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 2})
		require.NoError(t, err)
		require.Empty(t, l.Unplaced)
		requireCut(t, parts, stock, saw, l)
		for i := range l.Cuts {
			for _, c := range l.Cuts[i] {
				if c.Stage == 1 && saw.First != sheet.EitherWay {
					require.Equal(t, saw.First == sheet.AlongLength, c.AlongX)
				}
				if saw.Stages > 0 {
					require.LessOrEqual(t, c.Stage, saw.Stages+1)
				}
			}
		}
	})
}

// A shelf of 600 by 300 out of 1220 by 610: four with a 3.2 mm kerf, and the
// blade has to be counted (4·600·300 would also fit five strips of area).
func TestStraightKerfCounts(t *testing.T) {
	stock := []sheet.Stock{sheetOf(1220, 610)}
	for kerf, sheets := range map[float64]int{3.2: 1, 20: 1, 20.1: 2} {
		l, err := sheet.NestStraight(context.Background(), []sheet.Part{panel("shelf", 600, 295, 4)}, stock, sheet.Saw{Kerf: kerf, Stages: 2}, sheet.Options{})
		require.NoError(t, err)
		assert.Len(t, l.Sheets, sheets, "kerf %g", kerf)
		assert.NotZero(t, l.Turns)
	}
}

// Six strips in a spiral fill a sheet and take more than three stages of cuts; three
// stages take a second sheet.
func TestStraightWithNoLimitOfStages(t *testing.T) {
	var parts []sheet.Part
	for _, s := range [][2]float64{{300, 700}, {700, 250}, {200, 450}, {500, 200}, {150, 250}, {350, 250}} {
		parts = append(parts, panel("strip", s[0], s[1], 1))
	}
	stock := []sheet.Stock{sheetOf(1000, 700)}
	for stages, sheets := range map[int]int{0: 1, 3: 2} {
		saw := sheet.Saw{Stages: stages}
		l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 20})
		require.NoError(t, err)
		require.Len(t, l.Sheets, sheets)
		requireCut(t, parts, stock, saw, l)
		if stages == 0 {
			assert.Greater(t, l.Stages, 3)
		}
	}
}
