package sheet_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/sheet"
)

// workOf goes through the cuts as an operator would, piece by piece: it measures
// what each cut frees, and counts.
func workOf(t *testing.T, parts []sheet.Part, stock []sheet.Stock, saw sheet.Saw, l sheet.SawLayout) (cuts, turns, widths int) {
	t.Helper()
	seen := map[int]bool{}
	for _, st := range l.Stacks {
		i := st[0]
		first := l.Sheets[i].Placements[0]
		c := parts[first.Part].Outline.Transform(first.Motion()).Bounds()
		b, rest := trimmed(t, stock[l.Sheets[i].Stock].Shape().Bounds(), r2.Scale(0.5, r2.Add(c.Min, c.Max)), l.Cuts[i])
		cuts += len(l.Cuts[i])
		pieces := []r2.Box{b}
		for _, c := range rest {
			if c.Turn {
				turns++
			}
			for k, p := range pieces {
				lo, from, to := p.Min.X, p.Min.Y, p.Max.Y
				if c.AlongX {
					lo, from, to = p.Min.Y, p.Min.X, p.Max.X
				}
				hi := p.Max.X
				if c.AlongX {
					hi = p.Max.Y
				}
				if c.At < lo-saw.Kerf-1e-6 || c.At > hi+1e-6 || math.Abs(c.From-from) > 1e-6 || math.Abs(c.To-to) > 1e-6 {
					continue
				}
				require.InDelta(t, max(0, c.At-lo), c.Width, 1e-6)
				seen[int(math.Round(c.Width*100))] = true
				a, b := p, p
				if c.AlongX {
					a.Max.Y, b.Min.Y = c.At, math.Min(p.Max.Y, c.At+saw.Kerf)
				} else {
					a.Max.X, b.Min.X = c.At, math.Min(p.Max.X, c.At+saw.Kerf)
				}
				pieces[k] = a
				pieces = append(pieces, b)
				break
			}
		}
	}
	return cuts, turns, len(seen)
}

func sawJob(rng *rand.Rand) []sheet.Part {
	var parts []sheet.Part
	for range 3 + rng.IntN(5) {
		parts = append(parts, panel("p", float64(150+10*rng.IntN(80)), float64(100+10*rng.IntN(45)), 1+rng.IntN(8)))
	}
	return parts
}

// What the work is said to cost is what an operator counts, and weighing it makes
// price and work together cheaper over the jobs, and no job's layout illegal.
func TestWorkIsCountedAndWeighed(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	var sum [2]float64
	for k := range 25 {
		parts := sawJob(rng)
		st := sheetOf(2440, 1220)
		st.Price = 50
		stock := []sheet.Stock{st}
		for i := range 2 {
			saw := sheet.Saw{Kerf: 3.2, Trim: 10, CutCost: 0.3, TurnCost: 1, RipCost: 0.5, Stack: 1 + k%3}
			use := saw
			if i == 0 {
				use.CutCost, use.TurnCost, use.RipCost = 0, 0, 0
			}
			l, err := sheet.NestStraight(context.Background(), parts, stock, use, sheet.Options{Iterations: 10, Seed: uint64(k)})
			require.NoError(t, err)
			requireCut(t, parts, stock, use, l)
			require.Empty(t, l.Unplaced)
			cuts, turns, widths := workOf(t, parts, stock, use, l)
			cost := saw.CutCost*float64(cuts) + saw.TurnCost*float64(turns) + saw.RipCost*float64(widths)
			require.Equal(t, widths, l.Widths)
			if i == 1 {
				require.InDelta(t, cost, l.Work, 1e-9)
			}
			sum[i] += l.Cost + cost
		}
	}
	t.Logf("price and work: %.0f, weighed %.0f", sum[0], sum[1])
	require.Less(t, sum[1], 0.98*sum[0])
}

// Equal sheets are cut at once, as many as the saw takes, and pay once.
func TestEqualSheetsAreStacked(t *testing.T) {
	parts := []sheet.Part{panel("p", 600, 395, 9*5)}
	stock := []sheet.Stock{sheetOf(1830, 1220)}
	saw := sheet.Saw{Kerf: 3, Trim: 10, CutCost: 1, Stack: 2}
	l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 5})
	require.NoError(t, err)
	require.Len(t, l.Sheets, 5)
	require.Len(t, l.Stacks, 3)
	on := map[int]bool{}
	for _, s := range l.Stacks {
		require.LessOrEqual(t, len(s), 2)
		for _, i := range s {
			require.False(t, on[i])
			on[i] = true
			require.Equal(t, l.Cuts[s[0]], l.Cuts[i])
		}
	}
	require.Len(t, on, 5)
	require.InDelta(t, 3*float64(len(l.Cuts[0])), l.Work, 1e-9)
}

// No cut is longer than the saw makes; sheets that are longer are cut across
// first.
func TestLongestRip(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 8))
	for k := range 15 {
		parts := sawJob(rng)
		stock := []sheet.Stock{sheetOf(2440, 1220)}
		saw := sheet.Saw{Kerf: 3.2, Trim: 10, LongestRip: 1250}
		if k%3 == 0 {
			saw.CutCost, saw.TurnCost = 1, 1
		}
		l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 5, Seed: uint64(k)})
		require.NoError(t, err)
		require.Empty(t, l.Unplaced)
		requireCut(t, parts, stock, saw, l)
		for _, cuts := range l.Cuts {
			for _, c := range cuts {
				require.True(t, c.Stage == 0 || c.To-c.From <= 1250+1e-6, "%+v", c)
			}
		}
	}
}
