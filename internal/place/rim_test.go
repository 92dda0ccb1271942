package place

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Nearly all places drawn on a rim touch the other copy but for a cell of the
// raster: within two diagonals of one, some place overlaps it and some does
// not. The shapes themselves are asked, not the table. The few others lie deep
// inside, where an edge of the convolution that is not on the outline of the
// no-fit region leaves a cell undecided.
func TestRimTouches(t *testing.T) {
	ell := []r2.Vec{{X: 0, Y: 0}, {X: 90, Y: 0}, {X: 90, Y: 30}, {X: 30, Y: 30}, {X: 30, Y: 70}, {X: 0, Y: 70}}
	kite := []r2.Vec{{X: 0, Y: 20}, {X: 25, Y: 0}, {X: 80, Y: 20}, {X: 25, Y: 45}}
	frame := Item{Outer: rect(100, 80), Holes: [][]r2.Vec{{{X: 20, Y: 15}, {X: 85, Y: 15}, {X: 85, Y: 70}, {X: 20, Y: 70}}}}
	turns := []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2, 0.3}
	items := []Item{{Outer: ell, Mirror: true, Rotations: turns}, {Outer: kite, Rotations: turns}, frame}
	p, err := newProblem(t.Context(), "Strip", items, nil, nil, nil)
	require.NoError(t, err)
	require.True(t, p.rims)
	l := newLane(p, []int32{0, 1, 2}, 3, 1, 1, newStopper(t.Context(), Options{}))
	rng := rand.New(rand.NewPCG(3, 4))
	drawn, near := 0, 0
	for range 3000 {
		i := rng.IntN(3)
		for j := range 3 {
			s := l.turns(j)
			l.set(j, s[rng.IntN(len(s))], math.Floor(1e7*rng.Float64()), math.Floor(1e7*rng.Float64()))
		}
		others := []int{(i + 1) % 3, (i + 2) % 3}
		x, y, ok := l.onRim(i, l.o[i])
		if !ok {
			continue
		}
		drawn++
		touches := false
		for _, j := range others {
			touches = touches || rimNear(l, i, j, x, y)
		}
		near += b2i(touches)
	}
	require.Greater(t, drawn, 1500)
	require.Greater(t, near, drawn*9/10)
}

// rimNear tells whether copy i at (x, y) is about to touch copy j: of places
// around it, some overlap that and some do not.
func rimNear(l *lane, i, j int, x, y float64) bool {
	a, b := l.p.shapes[l.o[j]], l.p.shapes[l.o[i]]
	reach := 2 * math.Sqrt2 * l.p.pair(l.o[j], l.o[i]).t.size
	free, hit := false, false
	for k := range 64 {
		s, c := math.Sincos(float64(k%16) * math.Pi / 8)
		r := reach * float64(k/16) / 3
		v := pt{int64(x + r*c - l.x[j]), int64(y + r*s - l.y[j])}.add(b.t).sub(a.t)
		if overlaps(a.solid().region, b.solid().region, v) {
			hit = true
		} else {
			free = true
		}
	}
	return free && hit
}

// Beyond so many forms no place is drawn from a rim.
func TestRimsNeedFewForms(t *testing.T) {
	for _, n := range []int{maxRims, maxRims + 1} {
		var items []Item
		for k := range n {
			items = append(items, Item{Outer: rect(100, 50+float64(k))})
		}
		p, err := newProblem(t.Context(), "Strip", items, nil, nil, nil)
		require.NoError(t, err)
		require.Equal(t, n <= maxRims, p.rims)
	}
}
