package arc_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// TestBooleanClosedForms has tangent, coincident and full-circle cases whose
// areas are known exactly; u, i and d are loops of the union, the intersection
// and the difference, and common the area in both.
func TestBooleanClosedForms(t *testing.T) {
	pi := math.Pi
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	square, disc := region(arc.Rect(0, 0, 20, 20)), region(arc.Circle(v(0, 0), 10))
	ring := region(arc.Circle(v(0, 0), 20), arc.Circle(v(0, 0), 10).Reverse())
	lens := 2*100*math.Acos(0.5) - 10*math.Sqrt(75)
	for _, c := range []struct {
		name    string
		a, b    arc.Region
		common  float64
		u, i, d int
	}{
		{"apart", square, region(arc.Rect(30, 0, 40, 20)), 0, 2, 0, 1},
		{"equal squares", square, square, 400, 1, 1, 0},
		{"equal discs", disc, disc, 100 * pi, 1, 1, 0},
		{"equal discs from other starts", disc, region(arc.Circle(v(0, 0), 10).Transform(arc.Rotate(1))), 100 * pi, 1, 1, 0},
		{"side by side", square, region(arc.Rect(20, 0, 30, 20)), 0, 1, 0, 1},
		{"side by side, part of the side", square, region(arc.Rect(20, 5, 30, 15)), 0, 1, 0, 1},
		{"corner to corner", square, region(arc.Rect(20, 20, 30, 30)), 0, 2, 0, 1},
		{"across", square, region(arc.Rect(-5, 5, 25, 15)), 200, 1, 1, 2},
		{"inside", square, region(arc.Rect(5, 5, 15, 15)), 100, 1, 1, 2},
		{"inside on a side", square, region(arc.Rect(5, 0, 15, 15)), 150, 1, 1, 1},
		{"discs touching", disc, region(arc.Circle(v(12, 16), 10)), 0, 2, 0, 1},
		{"disc touching inside", disc, region(arc.Circle(v(3, 4), 5)), 25 * pi, 1, 1, 2},
		{"discs crossing", disc, region(arc.Circle(v(10, 0), 10)), lens, 1, 1, 1},
		{"disc in a square's sides", square, region(arc.Circle(v(10, 10), 10)), 100 * pi, 1, 1, 4},
		{"disc plugging a ring", ring, disc, 0, 1, 0, 2},
		{"disc smaller than a ring's hole", ring, region(arc.Circle(v(0, 0), 9)), 0, 3, 0, 2},
		{"disc through a ring's hole", ring, region(arc.Circle(v(0, 0), 15)), 125 * pi, 1, 2, 2},
		{"disc on a line by its diameter", region(arc.Rect(-20, 0, 20, 20)), disc, 50 * pi, 1, 1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, m := range motions {
				f := m.m.Factor()
				a, b := []arc.Region{c.a.Transform(m.m)}, []arc.Region{c.b.Transform(m.m)}
				tol := 1e-6 * math.Max(f, 1e-3)
				check := func(name string, rs []arc.Region, err error, area float64, loops int) {
					t.Helper()
					require.NoError(t, err)
					got, _, n := totals(rs)
					assert.InDelta(t, area*f*f, got, 1e-4*f*f, "%s, %s", name, m.name)
					assert.Equal(t, loops, n, "%s, %s", name, m.name)
				}
				rs, err := arc.Union(a, b, tol)
				check("union", rs, err, c.a.Area()+c.b.Area()-c.common, c.u)
				rs, err = arc.Union(b, a, tol)
				check("union", rs, err, c.a.Area()+c.b.Area()-c.common, c.u)
				rs, err = arc.Intersection(a, b, tol)
				check("intersection", rs, err, c.common, c.i)
				rs, err = arc.Difference(a, b, tol)
				check("difference", rs, err, c.a.Area()-c.common, c.d)
			}
		})
	}
}

// TestBooleanRandom compares the operations with points sampled in both, and
// their areas with each other.
func TestBooleanRandom(t *testing.T) {
	n := 1000
	if testing.Short() {
		n = 200
	}
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 20000
	}
	failed, done := 0, 0
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 9))
		a, b := simpleRegion(rng, 60), simpleRegion(rng, 60)
		b = b.Transform(arc.Shift(r2.Vec{X: 60*rng.Float64() - 30, Y: 60*rng.Float64() - 30}))
		if seed%3 == 0 {
			b = snapOnto(rng, a, b)
		}
		as, bs := []arc.Region{a}, []arc.Region{b}
		u, err1 := arc.Union(as, bs, 0)
		i, err2 := arc.Intersection(as, bs, 0)
		d, err3 := arc.Difference(as, bs, 0)
		if err1 != nil || err2 != nil || err3 != nil {
			t.Logf("seed %d: %v %v %v", seed, err1, err2, err3)
			failed++
			continue
		}
		done++
		ua, _, _ := totals(u)
		ia, _, _ := totals(i)
		da, _, _ := totals(d)
		require.InDelta(t, a.Area()+b.Area(), ua+ia, 1e-3, "seed %d", seed)
		require.InDelta(t, a.Area(), ia+da, 1e-3, "seed %d", seed)
		sa, sb, su, si, sd := covering(as), covering(bs), covering(u), covering(i), covering(d)
		for range 30 {
			q := r2.Vec{X: 200*rng.Float64() - 100, Y: 200*rng.Float64() - 100}
			if distTo(q, append(a.Loops(), b.Loops()...)...) < 3e-3 {
				continue
			}
			inA, inB := sa(q), sb(q)
			require.Equal(t, inA || inB, su(q), "union, seed %d", seed)
			require.Equal(t, inA && inB, si(q), "intersection, seed %d", seed)
			require.Equal(t, inA && !inB, sd(q), "difference, seed %d", seed)
		}
	}
	t.Logf("%d triples, %d failed", done, failed)
	require.Zero(t, failed)
}

// snapOnto moves b so that a vertex of it is one of a's, or a side of it lies
// along one of a's.
func snapOnto(rng *rand.Rand, a, b arc.Region) arc.Region {
	s, r := a.Outer.Segment(rng.IntN(len(a.Outer.V))), b.Outer.Segment(rng.IntN(len(b.Outer.V)))
	if rng.IntN(2) == 0 {
		h, g := r2.Sub(s.B, s.A), r2.Sub(r.B, r.A)
		b = b.Transform(arc.Rotate(arc.Angle(math.Atan2(h.Y, h.X) - math.Atan2(g.Y, g.X))).About(r.A))
	}
	return b.Transform(arc.Shift(r2.Sub(s.A, r.A)))
}

// covering returns the oracle's inside of regions.
func covering(rs []arc.Region) func(q r2.Vec) bool {
	var pts [][]r2.Vec
	for _, r := range rs {
		for _, l := range r.Loops() {
			pts = append(pts, chords(l, 1e-3))
		}
	}
	return func(q r2.Vec) bool {
		w := 0
		for _, p := range pts {
			w += windsAround(q, p)
		}
		return w > 0
	}
}
