package sheet_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// bracket is an L with a rounded back and a round opening.
func bracket(l, w, leg float64) arc.Region {
	return arc.Region{
		Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, 0), arc.V(l, leg, 0), arc.V(leg, leg, 0), arc.V(leg, w, 0.4), arc.V(0, w, 0)}, Closed: true},
		Holes: []arc.Path{arc.Circle(arc.V(leg/2, leg/2, 0).P, leg/4).Reverse()},
	}
}

func shopParts() []sheet.Part {
	return []sheet.Part{
		{Name: "panel", Qty: 4, Material: "ply", Thickness: 12, Outline: arc.Region{Outer: arc.Rect(0, 0, 700, 400)}, Grain: sheet.Along},
		{Name: "bracket", Qty: 8, Material: "ply", Thickness: 12, Outline: bracket(400, 300, 80)},
		{Name: "disc", Qty: 6, Material: "ply", Thickness: 12, Outline: disc(60), Turns: sheet.NoTurn},
		{Name: "brace", Qty: 4, Material: "ply", Thickness: 12, Outline: bracket(250, 250, 50), Turns: sheet.AnyAngle, MirrorOK: true},
		{Name: "plinth", Qty: 2, Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 900, 100)}},
		{Name: "=beam", Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 9000, 100)}},
		{Name: "foil", Material: "foil", Thickness: 0.1, Outline: square(10)},
	}
}

func shopStock() []sheet.Stock {
	return []sheet.Stock{
		{Name: "large", Material: "ply", Thickness: 12, Length: 2440, Width: 1220, Price: 60},
		{Name: "small", Material: "ply", Thickness: 12, Length: 1220, Width: 610, Price: 20, Count: 2,
			Forbidden: []arc.Region{{Outer: arc.Circle(arc.V(300, 300, 0).P, 40)}}},
		{Name: "mdf", Material: "mdf", Thickness: 18, Length: 2800, Width: 2070, Price: 80},
	}
}

func TestNestShop(t *testing.T) {
	opt := sheet.Options{Gap: 8, Margin: 10, Seed: 1, Iterations: 20}
	parts, stock := shopParts(), shopStock()
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	require.NoError(t, sheet.Check(parts, stock, l, opt))
	assert.Equal(t, []sheet.Unplaced{{Part: 5, Reason: sheet.TooLarge}, {Part: 6, Reason: sheet.NoStock}}, l.Unplaced)
	assert.Positive(t, l.Use)
	again, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	assert.Equal(t, l, again)
	opt.Workers = 2
	again, err = sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	assert.Equal(t, l, again, "two workers")
}

func TestCutList(t *testing.T) {
	parts := shopParts()
	l := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{Part: 0}, {Part: 0, Copy: 1}}}, {Placements: []sheet.Placement{{Part: 0, Copy: 2}}}}}
	var b bytes.Buffer
	require.NoError(t, sheet.WriteCutList(&b, parts, l))
	assert.Equal(t, len(parts)+1, strings.Count(b.String(), "\r\n"), "RFC 4180 ends every record with CRLF")
	rec, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"panel", "4", "3", "ply", "12", "700", "400", "280000", "along", "1 2", ""}, rec[1])
	assert.Equal(t, "'=beam", rec[6][0])
	assert.Len(t, sheet.Labels(parts, l), 3)
}

func place(t *testing.T, parts []sheet.Part, stock []sheet.Stock, opt sheet.Options) sheet.Layout {
	t.Helper()
	if opt.Iterations == 0 {
		opt.Iterations = 30
	}
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	return l
}

// The sheet holds a frame and nothing beside it, so a plug has to go into the
// frame's opening, and a second one stays out.
func TestNestInsideOpenings(t *testing.T) {
	frame := ply("frame", arc.Region{Outer: arc.Rect(0, 0, 500, 300), Holes: []arc.Path{arc.Rect(50, 50, 450, 250).Reverse()}})
	plug := ply("plug", arc.Region{Outer: arc.Circle(arc.V(0, 0, 0).P, 85)})
	plug.Qty = 4
	frame.Turns, plug.Turns = sheet.RightAngles, sheet.NoTurn
	stock := sheetOf(510, 310)
	stock.Count = 1
	l := place(t, []sheet.Part{frame, plug}, []sheet.Stock{stock}, sheet.Options{Gap: 4, Margin: 5})
	require.Len(t, l.Sheets, 1)
	assert.Len(t, l.Sheets[0].Placements, 3, "two discs of 170 side by side in 400 by 200")
	assert.Len(t, l.Unplaced, 2)
}

// What is bought is the cheapest that will do: four panels of 1000 by 500 go
// on one sheet of 2100 by 1100 or, two each, on two of 1100 by 1100.
func TestNestBuysCheaply(t *testing.T) {
	parts := []sheet.Part{panel("p", 1000, 500, 4)}
	large, small := sheetOf(2100, 1100), sheetOf(1100, 1100)
	left := sheetOf(1050, 550)
	for _, c := range []struct {
		large, small, cost float64
		lefts              int
	}{
		{60, 20, 40, 0}, {60, 35, 60, 0}, {60, 25, 50, 0}, {60, 35, 35, 2}, {60, 50, 50, 2}, {60, 35, 0, 4}, {30, 35, 30, 1},
	} {
		large.Price, small.Price, left.Count = c.large, c.small, c.lefts
		stock := []sheet.Stock{large, small, left}
		if c.lefts == 0 {
			stock = stock[:2]
		}
		l := place(t, parts, stock, sheet.Options{Gap: 5, Margin: 10})
		assert.Empty(t, l.Unplaced)
		assert.Equal(t, c.cost, l.Cost, "%+v", c)
		s, err := sheet.NestStraight(context.Background(), parts, stock, sheet.Saw{Kerf: 4, Trim: 10}, sheet.Options{Iterations: 30})
		require.NoError(t, err)
		assert.Equal(t, c.cost, s.Cost, "straight %+v", c)
	}
}

// Two sets of two panels, sheets for three panels each: a set may not be
// split, so each has a sheet of its own, and with one sheet one set stays out
// although a third panel would go in.
func TestNestKeepsSets(t *testing.T) {
	a, b := panel("a", 400, 300, 2), panel("b", 390, 300, 2)
	a.Set, b.Set = "left", "right"
	stock := sheetOf(420, 950)
	l := place(t, []sheet.Part{a, b}, []sheet.Stock{stock}, sheet.Options{Gap: 5, Margin: 5})
	assert.Empty(t, l.Unplaced)
	assert.Len(t, l.Sheets, 2)
	stock.Count = 1
	l = place(t, []sheet.Part{a, b}, []sheet.Stock{stock}, sheet.Options{Gap: 5, Margin: 5})
	require.Len(t, l.Sheets, 1)
	assert.Len(t, l.Sheets[0].Placements, 2)
	assert.Len(t, l.Unplaced, 2)
	assert.Equal(t, sheet.SetSplit, l.Unplaced[0].Reason)
	b.Priority = 1
	l = place(t, []sheet.Part{a, b}, []sheet.Stock{stock}, sheet.Options{Gap: 5, Margin: 5})
	require.Len(t, l.Unplaced, 2)
	assert.Equal(t, 0, l.Unplaced[0].Part, "the set of higher priority stays")
	s, err := sheet.NestStraight(context.Background(), []sheet.Part{a, b}, []sheet.Stock{sheetOf(420, 950)}, sheet.Saw{Kerf: 4, Trim: 5}, sheet.Options{Iterations: 20})
	require.NoError(t, err)
	assert.Len(t, s.Sheets, 2)
}

// With room for one, the part of higher priority is placed, however small.
func TestNestPriority(t *testing.T) {
	a, b := panel("large", 400, 300, 1), panel("small", 210, 160, 1)
	stock := sheetOf(420, 320)
	stock.Count = 1
	for _, p := range [][2]int{{0, 2}, {-1, 0}, {0, math.MaxInt}, {math.MinInt, 1}, {math.MinInt, math.MaxInt}} {
		a.Priority, b.Priority = p[0], p[1]
		l := place(t, []sheet.Part{a, b}, []sheet.Stock{stock}, sheet.Options{})
		assert.Equal(t, []sheet.Unplaced{{Part: 0, Reason: sheet.NoRoom}}, l.Unplaced, "%v", p)
	}
}

// One panel in the corner leaves a rectangle along the whole width, and one
// beside the panel; both can be used as stock, with the defect they hold.
func TestOffcutsAreStock(t *testing.T) {
	stock := sheetOf(2000, 1000)
	stock.Price = 50
	stock.Forbidden = []arc.Region{disc(20).Transform(arc.Shift(arc.V(1500, 900, 0).P))}
	opt := sheet.Options{Gap: 8, Margin: 10, LeastSide: 100}
	l := place(t, []sheet.Part{panel("p", 600, 400, 1)}, []sheet.Stock{stock}, opt)
	require.Len(t, l.Sheets, 1)
	off := l.Sheets[0].Offcuts
	require.Len(t, off, 2)
	sum := 0.0
	for _, o := range off {
		sum += o.Stock.Area()
		assert.Zero(t, o.Stock.Price)
		assert.Equal(t, 1, o.Stock.Count)
	}
	assert.InDelta(t, 2000*1000-618*418, sum, 1, "all but the panel, its margins and a gap")
	assert.InDelta(t, 2000*1000-600*400-sum, l.Waste, 1)
	again := place(t, []sheet.Part{panel("q", 900, 380, 2)}, []sheet.Stock{off[0].Stock, off[1].Stock}, opt)
	assert.Empty(t, again.Unplaced)
	assert.Zero(t, again.Cost)
}

// What the progress tells never gets worse, and comes to the result.
func TestProgress(t *testing.T) {
	var seen []sheet.Progress
	opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 20, Workers: 2, Progress: func(p sheet.Progress) { seen = append(seen, p) }}
	l := place(t, shopParts(), shopStock(), opt)
	require.NotEmpty(t, seen)
	last := seen[len(seen)-1]
	n := 0
	for _, s := range l.Sheets {
		n += len(s.Placements)
	}
	assert.Equal(t, n, last.Placed)
	assert.Equal(t, len(l.Sheets), last.Sheets)
	assert.InDelta(t, l.Use, last.Use, 1e-9)
	for i := 1; i < len(seen); i++ {
		assert.GreaterOrEqual(t, seen[i].Elapsed, seen[i-1].Elapsed)
	}
}

// Boards of which the grain runs along y, and too few of the others: parts lie
// on both kinds, each turned to suit, and none is lost on the way.
func TestNestBothGrains(t *testing.T) {
	a := panel("a", 500, 300, 9)
	a.Grain, a.Turns = sheet.Along, sheet.RightAngles
	a.Outline = bracket(500, 300, 120)
	along, across := sheetOf(1100, 620), sheetOf(620, 1100)
	across.GrainAcross = true
	along.Count, across.Count = 1, 2
	l := place(t, []sheet.Part{a}, []sheet.Stock{along, across}, sheet.Options{Gap: 5, Margin: 5})
	assert.Empty(t, l.Unplaced)
	kinds := map[int]bool{}
	for _, s := range l.Sheets {
		kinds[s.Stock] = true
	}
	assert.Len(t, kinds, 2)
}

// An angle of a board takes two boards that fill it but for the gap between
// them, and the one part of a notch takes what fills that. What is a little
// longer stays out.
func TestNestFillsNotchedStock(t *testing.T) {
	angle := sheetOf(0, 0)
	angle.Count = 1
	angle.Outline = arc.Region{Outer: arc.Polygon(arc.V(30, 40, 0).P, arc.V(530, 40, 0).P, arc.V(530, 190, 0).P, arc.V(280, 190, 0).P, arc.V(280, 340, 0).P, arc.V(30, 340, 0).P)}
	opt := sheet.Options{Gap: 10, Iterations: 200}
	for _, c := range []struct{ margin, length, over float64 }{{0, 500, 0}, {2, 496, 0}, {0, 500.1, 1}, {2, 496.1, 1}} {
		opt.Margin = c.margin
		parts := []sheet.Part{panel("foot", c.length, 150-2*c.margin, 1), panel("leg", 250-2*c.margin, 140, 1)}
		l := place(t, parts, []sheet.Stock{angle}, opt)
		assert.Len(t, l.Unplaced, int(c.over), "%+v", c)
	}
}

// A leftover with an edge cut off takes parts up to its edges where no margin
// is asked, however wide the gap between parts; one with a notch too.
func TestNestFillsIrregularStock(t *testing.T) {
	opt := sheet.Options{Gap: 20, Iterations: 100}
	trapezoid := sheetOf(0, 0)
	trapezoid.Outline = arc.Region{Outer: arc.Polygon(arc.V(0, 0, 0).P, arc.V(500, 0, 0).P, arc.V(430, 200, 0).P, arc.V(0, 200, 0).P)}
	trapezoid.Count = 1
	p := panel("p", 190, 200, 2)
	p.Outline = arc.Region{Outer: arc.Polygon(arc.V(0, 0, 0).P, arc.V(190, 0, 0).P, arc.V(189.5, 199.9, 0).P, arc.V(0, 199.9, 0).P)}
	l := place(t, []sheet.Part{p}, []sheet.Stock{trapezoid}, opt)
	assert.Empty(t, l.Unplaced, "190, the gap and 190 in 430, and 199.9 in 200")
	notched := trapezoid
	notched.Outline = arc.Region{Outer: arc.Polygon(arc.V(0, 0, 0).P, arc.V(500, 0, 0).P, arc.V(500, 100, 0).P, arc.V(450, 100, 0).P, arc.V(450, 240, 0).P, arc.V(0, 240, 0).P)}
	l = place(t, []sheet.Part{p}, []sheet.Stock{notched}, opt)
	assert.Empty(t, l.Unplaced)
	p.Qty = 1
	round := trapezoid
	round.Outline = disc(150)
	square := panel("s", 200, 200, 1)
	l = place(t, []sheet.Part{square}, []sheet.Stock{round}, sheet.Options{Gap: 20, Iterations: 100, Tolerance: 1e-3})
	assert.Empty(t, l.Unplaced, "its half diagonal is 141.4, with half a gap beyond its corners 155.6")
}

// Forty parts at all kinds of turns come out the same on one worker and on two.
func TestNestSameOnTwoWorkers(t *testing.T) {
	opt := sheet.Options{Gap: 10, Margin: 10, Iterations: 120, Seed: 3}
	if testing.Short() {
		opt.Iterations = 20
	}
	one := place(t, curvedCase(1), boards(), opt)
	opt.Workers = 2
	assert.Equal(t, one, place(t, curvedCase(1), boards(), opt))
	assert.Empty(t, one.Unplaced)
	assert.Len(t, one.Sheets, 2)
}

// A part that a stopped search has not tried is not called too large where its
// box goes into that of an angle; one that is longer than that is.
func TestReasonsWhenStopped(t *testing.T) {
	angle := sheetOf(0, 0)
	angle.Outline = arc.Region{Outer: arc.Polygon(arc.V(0, 0, 0).P, arc.V(900, 0, 0).P, arc.V(900, 200, 0).P, arc.V(300, 200, 0).P, arc.V(300, 900, 0).P, arc.V(0, 900, 0).P)}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	hook := panel("hook", 1, 1, 1)
	hook.Outline = bracket(850, 850, 100)
	parts := []sheet.Part{hook, panel("long", 950, 50, 1), panel("short", 250, 80, 1)}
	l, err := sheet.Nest(ctx, parts, []sheet.Stock{angle}, sheet.Options{Time: time.Minute})
	require.NoError(t, err)
	assert.True(t, l.Stopped)
	assert.Equal(t, []sheet.Unplaced{{Part: 0, Reason: sheet.NoTime}, {Part: 1, Reason: sheet.TooLarge}}, l.Unplaced, "the short one lies in a leg")
	l = place(t, parts[:2], []sheet.Stock{angle}, sheet.Options{})
	assert.Equal(t, []sheet.Unplaced{{Part: 1, Reason: sheet.TooLarge}}, l.Unplaced)
}
