package place

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// rowOf returns a row over all containers, with the layout of start.
func rowOf(t *testing.T, items []Item, cs []Container, start []Placement) *row {
	p, err := newProblem(context.Background(), "Fit", items, nil, rooms(cs), nil)
	require.NoError(t, err)
	run := &fitRun{p: p, opt: Options{Start: start}, stop: newStopper(context.Background(), Options{}), sites: make([]site, len(cs))}
	for k, c := range cs {
		run.sites[k].measure(p, c)
	}
	m := &improver{run: run, items: copiesOf(items), rng: rand.New(rand.NewPCG(1, 2))}
	out := run.started(m.items)
	require.NotNil(t, out)
	m.take(out)
	return m.newRow(m.out.placed)
}

// Tiles lie in the last bay, apart, each copy once, and fill a bay that copies
// of one kind fill.
func TestTilesLieApart(t *testing.T) {
	items := []Item{{Outer: rect(60, 40), Demand: 3, Rotations: rightAngles}, {Outer: rect(35, 20), Demand: 9, Rotations: rightAngles}, {Outer: []r2.Vec{{}, {X: 30}, {Y: 30}}, Demand: 4}}
	start := []Placement{{Item: 1, Copy: 8, Container: 1}}
	for item, n := range []int{3, 8, 4} {
		for k := range n {
			start = append(start, Placement{Item: item, Copy: k, At: r2.Vec{X: float64(70-20*item) * float64(k%4), Y: float64(40*item + 20*(k/4))}})
		}
	}
	r := rowOf(t, items, sheets(2, 200, 120), start)
	require.Len(t, r.copies, 16)
	last := r.room[1]
	for k := range 30 {
		w := r.p.floor(60 + 2*float64(k))
		tiles, space := r.bestTiles(last, w)
		require.NotEmpty(t, tiles)
		sum := 0.0
		var boxes []fbox
		seen := map[int]bool{}
		for _, q := range tiles {
			b := r.p.fbox(q.o, q.x, q.y)
			require.True(t, b.x0 >= last.x && b.x1 <= last.x+w && b.y0 >= 0 && b.y1 <= last.h)
			for _, c := range boxes {
				require.True(t, b.x1 <= c.x0 || c.x1 <= b.x0 || b.y1 <= c.y0 || c.y1 <= b.y0)
			}
			require.False(t, seen[q.i])
			require.Contains(t, r.p.turns[r.item[q.i]], q.o)
			seen[q.i], boxes = true, append(boxes, b)
			sum += r.p.shapes[q.o].space
		}
		require.Equal(t, sum, space)
	}
	_, space := r.bestTiles(last, r.p.floor(60))
	require.Equal(t, last.h*r.p.floor(60), space, "three of 60 by 40")
}

// Two large squares on the last sheet change places with two narrower pieces on
// the first, which no trial that fails does by halves.
func TestRestack(t *testing.T) {
	items := []Item{{Outer: rect(50, 50), Demand: 4}, {Outer: rect(40, 50), Demand: 2}}
	at := func(item, copy, c int, x, y float64) Placement {
		return Placement{Item: item, Copy: copy, Container: c, At: r2.Vec{X: x, Y: y}}
	}
	r := rowOf(t, items, sheets(2, 117, 104), []Placement{
		at(0, 0, 0, 0, 0), at(0, 1, 0, 0, 50), at(1, 0, 0, 50, 0), at(1, 1, 0, 50, 50),
		at(0, 2, 1, 0, 0), at(0, 3, 1, 0, 50),
	})
	require.Equal(t, r.p.floor(50), r.length-r.from())
	for range 30 {
		old, w := r.layout.clone(), r.w
		if r.restack() {
			break
		}
		require.Equal(t, old, r.layout)
		require.Equal(t, w, r.w)
	}
	require.Zero(t, r.total())
	require.Equal(t, r.p.floor(40), r.used()-r.from())
}
