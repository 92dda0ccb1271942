package place

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A triangle keeps its three corners, from whichever vertex its list starts,
// where vertices repeat, lie on its sides, or stand on a spike.
func TestTidyKeepsCorners(t *testing.T) {
	base := []pt{{0, 0}, {0, 0}, {30, 0}, {60, 0}, {60, 0}, {60, 0}, {90, 0}, {60, 0}, {40, 20}, {0, 60}, {0, 60}, {0, 30}}
	for turn := range base {
		list := append(slices.Clone(base[turn:]), base[:turn]...)
		for _, reversed := range []bool{false, true} {
			if reversed {
				slices.Reverse(list)
			}
			got := tidy(slices.Clone(list))
			assert.Len(t, got, 3, "from %d, reversed %v: %v", turn, reversed, got)
			area := area2(got)
			assert.Equal(t, int64(60*60), max(area, -area), "from %d, reversed %v", turn, reversed)
		}
	}
}
