package sheet_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// tiles is a layout of n by n squares of a side, a distance apart, turned as one.
func tiles(n int, side, apart float64, turn arc.Angle) ([]sheet.Part, sheet.Layout) {
	parts := []sheet.Part{panel("tile", side, side, n*n)}
	parts[0].Turns = sheet.AnyAngle
	var s sheet.Sheet
	for k := range n * n {
		at := arc.Rotate(turn).Apply(r2.Vec{X: float64(k%n) * (side + apart), Y: float64(k/n) * (side + apart)})
		s.Placements = append(s.Placements, sheet.Placement{Copy: k, At: r2.Add(at, r2.Vec{X: 500, Y: 50}), Rotate: turn})
	}
	return parts, sheet.Layout{Sheets: []sheet.Sheet{s}}
}

// Squares one cutter apart share all inner edges, level or not; a hundredth of a
// millimeter nearer or farther they share none.
func TestSharedCutsOfTiles(t *testing.T) {
	for _, turn := range []arc.Angle{0, 90 * arc.Degree, 17 * arc.Degree} {
		for n := 1; n <= 4; n++ {
			parts, l := tiles(n, 100, 8, turn)
			cuts, err := sheet.SharedCuts(parts, l, 8)
			require.NoError(t, err)
			require.Len(t, cuts, 2*n*(n-1))
			for _, c := range cuts {
				require.InDelta(t, 100, r2.Norm(r2.Sub(c.To, c.From)), 1e-9)
			}
			for _, off := range []float64{-0.01, 0.01} {
				parts, l := tiles(n, 100, 8+off, turn)
				cuts, err := sheet.SharedCuts(parts, l, 8)
				require.NoError(t, err)
				require.Empty(t, cuts)
			}
		}
	}
	for _, d := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300} {
		_, err := sheet.SharedCuts(nil, sheet.Layout{}, d)
		require.Error(t, err)
	}
	_, err := sheet.SharedCuts(nil, sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{Part: 3}}}}}, 8)
	require.Error(t, err)
}

// distanceTo returns how far a point is from the boundary of a part in place, by
// a closest-point search of package arc that the layout does not use.
func distanceTo(parts []sheet.Part, q sheet.Placement, v r2.Vec) float64 {
	least := math.Inf(1)
	for _, loop := range parts[q.Part].Outline.Transform(q.Motion()).Loops() {
		for i := range loop.NumSegments() {
			s := loop.Segment(i)
			const steps = 64
			if s.K == 0 {
				d := r2.Sub(s.B, s.A)
				u := math.Max(0, math.Min(1, r2.Dot(r2.Sub(v, s.A), d)/r2.Norm2(d)))
				least = math.Min(least, r2.Norm(r2.Sub(v, r2.Add(s.A, r2.Scale(u, d)))))
				continue
			}
			for k := 0.0; k <= steps; k++ {
				p, _ := s.At(s.Length() * k / steps)
				least = math.Min(least, r2.Norm(r2.Sub(v, p)))
			}
		}
	}
	return least
}

// Neighbors moved together share more, at no cost: the layouts are legal, every
// shared cut runs half the diameter from both of its parts with the first on its
// left, and none of the others is in its way.
func TestShareMovesTogether(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	length := func(cuts []sheet.SharedCut) (sum float64) {
		for _, c := range cuts {
			sum += r2.Norm(r2.Sub(c.To, c.From))
		}
		return sum
	}
	var sum [2]float64
	for k := range 6 {
		var parts []sheet.Part
		for range 3 + rng.IntN(5) {
			l, w := float64(150+rng.IntN(500)), float64(100+rng.IntN(300))
			p := panel("p", l, w, 1+rng.IntN(4))
			if rng.IntN(3) == 0 {
				p.Outline = bracket(l, w, 50)
			}
			parts = append(parts, p)
		}
		stock := []sheet.Stock{sheetOf(1500, 1200)}
		if k%2 == 1 {
			stock[0].Forbidden = []arc.Region{{Outer: arc.Circle(r2.Vec{X: 400, Y: 300}, 60)}}
		}
		var offcuts [2]float64
		for i := range 2 {
			opt := sheet.Options{Gap: 9.525, Margin: 12, Iterations: 4, Seed: uint64(k), Share: i == 1}
			l, err := sheet.Nest(context.Background(), parts, stock, opt)
			require.NoError(t, err)
			require.Empty(t, l.Unplaced)
			require.NoError(t, sheet.Check(parts, stock, l, opt))
			cuts, err := sheet.SharedCuts(parts, l, opt.Gap)
			require.NoError(t, err)
			sum[i] += length(cuts)
			for _, c := range cuts {
				s := l.Sheets[c.Sheet]
				for _, u := range [3]float64{0.01, 0.5, 0.99} {
					v := r2.Add(c.From, r2.Scale(u, r2.Sub(c.To, c.From)))
					for j, q := range s.Placements {
						d := distanceTo(parts, q, v)
						if j == c.A || j == c.B {
							require.InDelta(t, opt.Gap/2, d, 2e-3)
						} else {
							require.Greater(t, d, opt.Gap/2-2e-3)
						}
					}
				}
				a := parts[s.Placements[c.A].Part].Outline.Transform(s.Placements[c.A].Motion())
				d := r2.Unit(r2.Sub(c.To, c.From))
				left := r2.Add(r2.Scale(0.5, r2.Add(c.From, c.To)), r2.Scale(opt.Gap/2+0.1, r2.Vec{X: -d.Y, Y: d.X}))
				require.True(t, a.Contains(left), "the first part lies on the left")
			}
			for _, s := range l.Sheets {
				if len(s.Offcuts) > 0 {
					offcuts[i] = max(offcuts[i], s.Offcuts[0].Stock.Area())
				}
			}
		}
		require.GreaterOrEqual(t, offcuts[1], offcuts[0]-1e-3)
	}
	t.Logf("shared %.1f m, moved together %.1f m", sum[0]/1e3, sum[1]/1e3)
	require.Greater(t, sum[1], 1.05*sum[0])
}

// What stands is not moved, and a search of no time returns soon.
func TestShareLeavesWhatStands(t *testing.T) {
	parts := []sheet.Part{panel("a", 300, 200, 6)}
	stock := []sheet.Stock{sheetOf(1500, 1200)}
	fixed := []sheet.Sheet{{Placements: []sheet.Placement{{At: r2.Vec{X: 40, Y: 30}}, {Copy: 1, At: r2.Vec{X: 362, Y: 45}}}}}
	opt := sheet.Options{Gap: 10, Margin: 10, Iterations: 4, Fixed: fixed, Share: true}
	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	require.NoError(t, err)
	require.NoError(t, sheet.Check(parts, stock, l, opt))
	for _, q := range fixed[0].Placements {
		require.Contains(t, l.Sheets[0].Placements, q)
	}
}
