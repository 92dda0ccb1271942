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

// Jobs of which no two panels are alike come to lie on fewer sheets too, where two
// sheets can be dealt anew: at no cost and with no smaller offcuts.
func TestNearPartsAreDealtAnew(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 9))
	saw := sheet.Saw{Kerf: 3, Trim: 10}
	var sum [2]int
	for k := range 4 {
		var parts []sheet.Part
		var jobs []string
		for i := range 32 {
			parts = append(parts, panel("p", float64(260+rng.IntN(500)), float64(200+rng.IntN(300)), 1))
			jobs = append(jobs, string(rune('A'+i%4)))
		}
		stock := []sheet.Stock{sheetOf(2440, 1220)}
		stock[0].Price = 50
		var layouts [2][2]sheet.Layout
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
			m, err := sheet.NestStraight(context.Background(), parts, stock, saw, opt)
			require.NoError(t, err)
			requireCut(t, parts, stock, saw, m)
			sum[i] += scattered(parts, jobs, l) + scattered(parts, jobs, m.Layout)
			layouts[i] = [2]sheet.Layout{l, m.Layout}
		}
		for way := range 2 {
			require.LessOrEqual(t, layouts[1][way].Cost, layouts[0][way].Cost)
			require.GreaterOrEqual(t, largestOffcut(layouts[1][way]), largestOffcut(layouts[0][way])-1e-3)
		}
	}
	t.Logf("sheets over all jobs: %d, dealt anew %d", sum[0], sum[1])
	require.Less(t, sum[1], sum[0]*97/100)
}

func largestOffcut(l sheet.Layout) (most float64) {
	for _, s := range l.Sheets {
		for _, o := range s.Offcuts {
			most = max(most, o.Stock.Area())
		}
	}
	return most
}
