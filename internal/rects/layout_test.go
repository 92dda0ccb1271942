package rects

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// checkLayout is a brute-force oracle: whole items, in the bin, none
// overlapping another, sides as the item's.
func checkLayout(t require.TestingT, items []Item, bin Size, placed []Placed) {
	for i, p := range placed {
		it := items[p.Item]
		want := it.Size
		if p.Turned {
			require.True(t, it.Turn)
			want = Size{it.H, it.W}
		}
		require.Equal(t, want, Size{p.W, p.H})
		require.True(t, p.X >= -1e-6 && p.Y >= -1e-6 && p.X+p.W <= bin.W+1e-6 && p.Y+p.H <= bin.H+1e-6)
		for _, q := range placed[:i] {
			w := math.Min(p.X+p.W, q.X+q.W) - math.Max(p.X, q.X)
			h := math.Min(p.Y+p.H, q.Y+q.H) - math.Max(p.Y, q.Y)
			require.False(t, w > 1e-6 && h > 1e-6, "%v overlaps %v", p, q)
		}
	}
}

func drawItems(t *rapid.T) []Item {
	n := rapid.IntRange(1, 25).Draw(t, "n")
	items := make([]Item, n)
	for i := range items {
		items[i] = Item{Size{rapid.Float64Range(1, 60).Draw(t, "w"), rapid.Float64Range(1, 60).Draw(t, "h")}, rapid.Bool().Draw(t, "turn")}
	}
	return items
}

func once(t require.TestingT, n int, bins [][]Placed) {
	seen := make([]bool, n)
	for _, b := range bins {
		for _, p := range b {
			require.False(t, seen[p.Item])
			seen[p.Item] = true
		}
	}
	require.NotContains(t, seen, false)
}

func TestBinsAreLegal(t *testing.T) {
	bin := Size{100, 70}
	rapid.Check(t, func(t *rapid.T) {
		items := drawItems(t)
		seed := rapid.Uint64().Draw(t, "seed")
		for _, bins := range [][][]Placed{
			Bins(items, bin, seed, Background(50)),
			StagedBins(items, bin, Saw{Stages: 3}, seed, Background(50)),
			StagedBins(items, bin, Saw{Stages: 2, First: AlongH}, seed, Background(50)),
			SlicedBins(items, bin, seed, Background(50)),
		} {
			once(t, len(items), bins)
			require.GreaterOrEqual(t, len(bins), Bound(items, bin))
			for _, b := range bins {
				checkLayout(t, items, bin, b)
			}
		}
		strip, h := Strip(items, 61, seed, Background(50))
		once(t, len(items), [][]Placed{strip})
		checkLayout(t, items, Size{61, h}, strip)
	})
}

// Cutting is judged by an independent rule: exact layouts of n stages fall
// apart in n; with trim cuts allowed in n+1.
func TestStagedLayoutsFallApart(t *testing.T) {
	bin := Size{100, 70}
	rapid.Check(t, func(t *rapid.T) {
		items := drawItems(t)
		saw := Saw{
			Stages: rapid.IntRange(2, 3).Draw(t, "stages"),
			First:  rapid.SampledFrom([]Direction{AlongW, AlongH}).Draw(t, "first"),
			Exact:  rapid.Bool().Draw(t, "exact"),
		}
		for _, b := range StagedBins(items, bin, saw, 1, Background(30)) {
			cuts, stages, ok := Cuts(b, bin, saw.First == AlongW)
			require.True(t, ok)
			most := saw.Stages
			if saw.Stages == 2 || !saw.Exact {
				most++
			}
			require.LessOrEqual(t, stages, most)
			for _, c := range cuts {
				for _, p := range b {
					lo, hi := interval(p, c.AlongW)
					alo, ahi := interval(p, !c.AlongW)
					crossed := c.At > lo+1e-6 && c.At < hi-1e-6 && c.From < ahi-1e-6 && c.To > alo+1e-6
					require.False(t, crossed, "%v crosses %v", c, p)
				}
			}
		}
	})
}

// With no limit on stages too all falls apart.
func TestSlicedLayoutsFallApart(t *testing.T) {
	bin := Size{100, 70}
	rapid.Check(t, func(t *rapid.T) {
		for _, b := range SlicedBins(drawItems(t), bin, 1, Background(30)) {
			for _, w := range []bool{true, false} {
				_, _, ok := Cuts(b, bin, w)
				require.True(t, ok)
			}
		}
	})
}

// A spiral of six strips fills its bin, and takes five stages of cuts.
func TestSpiralTakesManyStages(t *testing.T) {
	var items []Item
	for _, s := range []Size{{30, 70}, {70, 25}, {20, 45}, {50, 20}, {15, 25}, {35, 25}} {
		items = append(items, Item{Size: s})
	}
	bin := Size{100, 70}
	bins := SlicedBins(items, bin, 3, Background(200))
	require.Len(t, bins, 1)
	checkLayout(t, items, bin, bins[0])
	_, stages, ok := Cuts(bins[0], bin, false)
	assert.True(t, ok)
	assert.Equal(t, 5, stages)
	assert.Len(t, StagedBins(items, bin, Saw{Stages: 3}, 3, Background(2000)), 2)
}

func TestPinwheelCannotBeCut(t *testing.T) {
	pinwheel := []Placed{{0, 0, 0, 2, 1, false}, {1, 2, 0, 1, 2, false}, {2, 1, 2, 2, 1, false}, {3, 0, 1, 1, 2, false}, {4, 1, 1, 1, 1, false}}
	for _, w := range []bool{true, false} {
		_, _, ok := Cuts(pinwheel, Size{3, 3}, w)
		assert.False(t, ok)
	}
	_, stages, ok := Cuts(pinwheel[:1], Size{3, 3}, true)
	assert.True(t, ok)
	assert.Equal(t, 2, stages)
}

func TestSameSeedSameLayout(t *testing.T) {
	items := turnable([][2]float64{{5, 9}, {4, 2}, {10, 6}, {5, 7}, {6, 3}, {10, 7}, {1, 5}, {3, 5}})
	assert.Equal(t, Bins(items, Size{12, 12}, 7, Background(500)), Bins(items, Size{12, 12}, 7, Background(500)))
	a, _ := Strip(items, 12, 7, Background(500))
	b, _ := Strip(items, 12, 7, Background(500))
	assert.Equal(t, a, b)
}

// The packers reach the least sides; TestSidesOfSmallestSquares proves that no
// less will do.
func TestSquaresInSmallestSquare(t *testing.T) {
	for i, side := range smallestSides[:12] {
		n := i + 1
		items := make([]Item, n)
		for j := range items {
			s := float64(j + 1)
			items[j] = Item{Size: Size{s, s}}
		}
		bin := Size{float64(side), float64(side)}
		bins := Bins(items, bin, 3, Background(400000))
		require.Len(t, bins, 1, "squares to %d in %d", n, side)
		checkLayout(t, items, bin, bins[0])
	}
}
