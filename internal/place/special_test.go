package place

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// No value makes the package panic or hang; each is refused with its name or
// used.
func TestSpecialValues(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := Options{Iterations: 20}
	bow := []r2.Vec{{}, {X: 10, Y: 10}, {X: 10}, {Y: 11}}
	for k, c := range []struct {
		items  []Item
		height float64
		opt    Options
		want   error // nil: a result
	}{
		{nil, 10, good, nil},
		{[]Item{{Outer: rect(5, 5)}}, 10, Options{}, ErrOptions},
		{[]Item{{Outer: rect(5, 5)}}, 10, Options{Iterations: -1, Time: 1}, ErrOptions},
		{[]Item{{Outer: rect(5, 5)}}, 10, Options{Workers: -1, Time: 1}, ErrOptions},
		{[]Item{{Outer: rect(5, 5)}}, 10, Options{Time: 1}, nil},
		{[]Item{{Outer: rect(5, 5)}}, 0, good, ErrContainer},
		{[]Item{{Outer: rect(5, 5)}}, -1, good, ErrContainer},
		{[]Item{{Outer: rect(5, 5)}}, nan, good, ErrContainer},
		{[]Item{{Outer: rect(5, 5)}}, inf, good, ErrContainer},
		{[]Item{{Outer: rect(5, 5)}}, 1e-300, good, ErrTooLarge},
		{[]Item{{Outer: rect(5, 5)}}, math.MaxFloat64, good, nil},
		{[]Item{{Outer: rect(5, 5)}}, 5, good, nil},
		{[]Item{{Outer: rect(5, 5)}}, math.Nextafter(5, 0), good, nil}, // within rounding
		{[]Item{{Outer: rect(5, 5)}}, 4.999, good, ErrTooLarge},
		{[]Item{{}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 0)}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 1e-9)}}, 10, good, nil},
		{[]Item{{Outer: rect(1e-200, 1e-200)}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(nan, 5)}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(inf, 5)}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(1e300, 5)}}, 10, good, ErrItem},
		{[]Item{{Outer: []r2.Vec{{}, {X: 1}, {X: 2}}}}, 10, good, ErrItem},
		{[]Item{{Outer: bow}}, 20, good, ErrItem},
		{[]Item{{Outer: make([]r2.Vec, 6000)}}, 20, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Demand: -1}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Demand: math.MaxInt}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Rotations: []float64{nan}}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Rotations: []float64{1e300}}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Rotations: make([]float64, 300)}}, 10, good, nil},
		{[]Item{{Outer: rect(5, 5), AnyRotation: true, Mirror: true, Demand: 5}}, 10, good, nil},
		{[]Item{{Outer: rect(5, 5), Holes: [][]r2.Vec{{}}}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Core: [][]r2.Vec{{}}}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Core: [][]r2.Vec{rect(nan, 1)}}}, 10, good, ErrItem},
		{[]Item{{Outer: rect(5, 5), Core: [][]r2.Vec{square(9, 9, 3)}}}, 10, good, nil}, // a core elsewhere
		{[]Item{{Outer: rect(5, 5), Holes: [][]r2.Vec{square(1, 1, 3)}}}, 10, good, nil},
		{[]Item{{Outer: rect(5, 5), Holes: [][]r2.Vec{square(9, 9, 3)}}}, 10, good, nil}, // a hole elsewhere takes nothing away
		{[]Item{{Outer: reversed(rect(5, 5)), Demand: 3}}, 10, good, nil},
		{[]Item{{Outer: append(rect(5, 5), r2.Vec{}), Demand: 3}}, 10, good, nil}, // closed explicitly
		{[]Item{{Outer: moved(rect(5, 5), r2.Vec{X: 1e8, Y: -1e8}), Demand: 3}}, 10, good, nil},
		{[]Item{{Outer: rect(1e5, 5)}, {Outer: rect(1, 1)}}, 10, good, nil},
	} {
		t.Run(fmt.Sprint(k), func(t *testing.T) {
			r, err := Strip(context.Background(), c.items, c.height, c.opt)
			require.ErrorIs(t, err, c.want)
			if c.want != nil {
				var e *Error
				require.True(t, errors.As(err, &e) && e.Func == "Strip" && e.Param != "" && e.Need != "")
				return
			}
			n := 0
			for _, it := range c.items {
				n += it.demand()
			}
			require.Len(t, r.Placed, n)
		})
	}
}

func TestSpecialContainers(t *testing.T) {
	items := []Item{{Outer: rect(5, 5), Demand: 3}}
	good := Options{Iterations: 20}
	nan := math.NaN()
	for k, c := range []struct {
		sheets []Container
		want   error
		placed int
	}{
		{nil, nil, 0},
		{[]Container{{}}, ErrContainer, 0},
		{[]Container{{Width: nan, Height: 5}}, ErrContainer, 0},
		{[]Container{{Width: 1e300, Height: 5}}, ErrContainer, 0},
		{[]Container{{Width: 10, Height: -5}}, ErrContainer, 0},
		{[]Container{{Outer: []r2.Vec{{}}}}, ErrContainer, 0},
		{[]Container{{Width: 10, Height: 5, Forbidden: solids(nil)}}, ErrContainer, 0},
		{[]Container{{Width: 1e-300, Height: 5}}, nil, 0},
		{[]Container{{Width: 10, Height: 5}}, nil, 2},
		{[]Container{{Width: 1e9, Height: 1e9}}, nil, 3},
		{[]Container{{Width: 10, Height: 5, Forbidden: solids(square(-50, -50, 500))}}, nil, 0},
		{[]Container{{Width: 4, Height: 4}, {Width: 15, Height: 5, Forbidden: solids(square(5, 0, 5), square(6, 1, 3))}}, nil, 2},
		{[]Container{{Outer: []r2.Vec{{}, {X: 9}, {Y: 9}}}}, nil, 0},
		{[]Container{{Outer: []r2.Vec{{}, {X: 10}, {Y: 10}}}}, nil, 1},
	} {
		t.Run(fmt.Sprint(k), func(t *testing.T) {
			r, err := Fit(context.Background(), items, c.sheets, good)
			require.ErrorIs(t, err, c.want)
			if c.want == nil {
				require.Len(t, r.Placed, c.placed)
				require.Len(t, r.Unplaced, 3-c.placed)
			}
		})
	}
	_, err := Fit(context.Background(), []Item{{Outer: rect(5, 5), Containers: []int{1}}}, []Container{{Width: 9, Height: 9}}, good)
	require.ErrorIs(t, err, ErrItem)
}

// Random jobs, also many different items so that pair tables run out, are
// legal and complete.
func TestRandomJobsLegal(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range rounds(8, 200) {
		var items []Item
		for range 1 + rng.IntN(8) {
			it := Item{Outer: timesAll(star(rng, 3+rng.IntN(9), 4+rng.IntN(30)), []float64{1, 0.25, 0.1, math.Pi}[rng.IntN(4)]), Demand: 1 + rng.IntN(4), Mirror: rng.IntN(3) == 0}
			for range rng.IntN(4) {
				it.Rotations = append(it.Rotations, []float64{0, math.Pi / 2, math.Pi, 1, -0.3}[rng.IntN(5)])
			}
			it.AnyRotation = rng.IntN(6) == 0
			items = append(items, it)
		}
		r, err := Strip(context.Background(), items, 200, Options{Seed: rng.Uint64(), Iterations: 60})
		require.NoError(t, err)
		n := 0
		for _, it := range items {
			n += it.demand()
		}
		require.Len(t, r.Placed, n)
		requireLegal(t, items, r.Placed, r.Length, 200, 1e-9)
	}
}

func TestManyDifferentItems(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	var items []Item
	for range 100 {
		items = append(items, Item{Outer: timesAll(star(rng, 8, 100), 1.37), Rotations: rightAngles})
	}
	start := time.Now()
	r, err := Strip(context.Background(), items, 2000, Options{Iterations: 2})
	require.NoError(t, err)
	require.Len(t, r.Placed, 100)
	requireLegal(t, items, r.Placed, r.Length, 2000, 1e-9)
	t.Logf("100 different items in %v, density %.3f", time.Since(start), r.Density)
}

// Where memory for tables is short, pairs are decided on the shapes, alike.
func TestPairsWithoutTables(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range rounds(12, 300) {
		var items []Item
		for range 3 {
			items = append(items, Item{Outer: star(rng, 4+rng.IntN(6), 6+rng.IntN(8)), Rotations: rightAngles, Mirror: true})
		}
		with, err := newProblem(context.Background(), "Strip", items, nil, nil, nil)
		require.NoError(t, err)
		without, err := newProblem(context.Background(), "Strip", items, nil, nil, nil)
		require.NoError(t, err)
		without.bytes = tableBytes + 1
		n, step := len(with.shapes), float64(with.step)
		for range 400 {
			a, b := int32(rng.IntN(n)), int32(rng.IntN(n))
			x, y := step*float64(rng.IntN(30)-15), step*float64(rng.IntN(30)-15)
			p, q := with.fbox(a, 0, 0), with.fbox(b, x, y)
			if p.x1 <= q.x0 || q.x1 <= p.x0 || p.y1 <= q.y0 || q.y1 <= p.y0 {
				continue
			}
			with.buildTable(with.pair(a, b))
			require.Equal(t, without.pair(a, b).at(x, y), with.pair(a, b).at(x, y))
			require.Equal(t, without.pair(a, b).at(x, y) > 0, with.pair(a, b).hits(x, y))
			require.Equal(t, without.pair(a, b).hits(x, y), with.pair(a, b).hits(x, y))
			require.Equal(t, with.pair(b, a).at(-x, -y) > 0, with.pair(a, b).at(x, y) > 0)
		}
		for _, tab := range without.tables {
			require.Empty(t, tab.cells)
		}
	}
}
