package place

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

func sheets(n int, w, h float64) []Container {
	out := make([]Container, n)
	for i := range out {
		out[i] = Container{Width: w, Height: h}
	}
	return out
}

// Six squares, two on each of three sheets for four: they go on two sheets, of
// which the second is used for half its length.
func TestFitEmptiesTheLast(t *testing.T) {
	items := []Item{{Outer: rect(50, 50), Demand: 6}}
	var start []Placement
	for i := range 6 {
		start = append(start, Placement{Copy: i, Container: i / 2, At: r2.Vec{X: float64(i%2) * 50, Y: float64(i%3) * 20}})
	}
	r, err := Fit(context.Background(), items, sheets(3, 100, 100), Options{Iterations: 400, Start: start})
	require.NoError(t, err)
	require.Len(t, r.Placed, 6)
	require.Equal(t, 2, r.Containers)
	require.Equal(t, 50.0, r.Length)
}

// The same job begun again from its own result does not get worse, and the
// memory of earlier calls does not make it illegal.
func TestFitGoesOn(t *testing.T) {
	items := []Item{{Outer: star7(14), Demand: 30, Rotations: []float64{0, 0.7}}, {Outer: rect(17, 5), Demand: 20, Rotations: rightAngles}}
	var mem Memory
	opt := Options{Iterations: 60, Memory: &mem}
	before := Result{Containers: 100}
	for seed := range uint64(4) {
		opt.Seed = seed
		r, err := Fit(context.Background(), items, sheets(12, 70, 60), opt)
		require.NoError(t, err)
		require.Len(t, r.Placed, 50)
		for k := range 12 {
			requireLegal(t, items, on(r.Placed, k), 70, 60, 0)
		}
		require.LessOrEqual(t, r.Containers, before.Containers)
		if r.Containers == before.Containers {
			require.LessOrEqual(t, r.Length, before.Length)
		}
		opt.Start, before = r.Placed, r
	}
}

func on(placed []Placement, k int) []Placement {
	var out []Placement
	for _, p := range placed {
		if p.Container == k {
			out = append(out, p)
		}
	}
	return out
}

// A start that is no legal layout is passed over.
func TestFitRefusesFaultyStarts(t *testing.T) {
	items := []Item{{Outer: rect(30, 20), Demand: 2, Containers: []int{0}}}
	for i, start := range [][]Placement{
		{{At: r2.Vec{X: 1}}, {Copy: 1}},
		{{}, {}},
		{{Item: 1}}, {{Item: -1}}, {{Copy: 2}}, {{Copy: -1}}, {{Container: 2}}, {{Container: 1}},
		{{Rotation: 1}}, {{Mirrored: true}}, {{At: r2.Vec{X: 80}}}, {{At: r2.Vec{Y: -1}}},
	} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			r, err := Fit(context.Background(), items, sheets(2, 100, 50), Options{Iterations: 20, Start: start})
			require.NoError(t, err)
			require.Len(t, r.Placed, 2)
			requireLegal(t, items, r.Placed, 100, 50, 0)
		})
	}
}

// Disturbing a layout never moves what is fixed, on any sheet of a row.
func TestForbiddenRegionsStay(t *testing.T) {
	items := []Item{{Outer: rect(31, 17), Demand: 12, Rotations: rightAngles}, {Outer: star7(11), Demand: 6}}
	var cs []Container
	for k := range 3 {
		d := float64(k) * 7
		cs = append(cs, Container{Width: 90 + d, Height: 60 + d, Forbidden: solids(square(-10, 12+d, 30), square(50, 20+d, 25))})
	}
	for seed := range uint64(3) {
		r, err := Fit(context.Background(), items, cs, Options{Iterations: 1500, Seed: seed})
		require.NoError(t, err)
		require.NotEmpty(t, r.Placed)
		for k, c := range cs {
			requireLegal(t, items, on(r.Placed, k), c.Width, c.Height, 0)
			requireApart(t, items, on(r.Placed, k), outersOf(c.Forbidden))
		}
	}
}

// A row that is kept from one leg to the next looks at lengths under the best,
// also where a leg ended amid the trials at a length. Here all of them fail: of
// the two squares none goes beside the other, and nothing lies beside the second.
func TestRowGoesOnShorter(t *testing.T) {
	items := []Item{{Outer: rect(60, 60), Demand: 2}, {Outer: rect(30, 95)}}
	cs := sheets(2, 100, 100)
	p, err := newProblem(context.Background(), "Fit", items, nil, rooms(cs), nil)
	require.NoError(t, err)
	run := &fitRun{p: p, stop: newStopper(context.Background(), Options{}), sites: make([]site, 2)}
	for k, c := range cs {
		run.sites[k].measure(p, c)
	}
	run.opt = Options{Iterations: 2000, Start: []Placement{{}, {Item: 1, At: r2.Vec{X: 65}}, {Copy: 1, Container: 1}}}
	m := &improver{run: run, items: copiesOf(items), rng: rand.New(rand.NewPCG(1, 2))}
	m.take(run.started(m.items))
	m.together(0.5)
	r := m.whole
	r.explore(0.75, 1<<30)
	require.Greater(t, r.sweeps, 1400)
	require.Less(t, r.w, r.length)
}
