package rects

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func squares(sides ...int) []block {
	var blocks []block
	for _, s := range sides {
		blocks = append(blocks, block{s, s})
	}
	return blocks
}

// checkSpots paints a layout on cells: all blocks, in the box, none on another.
func checkSpots(t *testing.T, blocks []block, w, h int, spots []spot) {
	t.Helper()
	require.Len(t, spots, len(blocks))
	painted := map[[2]int]bool{}
	var got []block
	for _, p := range spots {
		got = append(got, p.block)
		require.True(t, p.x >= 0 && p.y >= 0 && p.x+p.w <= w && p.y+p.h <= h, "%v outside %d %d", p, w, h)
		for i := range p.w * p.h {
			cell := [2]int{p.x + i%p.w, p.y + i/p.w}
			require.False(t, painted[cell], "%v on another", p)
			painted[cell] = true
		}
	}
	require.ElementsMatch(t, blocks, got)
}

// bruteFit puts every block at every place of a box of at most 64 cells.
func bruteFit(blocks []block, w, h int, used uint64) bool {
	if len(blocks) == 0 {
		return true
	}
	b := blocks[0]
	var cells uint64
	for y := range b.h {
		cells |= (1<<b.w - 1) << (y * w)
	}
	for y := 0; y+b.h <= h; y++ {
		for x := 0; x+b.w <= w; x++ {
			c := cells << (y*w + x)
			if used&c == 0 && bruteFit(blocks[1:], w, h, used|c) {
				return true
			}
		}
	}
	return false
}

// someBlocks fills a box nearly to its area, so that about half the sets fit.
func someBlocks(r *rand.Rand, w, h int, square bool) []block {
	var blocks []block
	for left := w * h; len(blocks) < 7; {
		b := block{1 + r.IntN(w*2/3), 1 + r.IntN(h*2/3)}
		if square {
			b.h = b.w
		}
		if left -= b.w * b.h; left < 0 {
			break
		}
		blocks = append(blocks, b)
	}
	slices.SortFunc(blocks, func(a, b block) int { return b.w*b.h - a.w*a.h })
	return blocks
}

func TestExhaustiveSearchAgreesWithBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	count := map[bool]int{}
	for i := range 3000 {
		w, h := 3+r.IntN(6), 3+r.IntN(6)
		square := i%2 == 0
		if i%4 == 0 {
			h = w
		}
		blocks := someBlocks(r, w, h, square)
		want := bruteFit(blocks, w, h, 0)
		count[want]++
		spots := fit(blocks, w, h)
		require.Equal(t, want, spots != nil, "%v in %d %d", blocks, w, h)
		if want {
			checkSpots(t, blocks, w, h, spots)
		}
	}
	assert.Greater(t, min(count[true], count[false]), 500)
}

// cutUp cuts a box across until it is in n pieces.
func cutUp(r *rand.Rand, w, h, n int) []block {
	pieces := []block{{w, h}}
	for len(pieces) < n {
		i := r.IntN(len(pieces))
		p := pieces[i]
		if p.w > 1 && (p.h == 1 || r.IntN(2) == 0) {
			c := 1 + r.IntN(p.w-1)
			pieces[i] = block{c, p.h}
			pieces = append(pieces, block{p.w - c, p.h})
		} else if p.h > 1 {
			c := 1 + r.IntN(p.h-1)
			pieces[i] = block{p.w, c}
			pieces = append(pieces, block{p.w, p.h - c})
		}
	}
	return pieces
}

// What was cut from a box fits in it, without waste.
func TestExhaustiveSearchPutsTogetherWhatWasCut(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		w, h := 5+r.IntN(20), 5+r.IntN(20)
		pieces := cutUp(r, w, h, 2+r.IntN(9))
		spots := fit(pieces, w, h)
		checkSpots(t, pieces, w, h, spots)
	}
}

// The two rectangles of nine unlike squares (Moroń 1925, from memory) and a
// block within four strips leave hardly a choice, and no straight cut across.
func TestExhaustiveSearchLaysPinwheels(t *testing.T) {
	for _, c := range []struct {
		w, h   int
		blocks []block
	}{
		{33, 32, squares(18, 15, 14, 10, 9, 8, 7, 4, 1)},
		{69, 61, squares(36, 33, 28, 25, 16, 9, 7, 5, 2)},
		{5, 5, append(squares(3), block{4, 1}, block{4, 1}, block{1, 4}, block{1, 4})},
		{7, 7, []block{{3, 5}, {5, 1}, {5, 1}, {2, 6}, {2, 6}}},
	} {
		spots := fit(c.blocks, c.w, c.h)
		checkSpots(t, c.blocks, c.w, c.h, spots)
	}
}

// smallestSides holds the side of the smallest square that holds squares of side
// 1 to n, from n = 1: OEIS A005842, from memory.
var smallestSides = []int{1, 3, 5, 7, 9, 11, 13, 15, 18, 21, 24, 27, 30, 33, 36, 39, 43, 47, 50}

// That a side is enough is shown by a layout, that one less is not by trying
// all. Squares to 18 take seconds, the others together a fraction of one.
func TestSidesOfSmallestSquares(t *testing.T) {
	var blocks []block
	for i, side := range smallestSides {
		n := i + 1
		blocks = append(blocks, block{n, n})
		spots := fit(blocks, side, side)
		checkSpots(t, blocks, side, side, spots)
		if n == 18 && os.Getenv("SAGITTA_FULL") == "" {
			continue
		}
		none := fit(blocks, side-1, side-1)
		assert.Nil(t, none, "squares to %d in %d", n, side-1)
	}
}
