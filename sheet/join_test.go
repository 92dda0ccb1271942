package sheet

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
	"example.com/sagitta/internal/weary"
)

// angle is an L of arms a wide.
func angle(l, w, a float64) []r2.Vec {
	return []r2.Vec{{}, {X: l}, {X: l, Y: a}, {X: a, Y: a}, {X: a, Y: w}, {Y: w}}
}

// star is a polygon about the origin with corners at random distances.
func star(rng *rand.Rand) []r2.Vec {
	var p []r2.Vec
	n := 3 + rng.IntN(9)
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := 20 + 80*rng.Float64()
		p = append(p, r2.Vec{X: r * c, Y: r * s})
	}
	return p
}

// common is the area that two polygons share, by the clipping of package arc.
func common(t *testing.T, a, b []r2.Vec, at r2.Vec) float64 {
	t.Helper()
	q := arc.Region{Outer: arc.Polygon(b...)}.Transform(arc.Shift(at))
	both, err := arc.Intersection([]arc.Region{{Outer: arc.Polygon(a...)}}, []arc.Region{q}, 1e-7)
	require.NoError(t, err)
	sum := 0.0
	for _, r := range both {
		sum += r.Area()
	}
	return sum
}

// Where slide says, and further right, two polygons do not meet; a little to
// the left they do.
func TestSlideTouches(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	for range 200 {
		a, b := star(rng), star(rng)
		right, left := joint{loops: [][]r2.Vec{a}}.profile(true), joint{loops: [][]r2.Vec{b}}.profile(false)
		y := 160*rng.Float64() - 80
		x := slide(&right, &left, y, math.Inf(1))
		if math.IsInf(x, -1) {
			require.Zero(t, common(t, a, b, r2.Vec{Y: y}))
			continue
		}
		for _, d := range []float64{1e-6, 1, 15, 60} {
			require.Less(t, common(t, a, b, r2.Vec{X: x + d, Y: y}), 1e-6, "%g to the right", d)
		}
		require.Positive(t, common(t, a, b, r2.Vec{X: x - 0.1, Y: y}))
		require.Equal(t, x, slide(&right, &left, y, x+1e-9))
		for _, d := range []float64{0, 1e-9, 20, 100} {
			require.Equal(t, math.Inf(1), slide(&right, &left, y, x-d), "no place left of where they touch")
		}
	}
}

// A context that ends amid the joining of parts of many vertices ends it.
func TestJoinStops(t *testing.T) {
	var parts []Part
	rng := rand.New(rand.NewPCG(4, 3))
	for range 4 {
		var p []r2.Vec
		for i := range 400 {
			s, c := math.Sincos(2 * math.Pi * float64(i) / 400)
			p = append(p, r2.Scale(80+20*rng.Float64()+40*math.Abs(s*c), r2.Vec{X: c, Y: s}))
		}
		parts = append(parts, Part{Thickness: 1, Qty: 2, Outline: arc.Region{Outer: arc.Polygon(p...)}})
	}
	stock := []Stock{{Thickness: 1, Length: 5000, Width: 5000}}
	work := func(ctx context.Context) float64 {
		r := newRun(ctx, parts, stock, groups(parts, stock)[0], Options{Iterations: 1})
		bin, _, _ := r.bin(0)
		items, of := r.boxes(r.copies(), stock[0])
		r.joinBoxes(items, of, stock[0], bin)
		return r.joiners[0].work
	}
	require.Greater(t, work(context.Background()), 1e7)
	require.Less(t, work(weary.New(context.Background(), 20)), 20*2000.0)
}

// joinedBoxes joins parts for a large sheet and returns the boxes.
func joinedBoxes(parts []Part, opt Options) []rects.Item {
	stock := []Stock{{Thickness: 1, Length: 5000, Width: 5000}}
	r := newRun(context.Background(), parts, stock, groups(parts, stock)[0], opt)
	bin, _, _ := r.bin(0)
	items, of := r.boxes(r.copies(), stock[0])
	items, _ = r.joinBoxes(items, of, stock[0], bin)
	return items
}

// Two angles interlock in a box longer by one arm; four do, two and two nested,
// in one longer by three arms and higher by one. A gap widens all arms.
func TestJoinAngles(t *testing.T) {
	part := Part{Thickness: 1, Qty: 2, Outline: arc.Region{Outer: arc.Polygon(angle(100, 100, 20)...)}}
	for _, c := range []struct{ gap, area2, area4 float64 }{{0, 120 * 100, 160 * 120}, {4, 128 * 104, 176 * 128}} {
		part.Qty = 2
		items := joinedBoxes([]Part{part}, Options{Gap: c.gap})
		require.Len(t, items, 1)
		require.InDelta(t, c.area2, items[0].W*items[0].H, 0.1)
		require.True(t, items[0].Turn)
		part.Qty = 4
		items = joinedBoxes([]Part{part}, Options{Gap: c.gap})
		require.Len(t, items, 1)
		require.InDelta(t, c.area4, items[0].W*items[0].H, 0.2)
	}
}

// What may not be turned is not turned for a partner; rectangles and parts of
// different priority stay alone.
func TestJoinKeepsRules(t *testing.T) {
	part := Part{Thickness: 1, Qty: 2, Turns: NoTurn, Outline: arc.Region{Outer: arc.Polygon(angle(100, 100, 20)...)}}
	items := joinedBoxes([]Part{part}, Options{})
	require.Len(t, items, 1)
	require.InDelta(t, 120*120, items[0].W*items[0].H, 0.1, "one nested in the other")
	require.False(t, items[0].Turn)
	part.Turns, part.Qty = RightAngles, 1
	first := part
	first.Priority = 1
	require.Len(t, joinedBoxes([]Part{part, first}, Options{}), 2)
	rect := Part{Thickness: 1, Qty: 6, Outline: arc.Region{Outer: arc.Rect(0, 0, 50, 30)}}
	require.Len(t, joinedBoxes([]Part{rect}, Options{}), 6)
}

// Sixty-four angles fill a sheet as fours do, after a single sweep: 16 boxes of
// 160 by 120.
func TestNestJoinsAngles(t *testing.T) {
	part := Part{Thickness: 1, Qty: 64, Outline: arc.Region{Outer: arc.Polygon(angle(100, 100, 20)...)}}
	stock := []Stock{{Thickness: 1, Length: 4*160 + 1, Width: 4*120 + 1}}
	l, err := Nest(context.Background(), []Part{part}, stock, Options{Iterations: 1})
	require.NoError(t, err)
	require.Len(t, l.Sheets, 1)
	require.Empty(t, l.Unplaced)
}
