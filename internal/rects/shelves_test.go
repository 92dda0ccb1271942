package rects

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"math/rand/v2"
)

// A search that is stopped before it begins has all items in place, in layouts
// that the saw can cut in two stages and the asked direction.
func TestStoppedSearchHasALayout(t *testing.T) {
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	bin := Size{1000, 700}
	rng := rand.New(rand.NewPCG(1, 2))
	items := make([]Item, 1500)
	for i := range items {
		items[i] = Item{Size{20 + 200*rng.Float64(), 20 + 200*rng.Float64()}, rng.IntN(2) == 0}
	}
	stop := Stop{Ctx: ended}
	whole := len(StagedBins(items, bin, Saw{Stages: 2}, 1, Background(1)))
	for k, bins := range [][][]Placed{
		StagedBins(items, bin, Saw{Stages: 2, First: AlongW}, 1, stop), StagedBins(items, bin, Saw{Stages: 3, First: AlongH}, 1, stop),
		SlicedBins(items, bin, 1, stop), Bins(items, bin, 1, stop),
	} {
		once(t, len(items), bins)
		for _, b := range bins {
			checkLayout(t, items, bin, b)
			_, stages, ok := Cuts(b, bin, k != 1)
			require.True(t, ok)
			require.LessOrEqual(t, stages, 3, "two stages and a trim")
		}
		require.Less(t, len(bins), whole*3/2, "way %d, against %d bins of a search", k, whole)
	}
	one := Stop{Ctx: ended}
	require.Empty(t, Bins([]Item{{Size{2000, 10}, true}}, bin, 1, one))
}

// A long filling ends soon after its context.
func TestLongFillingStops(t *testing.T) {
	bin := Size{10000, 7000}
	items := make([]Item, 20000)
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range items {
		items[i] = Item{Size{20 + 200*rng.Float64(), 20 + 200*rng.Float64()}, true}
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Millisecond)
	defer cancel()
	h := &halt{stop: Stop{Ctx: ctx}}
	s := &binSearch{items: items, bin: bin, rng: rng, fill: []filler{newStaged(bin, Saw{Stages: 3}, h)}, used: make([]bool, len(items)), halt: h}
	require.Nil(t, s.pack(byArea(items), 1<<30))
	require.True(t, h.ended)
}
