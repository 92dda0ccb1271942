package sheet_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet"
)

// scattered counts on how many sheets each job has parts.
func scattered(parts []sheet.Part, jobs []string, l sheet.Layout) int {
	on := map[string]map[int]bool{}
	for i, s := range l.Sheets {
		for _, q := range s.Placements {
			job := jobs[q.Part]
			if on[job] == nil {
				on[job] = map[int]bool{}
			}
			on[job][i] = true
		}
	}
	n := 0
	for _, sheets := range on {
		n += len(sheets)
	}
	return n
}

// Jobs that have panels of the same sizes come to lie on fewer sheets each, at the
// same cost, with every copy in place once.
func TestNearPartsAreGathered(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	var sum [2]int
	for k := range 3 {
		var parts []sheet.Part
		var jobs []string
		for range 3 {
			l, w := float64(300+rng.IntN(500)), float64(200+rng.IntN(300))
			for _, job := range []string{"A", "B", "C"} {
				parts = append(parts, panel("p"+job, l, w, 3+rng.IntN(4)))
				jobs = append(jobs, job)
			}
		}
		stock := []sheet.Stock{sheetOf(2440, 1220)}
		stock[0].Price = 50
		var cost [2]float64
		for i := range 2 {
			for j := range parts {
				parts[j].Near = ""
				if i == 1 {
					parts[j].Near = jobs[j]
				}
			}
			opt := sheet.Options{Gap: 8, Margin: 10, Iterations: 5, Seed: uint64(k)}
			l, err := sheet.Nest(context.Background(), parts, stock, opt)
			require.NoError(t, err)
			require.Empty(t, l.Unplaced)
			require.NoError(t, sheet.Check(parts, stock, l, opt))
			cost[i] = l.Cost
			sum[i] += scattered(parts, jobs, l)
			m, err := sheet.NestStraight(context.Background(), parts, stock, sheet.Saw{Kerf: 3, Trim: 10}, opt)
			require.NoError(t, err)
			requireCut(t, parts, stock, sheet.Saw{Kerf: 3, Trim: 10}, m)
			sum[i] += scattered(parts, jobs, m.Layout)
		}
		require.Equal(t, cost[0], cost[1])
	}
	t.Logf("sheets over all jobs: %d, gathered %d", sum[0], sum[1])
	require.Less(t, sum[1], sum[0]*9/10)
}
