package place

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func steepest(l, w, h float64) float64 {
	a := math.Asin(h/math.Hypot(l, w)) - math.Atan2(w, l)
	return l*math.Cos(a) + w*math.Sin(a)
}

// A long piece in a narrow strip lies best at the steepest angle that the
// height allows, L sin a + W cos a = H, where its length is L cos a + W sin a, or
// flat.
func TestStripFindsSteepestAngle(t *testing.T) {
	for _, c := range []struct{ l, w, h float64 }{{10, 1, 6}, {10, 1, 9.5}, {7, 1.5, 6}, {5, 2, 4.8}} {
		want := math.Min(c.l, steepest(c.l, c.w, c.h))
		items := []Item{{Outer: rect(c.l, c.w), AnyRotation: true}}
		r, err := Strip(context.Background(), items, c.h, Options{Iterations: 400})
		require.NoError(t, err)
		requireLegal(t, items, r.Placed, r.Length, c.h, 1e-9)
		t.Logf("%v: %.5f, best %.5f", c, r.Length, want)
		require.InDelta(t, want, r.Length, 1e-3*want)
	}
}

// A rectangle of 10 by 1 goes into a container of 9.1 by 6 only within a
// fraction of a degree of 31 degrees.
func TestFitOnlyDiagonally(t *testing.T) {
	items := []Item{{Outer: rect(10, 1), AnyRotation: true}}
	for _, c := range []Container{{Width: 9.1, Height: 6}, {Width: 6, Height: 9.1}} {
		r, err := Fit(context.Background(), items, []Container{c}, Options{Iterations: 50})
		require.NoError(t, err)
		require.Len(t, r.Placed, 1)
		requireLegal(t, items, r.Placed, c.Width, c.Height, 1e-9)
		require.NotZero(t, math.Mod(r.Placed[0].Rotation, math.Pi/12))
	}
	r, err := Fit(context.Background(), items, []Container{{Width: 9.08, Height: 6}}, Options{Iterations: 50})
	require.NoError(t, err)
	require.Equal(t, []Unplaced{{0, 0, TooLarge}}, r.Unplaced)
}

// Five unit squares go into a square of side 2 + 1/sqrt 2 with the middle one
// turned by 45 degrees (F. Göbel, Geometrical packing and covering problems,
// 1979), which is the least side: 2.70711.
func TestFitFiveSquares(t *testing.T) {
	items := []Item{{Outer: rect(1, 1), AnyRotation: true, Demand: 5}}
	side := 2.7075
	r, err := Fit(context.Background(), items, []Container{{Width: side, Height: side}}, Options{Iterations: 3000})
	require.NoError(t, err)
	requireLegal(t, items, r.Placed, side, side, 1e-9)
	t.Logf("%d of 5", len(r.Placed))
	require.Len(t, r.Placed, 5)
}

// Two bars in a strip need no more than a block of both, and less where they
// are shifted along each other.
func TestStripFindsParallelBars(t *testing.T) {
	const l, w, h = 10, 1, 6
	want := steepest(l, 2*w, h)
	items := []Item{{Outer: rect(l, w), AnyRotation: true, Demand: 2}}
	r, err := Strip(context.Background(), items, h, Options{Iterations: 1500})
	require.NoError(t, err)
	requireLegal(t, items, r.Placed, r.Length, h, 1e-9)
	t.Logf("%.5f, as a block %.5f", r.Length, want)
	require.Less(t, r.Length, 0.98*want)
}

// The same layout, bit for bit, on one worker and on two.
func TestAnyTurnRepeatable(t *testing.T) {
	items := []Item{{Outer: star7(12), AnyRotation: true, Demand: 5}, {Outer: rect(20, 9), Demand: 3}}
	var first Result
	for workers := range 3 {
		r, err := Strip(context.Background(), items, 40, Options{Iterations: 150, Seed: 9, Workers: workers})
		require.NoError(t, err)
		f, err := Fit(context.Background(), items, []Container{{Width: 90, Height: 60}}, Options{Iterations: 150, Seed: 9, Workers: workers})
		require.NoError(t, err)
		r.Placed = append(r.Placed, f.Placed...)
		if workers == 0 {
			first = r
		}
		require.Equal(t, first, r)
	}
}
