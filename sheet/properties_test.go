package sheet_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/sheet"
)

// The invariants of a layout, one a test; drawJob, in random_test.go, draws the
// jobs. Nest checks what it returns, so each is looked at by other means than
// Check.

func nested(t *rapid.T, parts []sheet.Part, stock []sheet.Stock, opt sheet.Options) sheet.Layout {
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	return l
}

func TestEveryCopyLiesOnce(t *testing.T) {
	rapidN(t, cases(2, 6, 300), func(t *rapid.T) {
		parts, stock, opt := drawJob(t)
		l := nested(t, parts, stock, opt)
		seen := map[[2]int]int{}
		for _, s := range l.Sheets {
			require.NotEmpty(t, s.Placements)
			for _, p := range s.Placements {
				seen[[2]int{p.Part, p.Copy}]++
			}
		}
		for _, u := range l.Unplaced {
			seen[[2]int{u.Part, u.Copy}]++
		}
		require.Len(t, seen, total(parts))
		for c, n := range seen {
			require.Equal(t, 1, n, "%v", c)
			require.Less(t, c[1], parts[c[0]].Copies())
		}
	})
}

func TestNothingLiesNearerThanTheGap(t *testing.T) {
	rapidN(t, cases(2, 6, 300), func(t *rapid.T) {
		parts, stock, opt := drawJob(t)
		for _, s := range nested(t, parts, stock, opt).Sheets {
			requireApart(t, parts, stock, s, opt)
		}
	})
}

func TestOrderOfPartsDoesNotMatter(t *testing.T) {
	rapidN(t, cases(1, 2, 300), func(t *rapid.T) {
		parts, stock, opt := drawJob(t)
		l := nested(t, parts, stock, opt)
		mixed := make([]sheet.Part, len(parts))
		for i, j := range rand.New(rand.NewPCG(opt.Seed, 0)).Perm(len(parts)) {
			mixed[i] = parts[j]
		}
		m := nested(t, mixed, stock, opt)
		require.InDeltaSlice(t, []float64{l.Cost, l.Use, l.Waste / 1e6}, []float64{m.Cost, m.Use, m.Waste / 1e6}, 1e-9)
		require.Len(t, m.Sheets, len(l.Sheets))
		require.Len(t, m.Unplaced, len(l.Unplaced))
	})
}
