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

// trimmed cuts off the edges: the blade of a trim cut takes what is beyond it,
// seen from the middle of what the parts take.
func trimmed(t require.TestingT, b r2.Box, middle r2.Vec, cuts []sheet.SawCut) (r2.Box, []sheet.SawCut) {
	for i, c := range cuts {
		if c.Stage > 0 {
			return b, cuts[i:]
		}
		switch {
		case c.AlongX:
			require.Equal(t, [2]float64{b.Min.X, b.Max.X}, [2]float64{c.From, c.To}, "from edge to edge")
			if c.At < middle.Y {
				b.Min.Y = c.At
			} else {
				b.Max.Y = c.At
			}
		default:
			require.Equal(t, [2]float64{b.Min.Y, b.Max.Y}, [2]float64{c.From, c.To}, "from edge to edge")
			if c.At < middle.X {
				b.Min.X = c.At
			} else {
				b.Max.X = c.At
			}
		}
	}
	return b, nil
}

// requireCut demands that every part comes off the saw as a piece of its own.
func requireCut(t require.TestingT, parts []sheet.Part, stock []sheet.Stock, saw sheet.Saw, l sheet.SawLayout) {
	for i, s := range l.Sheets {
		first := s.Placements[0]
		c := parts[first.Part].Outline.Transform(first.Motion()).Bounds()
		b, cuts := trimmed(t, stock[s.Stock].Shape().Bounds(), r2.Scale(0.5, r2.Add(c.Min, c.Max)), l.Cuts[i])
		pieces := sawn(t, b, saw, cuts)
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
		stock := []sheet.Stock{sheetOf(2440, 1220), sheetOf(1220, 610), sheetOf(1500, 900), sheetOf(0, 0)}
		stock[2].Count = rapid.IntRange(1, 2).Draw(t, "knotty")
		stock[2].Forbidden = []arc.Region{disc(70).Transform(arc.Shift(r2.Vec{X: 500, Y: 400})), {Outer: arc.Rect(1300, 800, 1600, 1000)}}
		stock[3].Count = 1
		stock[3].Outline = arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(50, 50, 0), arc.V(900, 0, 0.1), arc.V(1000, 500, 0), arc.V(500, 520, -0.2), arc.V(40, 800, 0)}, Closed: true}}
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

// Of a board with knots and of an angle the largest clear rectangle is cut out
// and used to the last millimeter; what is larger than that stays out.
func TestStraightUsesClearRectangles(t *testing.T) {
	knotty := sheetOf(1200, 500)
	knotty.Count = 1
	knotty.Forbidden = []arc.Region{{Outer: arc.Rect(290, 200, 310, 220)}, {Outer: arc.Rect(1150, 480, 1300, 600)}}
	angle := sheetOf(0, 0)
	angle.Count = 1
	angle.Outline = arc.Region{Outer: arc.Polygon(arc.V(50, 50, 0).P, arc.V(1000, 50, 0).P, arc.V(1000, 250, 0).P, arc.V(350, 250, 0).P, arc.V(350, 1050, 0).P, arc.V(50, 1050, 0).P)}
	for _, c := range []struct {
		name         string
		stock        sheet.Stock
		trim         float64
		length, wide float64 // of two shelves side by side with a kerf between
		offcut       float64
	}{
		// 480-10-4 high from x = 314: 886 by 466.
		{"knots", knotty, 10, 876, 231, 0}, {"knots, no trim", knotty, 0, 886, 236, 0},
		{"angle", angle, 0, 148, 1000, 0}, {"angle, trimmed", angle, 5, 143, 990, 0},
		{"offcut", angle, 0, 148, 796, 300 * 200},
	} {
		saw := sheet.Saw{Kerf: 4, Trim: c.trim}
		stock := []sheet.Stock{c.stock}
		parts := []sheet.Part{panel("shelf", c.length, c.wide, 2)}
		l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 5})
		require.NoError(t, err)
		require.Empty(t, l.Unplaced, c.name)
		requireCut(t, parts, stock, saw, l)
		sum := 0.0
		for _, o := range l.Sheets[0].Offcuts {
			require.Empty(t, o.Stock.Outline.Outer.V)
			require.Empty(t, o.Stock.Forbidden)
			sum += o.Stock.Area()
		}
		assert.InDelta(t, c.offcut, sum, 1e-6, c.name)
		parts = []sheet.Part{panel("shelf", c.length, c.wide+250, 1)}
		if c.offcut > 0 {
			continue
		}
		l, err = sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 5})
		require.NoError(t, err)
		require.Equal(t, []sheet.Unplaced{{Reason: sheet.TooLarge}}, l.Unplaced, c.name)
	}
}

// What the trim cuts take is no part of an offcut.
func TestStraightOffcutsAreTrimmed(t *testing.T) {
	p := panel("p", 500, 300, 1)
	p.Turns = sheet.NoTurn
	l, err := sheet.NestStraight(context.Background(), []sheet.Part{p}, []sheet.Stock{sheetOf(1000, 600)}, sheet.Saw{Kerf: 4, Trim: 10}, sheet.Options{Iterations: 1})
	require.NoError(t, err)
	require.Len(t, l.Sheets[0].Offcuts, 2)
	right := l.Sheets[0].Offcuts[0]
	assert.InDelta(t, 580, right.Stock.Width, 1e-9)
	assert.InDelta(t, 990-514, right.Stock.Length, 1e-9)
}
