package place

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

func rect(w, h float64) []r2.Vec {
	return []r2.Vec{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

var rightAngles = []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}

func TestStripRectanglesExactFit(t *testing.T) {
	items := []Item{{Outer: rect(600, 400), Demand: 3}, {Outer: rect(300, 400), Demand: 3}}
	r, err := Strip(context.Background(), items, 1200, Options{Iterations: 2000})
	require.NoError(t, err)
	requireLegal(t, items, r.Placed, r.Length, 1200, 0)
	require.Equal(t, 900.0, r.Length, "the area bound")
}

func TestFitTwoSheets(t *testing.T) {
	items := []Item{{Outer: rect(600, 400), Demand: 7, Rotations: rightAngles}, {Outer: rect(5000, 10)}}
	sheets := []Container{{Width: 1200, Height: 1200}, {Width: 1200, Height: 1200}, {Width: 1200, Height: 1200}}
	r, err := Fit(context.Background(), items, sheets, Options{Iterations: 1000})
	require.NoError(t, err)
	require.Equal(t, 2, r.Containers)
	require.Len(t, r.Placed, 7)
	require.Equal(t, []Unplaced{{1, 0, TooLarge}}, r.Unplaced)
	for c := range 2 {
		var in []Placement
		for _, p := range r.Placed {
			if p.Container == c {
				in = append(in, p)
			}
		}
		requireLegal(t, items, in, 1200, 1200, 0)
	}
}

func TestStripStopsAtDeadline(t *testing.T) {
	in := Item{Outer: []r2.Vec{{}, {X: 7}, {X: 9, Y: 5}, {X: 3, Y: 4}, {X: 1, Y: 8}}, Rotations: rightAngles, Demand: 60}
	ctx, cancel := context.WithCancel(context.Background())
	time.AfterFunc(300*time.Millisecond, cancel)
	r, err := Strip(ctx, []Item{in}, 30, Options{Time: time.Hour})
	require.NoError(t, err)
	require.True(t, r.Stopped)
	require.Len(t, r.Placed, 60)
	requireLegal(t, []Item{in}, r.Placed, r.Length, 30, 0)
}
