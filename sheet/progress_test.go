package sheet_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet"
)

// All three searches report at least twice a second, one call at a time and
// none after they are over, and say what is gained: each gain is one.
func TestProgressSaysWhatImprovedAndOften(t *testing.T) {
	parts := curvedCase(1)
	var cost float64
	for name, lay := range map[string]func(sheet.Options) error{
		"nest": func(o sheet.Options) error {
			l, err := sheet.Nest(context.Background(), parts, boards(), o)
			cost = l.Cost
			return err
		},
		"straight": func(o sheet.Options) error {
			l, err := sheet.NestStraight(context.Background(), parts, boards(), sheet.Saw{Kerf: 3, Trim: 10}, o)
			cost = l.Cost
			return err
		},
		"strip": func(o sheet.Options) error {
			cost = 0
			_, err := sheet.NestStrip(context.Background(), parts, 1245, o)
			return err
		},
	} {
		var all []sheet.Progress
		busy := false
		last := time.Now()
		longest := time.Duration(0)
		opt := sheet.Options{Gap: 8, Margin: 10, Time: 1100 * time.Millisecond, Clock: processor(1), Progress: func(p sheet.Progress) {
			require.False(t, busy, name)
			busy = true
			longest = max(longest, time.Since(last))
			last = time.Now()
			all = append(all, p)
			busy = false
		}}
		require.NoError(t, lay(opt), name)
		n := len(all)
		time.Sleep(2 * 400 * time.Millisecond)
		require.Len(t, all, n, "%s reports when it is over", name)
		require.GreaterOrEqual(t, n, 3, name)
		require.Less(t, longest, 1300*time.Millisecond, name) // half a second, with play for a busy machine
		// A busy machine may be asked for news before there is a first layout.
		first := slices.IndexFunc(all, func(p sheet.Progress) bool { return p.Gain != sheet.NoGain })
		require.GreaterOrEqual(t, first, 0, name)
		require.Equal(t, sheet.MorePlaced, all[first].Gain, name)
		for _, p := range all[:first] {
			require.Zero(t, p.Placed, name)
		}
		for i := 1; i < n; i++ {
			p, q := all[i-1], all[i]
			require.GreaterOrEqual(t, q.Elapsed, p.Elapsed, name)
			switch q.Gain {
			case sheet.NoGain:
				require.Equal(t, [2]int{p.Placed, p.Sheets}, [2]int{q.Placed, q.Sheets}, name)
			case sheet.LowerCost:
				require.Less(t, q.Cost, p.Cost, name)
			}
		}
		require.Equal(t, cost, all[n-1].Cost, name)
		require.Positive(t, all[n-1].Iterations, name)
	}
	require.Equal(t, "lower cost", sheet.LowerCost.String())
}

// Straight cuts take the time they are given, count what they do, and use it: the
// offcuts are no smaller than at once, and larger for some job.
func TestStraightUsesItsTime(t *testing.T) {
	gains := 0
	for k := range 4 {
		parts := curvedCase(1)[k:]
		lay := func(d time.Duration) (sheet.SawLayout, time.Duration) {
			from := time.Now()
			l, err := sheet.NestStraight(context.Background(), parts, boards(), sheet.Saw{Kerf: 3, Trim: 10}, sheet.Options{Time: d, Seed: 3})
			require.NoError(t, err)
			return l, time.Since(from)
		}
		short, _ := lay(time.Millisecond)
		long, took := lay(300 * time.Millisecond)
		require.Greater(t, took, 290*time.Millisecond)
		require.Less(t, took, 1300*time.Millisecond) // with play for a busy machine
		require.Greater(t, long.Iterations, 10)
		require.LessOrEqual(t, used(long.Layout), used(short.Layout)+1e-9)
		if used(long.Layout) < used(short.Layout)-0.005 {
			gains++
		}
	}
	require.Positive(t, gains)
}
