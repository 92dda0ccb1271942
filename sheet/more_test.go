package sheet_test

import (
	"context"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// moreJob invents panels, and two to four kinds of stock, or a number of them: whole
// boards, other boards, leftovers free, cheap or dear.
func moreJob(rng *rand.Rand, kinds int) (parts []sheet.Part, stock []sheet.Stock) {
	for range 2 + rng.IntN(5) {
		l, w := float64(150+rng.IntN(900)), float64(100+rng.IntN(500))
		g := arc.Region{Outer: arc.Rect(0, 0, l, w)}
		if rng.IntN(6) == 0 {
			g = bracket(l, w+60, 55)
		}
		parts = append(parts, sheet.Part{Name: "p", Qty: 1 + rng.IntN(6), Material: "p", Thickness: 18, Outline: g})
	}
	stock = []sheet.Stock{{Name: "full", Material: "p", Thickness: 18, Length: 2440, Width: 1220, Price: 70}}
	if kinds == 0 {
		kinds = 2 + rng.IntN(3)
	}
	for range kinds - 1 {
		s := sheet.Stock{Name: "left", Material: "p", Thickness: 18, Length: float64(500 + rng.IntN(900)), Width: float64(300 + rng.IntN(500)), Count: 1 + rng.IntN(5), Price: float64(rng.IntN(9))}
		if rng.IntN(5) == 0 {
			s = sheet.Stock{Name: "other", Material: "p", Thickness: 18, Length: 1525, Width: 1525, Price: float64(45 + rng.IntN(20))}
		}
		stock = append(stock, s)
	}
	return parts, stock
}

// lacking is how much area a layout leaves out.
func lacking(parts []sheet.Part, l sheet.Layout) float64 {
	sum := 0.0
	for _, u := range l.Unplaced {
		sum += parts[u.Part].Outline.Area()
	}
	return sum
}

// One more kind of stock makes no job dearer and leaves no more out, by
// outlines and by straight cuts.
func TestMoreStockNeverCostsMore(t *testing.T) {
	jobs := 12
	if testing.Short() {
		jobs = 5
	}
	if os.Getenv("SAGITTA_FULL") != "" {
		jobs = 1000
	}
	requireNoneDearer(t, jobs, 0, 20)
}

// Nor does a fifth kind, or a sixth.
func TestSixthStockNeverCostsMore(t *testing.T) {
	if os.Getenv("SAGITTA_FULL") != "" {
		requireNoneDearer(t, 100, 6, 4)
	}
	requireNoneDearer(t, 2, 5, 4)
}

func requireNoneDearer(t *testing.T, jobs, kinds, iterations int) {
	rng := rand.New(rand.NewPCG(1, 2))
	gains := 0
	for k := range jobs {
		parts, stock := moreJob(rng, kinds)
		opt := sheet.Options{Gap: 8, Margin: 10, Iterations: iterations, Seed: uint64(k)}
		lay := [2]func(s []sheet.Stock) sheet.Layout{
			func(s []sheet.Stock) sheet.Layout {
				l, err := sheet.Nest(context.Background(), parts, s, opt)
				require.NoError(t, err)
				return l
			},
			func(s []sheet.Stock) sheet.Layout {
				l, err := sheet.NestStraight(context.Background(), parts, s, sheet.Saw{Kerf: 3.2, Trim: 10}, opt)
				require.NoError(t, err)
				return l.Layout
			},
		}
		for i, f := range lay {
			few, more := f(stock[:len(stock)-1]), f(stock)
			a, b := lacking(parts, few), lacking(parts, more)
			require.LessOrEqual(t, b, a, "job %d, way %d", k, i)
			if a == b {
				require.LessOrEqual(t, more.Cost, few.Cost, "job %d, way %d, of %d kinds", k, i, len(stock))
				gains += map[bool]int{true: 1}[more.Cost < few.Cost]
			}
		}
	}
	t.Logf("%d of %d layouts are cheaper by one more kind", gains, 2*jobs)
	require.Greater(t, gains, jobs/5)
}
