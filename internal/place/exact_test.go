package place

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// SAGITTA_FULL=1 runs the random tests at full length.
var fullRun = os.Getenv("SAGITTA_FULL") == "1"

func TestOverlapsTouching(t *testing.T) {
	sq := toRegion(rect(10, 10))
	ell := toRegion([]r2.Vec{{}, {X: 20}, {X: 20, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 20}, {Y: 20}})
	slot := toRegion([]r2.Vec{{}, {X: 30}, {X: 30, Y: 20}, {X: 20, Y: 20}, {X: 20, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 20}, {Y: 20}})
	ring := toRegion(rect(30, 30), []r2.Vec{{X: 10, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 20}, {X: 10, Y: 20}})
	for _, c := range []struct {
		name string
		a    region
		v    pt
		want bool
	}{
		{"same place", sq, pt{0, 0}, true},
		{"edge to edge", sq, pt{10, 0}, false},
		{"edge to edge shifted", sq, pt{10, 3}, false},
		{"corner to corner", sq, pt{10, 10}, false},
		{"one unit", sq, pt{9, 9}, true},
		{"apart", sq, pt{11, 0}, false},
		{"seated in the corner of an L", ell, pt{10, 10}, false},
		{"one unit into the L", ell, pt{9, 10}, true},
		{"seated in a slot of its width", slot, pt{10, 10}, false},
		{"half way into the slot", slot, pt{10, 15}, false},
		{"beside the slot by one", slot, pt{11, 15}, true},
		{"below the slot's floor", slot, pt{10, 9}, true},
		{"in a hole of its size", ring, pt{10, 10}, false},
		{"beside the hole by one", ring, pt{10, 11}, true},
		{"over the whole hole", toRegion(rect(30, 30), []r2.Vec{{X: 2, Y: 2}, {X: 4, Y: 2}, {X: 4, Y: 4}, {X: 2, Y: 4}}), pt{0, 0}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			for q := range 4 { // turned, and from either side
				a, b := turnedRegion(c.a, q), turnedRegion(sq, q)
				require.Equal(t, c.want, overlaps(a, b, c.v.quarter(q)))
				require.Equal(t, c.want, overlaps(b, a, pt{}.sub(c.v.quarter(q))))
				tab := newTable(asSolid(a), asSolid(b), 16)
				require.Equal(t, c.want, tab.blockedAt(c.v.quarter(q)), "by the table")
			}
		})
	}
}

func turnedRegion(r region, q int) region {
	var out region
	for _, l := range r {
		out = append(out, turned(l, q))
	}
	return out
}

func asSolid(r region) *solid {
	return newForm(r, 0, poles(r, r.space(), detail{maxPoles, 40})).turns[0]
}

// blockedAt asks the table as the search does.
func (t *table) blockedAt(v pt) bool {
	w := view{t: t, cells: t.cells, nx: t.nx, xx: t.inv, yy: t.inv, dx: -t.x0 * t.inv, dy: -t.y0 * t.inv}
	a, b := t.a.box, t.b.box.move(v)
	if a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0 {
		return false
	}
	return w.at(float64(v.x), float64(v.y)) > 0
}

// The exact test and the table against the rational oracle, on polygons that
// touch often.
func TestOverlapsAgainstOracle(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	yes := 0
	total := rounds(200, 10000)
	for range total {
		a, b := star(rng, 3+rng.IntN(8), 3+rng.IntN(10)), star(rng, 3+rng.IntN(8), 3+rng.IntN(10))
		ra, rb := toRegion(a), toRegion(b)
		tab := newTable(asSolid(ra), asSolid(rb), 8)
		for range 4 {
			v := pt{int64(rng.IntN(25) - 12), int64(rng.IntN(25) - 12)}
			want := ratOverlap(ratLoops([][]r2.Vec{a}), ratLoops([][]r2.Vec{moved(b, r2.Vec{X: float64(v.x), Y: float64(v.y)})}), 0)
			require.Equal(t, want, overlaps(ra, rb, v), "%v %v %v", a, b, v)
			require.Equal(t, want, tab.blockedAt(v), "table: %v %v %v", a, b, v)
			yes += b2i(want)
		}
	}
	require.Greater(t, yes, total, "overlapping cases")
	require.Less(t, yes, 3*total, "free cases")
}

// Plates with a hole, so that one region lies within another, in its hole or
// apart without touching, against the rational oracle.
func TestOverlapsInHolesAgainstOracle(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	yes, in := 0, 0
	total := rounds(200, 5000)
	for range total {
		plate := [][]r2.Vec{moved(rect(40, 40), r2.Vec{X: -20, Y: -20}), star(rng, 3+rng.IntN(6), 16)}
		b := [][]r2.Vec{star(rng, 3+rng.IntN(6), 2+rng.IntN(8))}
		if rng.IntN(3) == 0 {
			b = [][]r2.Vec{moved(rect(90, 90), r2.Vec{X: -45, Y: -45}), moved(rect(60, 60), r2.Vec{X: -30, Y: -30})}
		}
		ra, rb := toRegion(plate...), toRegion(b...)
		for range 4 {
			v := pt{int64(rng.IntN(31) - 15), int64(rng.IntN(31) - 15)}
			var at [][]r2.Vec
			for _, l := range b {
				at = append(at, moved(l, r2.Vec{X: float64(v.x), Y: float64(v.y)}))
			}
			want := ratOverlap(ratLoops(plate), ratLoops(at), 0)
			require.Equal(t, want, overlaps(ra, rb, v), "%v %v %v", plate, b, v)
			require.Equal(t, want, overlaps(rb, ra, pt{}.sub(v)), "%v %v %v", plate, b, v)
			yes += b2i(want)
			in += b2i(!want)
		}
	}
	require.Greater(t, yes, total)
	require.Greater(t, in, total/2)
}

// What circles decide before any edge is looked at is as the edges decide it, in
// any turn, and cores are left to their edges.
func TestCirclesAreSure(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	sure := 0
	for range rounds(20, 400) {
		var items []Item
		for range 4 {
			a := timesAll(star(rng, 4+rng.IntN(12), 100), 1.37)
			items = append(items, Item{Outer: a, Core: [][]r2.Vec{timesAll(a, 0.2)}, Rotations: []float64{0, 6 * rng.Float64(), 6 * rng.Float64()}, Mirror: true})
		}
		p, err := newProblem(context.Background(), "Fit", items, []Item{{Outer: moved(rect(50, 70), r2.Vec{X: -7})}}, nil, nil)
		require.NoError(t, err)
		for range 200 {
			a, b := p.facing(p.shapes[rng.IntN(len(p.shapes))], p.shapes[rng.IntN(len(p.shapes))])
			tab := layTable(a.solid(), b.solid(), 16)
			x, y := math.Floor(rng.Float64()*float64(tab.nx)*tab.size), math.Floor(rng.Float64()*float64(tab.ny)*tab.size)
			v := pt{int64(x + tab.x0), int64(y + tab.y0)}
			want := overlaps(a.solid().region, b.solid().region, v)
			require.Equal(t, want, tab.directHits(x*tab.inv, y*tab.inv))
			sure += b2i(tab.surely(x+tab.x0, y+tab.y0))
		}
	}
	require.Greater(t, sure, rounds(20, 400)*20, "mostly the circles tell")
}

// Tables of large, odd coordinates with holes against the exact test.
func TestTableAgainstExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range rounds(40, 2000) {
		a := timesAll(star(rng, 5+rng.IntN(20), 1000), 4001)
		h := timesAll(star(rng, 3+rng.IntN(6), 100), 2011)
		b := timesAll(star(rng, 3+rng.IntN(20), 30+rng.IntN(500)), 3001)
		ra, rb := toRegion(a, h), toRegion(b)
		tab := newTable(asSolid(ra), asSolid(rb), 32)
		for range 300 {
			v := pt{rng.Int64N(16e6) - 8e6, rng.Int64N(16e6) - 8e6}
			require.Equal(t, overlaps(ra, rb, v), tab.blockedAt(v), "%v %v %v", a, b, v)
		}
	}
}

// A plate with many holes, one of them touching the edge of the plate at a
// corner, against the exact test.
func TestTableOfPerforatedPlate(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	free := 0
	for range rounds(12, 300) {
		loops := [][]r2.Vec{rect(1000, 800), {{X: 1000, Y: 400}, {X: 950, Y: 450}, {X: 950, Y: 350}}}
		for k := range 20 {
			x, y := float64(100+k%5*160), float64(60+k/5*180)
			loops = append(loops, moved(star(rng, 3+rng.IntN(5), 70), r2.Vec{X: x + 20, Y: y + 60}))
		}
		ra, rb := toRegion(loops...), toRegion(star(rng, 3+rng.IntN(6), 20+rng.IntN(60)))
		tab := newTable(asSolid(ra), asSolid(rb), 48)
		for range 600 {
			v := pt{rng.Int64N(1000), rng.Int64N(800)}
			want := overlaps(ra, rb, v)
			require.Equal(t, want, tab.blockedAt(v), "%v %v", ra, v)
			require.Equal(t, want, overlaps(rb, ra, pt{}.sub(v)))
			free += b2i(!want)
		}
	}
	require.Positive(t, free)
}

func timesAll(p []r2.Vec, f float64) []r2.Vec {
	out := make([]r2.Vec, len(p))
	for i, v := range p {
		out[i] = r2.Scale(f, v)
	}
	return out
}
