package place

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// A square of 10 within a rim of 2 goes up to the walls of an angle, but its
// rim keeps off the other squares: eight fill a leg of 10 by 108.
func TestFitCoresUpToTheWalls(t *testing.T) {
	it := Item{Outer: square(-2, -2, 14), Core: [][]r2.Vec{rect(10, 10)}, Demand: 20}
	angle := []r2.Vec{{}, {X: 108}, {X: 108, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 108}, {Y: 108}}
	r, err := Fit(context.Background(), []Item{it}, []Container{{Outer: angle, Beyond: 2}}, Options{Iterations: 400})
	require.NoError(t, err)
	require.Len(t, r.Placed, 15, "one in the corner and seven at a pitch of 14 in each leg")
	it.Core = nil
	r, err = Fit(context.Background(), []Item{it}, []Container{{Outer: angle}}, Options{Iterations: 50})
	require.NoError(t, err)
	require.Empty(t, r.Placed, "a square of 14 does not go into a leg of 10")
}

// Any turns in a sheet with notches and a defect: the outlines clear of each
// other and the cores of walls and defect, by the rational oracle.
func TestFitCoresAreLegal(t *testing.T) {
	wall := []r2.Vec{{}, {X: 200}, {X: 200, Y: 70}, {X: 120, Y: 60}, {X: 100, Y: 90}, {X: 90, Y: 150}, {X: 40, Y: 100}, {Y: 150}}
	defect := square(60, 20, 15)
	rng := rand.New(rand.NewPCG(1, 2))
	for k := range uint64(3) {
		var items []Item
		for range 6 {
			w, h := 10+30*rng.Float64(), 8+15*rng.Float64()
			items = append(items, Item{
				Outer: moved(rect(w+10, h+10), r2.Vec{X: -5, Y: -5}), Core: [][]r2.Vec{rect(w, h), square(2, 2, 3)},
				Demand: 3, AnyRotation: k > 0, Mirror: k > 1, Rotations: rightAngles,
			})
		}
		r, err := Fit(context.Background(), items, []Container{{Outer: wall, Beyond: 5, Forbidden: solids(defect)}}, Options{Seed: k, Iterations: 100})
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(r.Placed), 10)
		requireLegal(t, items, moveAll(r.Placed, r2.Vec{X: 5, Y: 5}), 210, 160, 1e-6)
		var cores []Item
		for _, it := range items {
			cores = append(cores, Item{Outer: it.Core[0], Holes: it.Core[1:]})
		}
		closer := 0
		for _, p := range r.Placed {
			ring := ratLoops([][]r2.Vec{square(-1000, -1000, 3000), wall})
			require.False(t, ratOverlap(ratLoops(placedLoops(cores, p)), ring, 1e-6), "item %d sticks out", p.Item)
			require.False(t, ratOverlap(ratLoops(placedLoops(cores, p)), ratLoops([][]r2.Vec{defect}), 1e-6), "item %d on the defect", p.Item)
			closer += b2i(ratOverlap(ratLoops(placedLoops(items, p)), ring, 1e-6))
		}
		require.Positive(t, closer, "none makes use of its core")
	}
}

func moveAll(placed []Placement, d r2.Vec) []Placement {
	out := append([]Placement(nil), placed...)
	for i := range out {
		out[i].At = r2.Add(out[i].At, d)
	}
	return out
}
