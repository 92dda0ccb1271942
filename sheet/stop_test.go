package sheet_test

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// crowd is 2,000 copies of 200 parts.
func crowd(plain bool) []sheet.Part {
	rng := rand.New(rand.NewPCG(1, 1))
	var out []sheet.Part
	for range 200 {
		l, w := float64(150+rng.IntN(600)), float64(120+rng.IntN(300))
		g := arc.Region{Outer: arc.Rect(0, 0, l, w)}
		if !plain {
			g = bracket(l, w, 50)
		}
		out = append(out, sheet.Part{Name: "p", Qty: 10, Material: "mdf", Thickness: 19, Outline: g})
	}
	return out
}

// nestCrowd lays the crowd out, by outlines or for a saw, and returns the sheets
// and how many copies are left out.
func nestCrowd(tb testing.TB, ctx context.Context, parts []sheet.Part, saw bool, limit time.Duration) (sheets, left int) {
	opt := sheet.Options{Gap: 8, Margin: 10, Time: limit}
	if saw {
		l, err := sheet.NestStraight(ctx, parts, boards(), sheet.Saw{Kerf: 8, Trim: 10}, opt)
		require.NoError(tb, err)
		return len(l.Sheets), len(l.Unplaced)
	}
	l, err := sheet.Nest(ctx, parts, boards(), opt)
	require.NoError(tb, err)
	return len(l.Sheets), len(l.Unplaced)
}

// A search of 2,000 copies that is stopped, or given a millisecond, returns soon
// and with all of them placed. The limit here allows for a machine that is twenty
// times as busy; BenchmarkStop measures by processor time.
func TestCrowdStopsSoon(t *testing.T) {
	for _, plain := range []bool{true, false} {
		parts := crowd(plain)
		for _, saw := range []bool{true, false} {
			for _, after := range []time.Duration{time.Millisecond, 100 * time.Millisecond} {
				ctx, cancel := context.WithTimeout(context.Background(), after)
				from := time.Now()
				_, left := nestCrowd(t, ctx, parts, saw, 20*time.Second)
				cancel()
				require.Less(t, time.Since(from)-after, time.Second)
				require.Zero(t, left)
			}
			from := time.Now()
			_, left := nestCrowd(t, context.Background(), parts, saw, time.Millisecond)
			require.Less(t, time.Since(from), time.Second)
			require.Zero(t, left)
		}
	}
}
