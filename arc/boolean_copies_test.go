package arc_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// touching are sets whose regions touch one another: at a point, along a whole
// side, and along a side with a fillet at either end of it.
func touching() [][]arc.Region {
	k := 0.41421356237309503
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	panel := arc.Path{Closed: true, V: []arc.Vertex{arc.V(5, 0, 0), arc.V(35, 0, k), arc.V(40, 5, 0), arc.V(40, 25, k),
		arc.V(35, 30, 0), arc.V(5, 30, k), arc.V(0, 25, 0), arc.V(0, 5, k)}}
	return [][]arc.Region{
		{region(arc.Circle(v(20, 31), 20)), region(arc.Circle(v(60, 31), 20))},
		{region(arc.Rect(-40, 0, 0, 30)), region(panel)},
		{region(arc.Rect(0, 0, 40, 30), arc.Circle(v(20, 15), 10).Reverse()), region(arc.Circle(v(20, 15), 10)), region(arc.Rect(40, 10, 50, 20))},
	}
}

// TestTouchingCopies puts sets against what comes back of them when turned and
// turned back: parts that were exported and read again.
func TestTouchingCopies(t *testing.T) {
	for _, a := range touching() {
		area, _, _ := totals(a)
		for deg := 1; deg <= 360; deg++ {
			m := arc.Rotate(arc.Angle(deg) * arc.Degree)
			b := moved(a, m.Then(m.Inverse()))
			booleans(t, deg, a, b, area, area)
		}
	}
}

func moved(a []arc.Region, m arc.Motion) (b []arc.Region) {
	for _, r := range a {
		b = append(b, r.Transform(m))
	}
	return b
}

// jittered moves every vertex by up to d.
func jittered(rng *rand.Rand, r arc.Region, d float64) arc.Region {
	move := func(p arc.Path) arc.Path {
		p = p.Clone()
		for i := range p.V {
			p.V[i].P.X += d * (2*rng.Float64() - 1)
			p.V[i].P.Y += d * (2*rng.Float64() - 1)
		}
		return p
	}
	out := arc.Region{Outer: move(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, move(h))
	}
	return out
}

// TestJitteredCopies sweeps the distance between copies from nothing to 1e-3:
// whole sets that touch in themselves, moved and turned a little, and single
// regions with every vertex moved for itself.
func TestJitteredCopies(t *testing.T) {
	n := 1500
	if testing.Short() {
		n = 400
	}
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 34000 // three operations each
	}
	sets := touching()
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 19))
		d := math.Pow(10, -3-12*rng.Float64())
		if seed%16 == 0 {
			d = 0
		}
		var a, b []arc.Region
		if seed%2 == 0 {
			a = sets[seed/2%len(sets)]
			m := arc.Rotate(arc.Angle(d / 60 * (2*rng.Float64() - 1)))
			m = m.Then(arc.Shift(r2.Vec{X: d * (2*rng.Float64() - 1), Y: d * (2*rng.Float64() - 1)}))
			b = moved(a, m)
		} else {
			r := simpleRegion(rng, 60)
			c := jittered(rng, r, d)
			if c.Check(0) != nil {
				continue // two sides stood that near
			}
			a, b = []arc.Region{r}, []arc.Region{c}
		}
		areaA, lengthA, _ := totals(a)
		areaB, lengthB, _ := totals(b)
		common := booleans(t, seed, a, b, areaA, areaB)
		// No boundary point moved by more than 4 d: of a major arc at its middle
		// by (1+k)/2 of what its ends do, and of the regions here less.
		require.InDelta(t, areaA, common, 4*d*(lengthA+lengthB)+1e-3, "seed %d", seed)
	}
}

// booleans checks the three operations against the sums of areas and at
// points, and returns the common area.
func booleans(t *testing.T, seed int, a, b []arc.Region, areaA, areaB float64) float64 {
	t.Helper()
	u, err := arc.Union(a, b, 0)
	require.NoError(t, err, "union, seed %d", seed)
	i, err := arc.Intersection(a, b, 0)
	require.NoError(t, err, "intersection, seed %d", seed)
	d, err := arc.Difference(a, b, 0)
	require.NoError(t, err, "difference, seed %d", seed)
	ua, _, _ := totals(u)
	ia, _, _ := totals(i)
	da, _, _ := totals(d)
	require.InDelta(t, areaA+areaB, ua+ia, 1e-3, "seed %d", seed)
	require.InDelta(t, areaA, ia+da, 1e-3, "seed %d", seed)
	rng := rand.New(rand.NewPCG(uint64(seed), 20))
	all := append(loopsIn(a), loopsIn(b)...)
	sa, sb, su, si, sd := covering(a), covering(b), covering(u), covering(i), covering(d)
	for range 8 {
		q := r2.Vec{X: 140*rng.Float64() - 60, Y: 120*rng.Float64() - 60}
		if distTo(q, all...) < 3e-3 {
			continue
		}
		require.Equal(t, sa(q) || sb(q), su(q), "union, seed %d", seed)
		require.Equal(t, sa(q) && sb(q), si(q), "intersection, seed %d", seed)
		require.Equal(t, sa(q) && !sb(q), sd(q), "difference, seed %d", seed)
	}
	return ia
}

func loopsIn(rs []arc.Region) (out []arc.Path) {
	for _, r := range rs {
		out = append(out, r.Loops()...)
	}
	return out
}

// TestRegionCheck plants each fault in a region that is sound without it.
func TestRegionCheck(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	sound := region(arc.Rect(0, 0, 40, 30), arc.Circle(v(20, 15), 10).Reverse())
	require.NoError(t, sound.Check(0))
	for name, r := range shapes() {
		require.NoError(t, r.Check(0), name)
	}
	bow := arc.Polygon(v(0, 0), v(40, 0), v(5, 30), v(40, 50))
	hole := sound.Holes[0]
	for name, c := range map[string]struct {
		r    arc.Region
		kind error
	}{
		"crosses itself":      {region(bow.Oriented(true)), arc.ErrCrossing},
		"arcs cross":          {region(arc.Path{V: []arc.Vertex{arc.V(0, 0, -0.9), arc.V(40, 0, 0), arc.V(40, 10, 0), arc.V(0, 10, 0)}, Closed: true}.Oriented(true)), arc.ErrCrossing},
		"hole outside":        {region(arc.Rect(0, 0, 5, 5), hole), arc.ErrCrossing},
		"hole across":         {region(arc.Rect(0, 0, 20, 30), hole), arc.ErrCrossing},
		"one hole twice":      {region(sound.Outer, hole, hole), arc.ErrCrossing},
		"hole as large":       {region(sound.Outer, sound.Outer.Reverse(), hole), arc.ErrCrossing},
		"run twice":           {region(arc.Path{V: append(sound.Outer.Clone().V, sound.Outer.V...), Closed: true}), arc.ErrCrossing},
		"outer clockwise":     {region(sound.Outer.Reverse()), arc.ErrOrientation},
		"hole counter":        {region(sound.Outer, hole.Reverse()), arc.ErrOrientation},
		"open":                {region(arc.Polyline(v(0, 0), v(1, 0), v(0, 1))), arc.ErrOpen},
		"no area":             {region(arc.Polygon(v(0, 0), v(1, 0))), arc.ErrZeroArea},
		"nothing":             {arc.Region{}, arc.ErrEmpty},
		"a vertex not finite": {region(arc.Polygon(v(0, 0), v(math.Inf(1), 0), v(0, 1))), arc.ErrNotFinite},
	} {
		require.ErrorIs(t, c.r.Check(0), c.kind, name)
		_, err := arc.Union([]arc.Region{c.r}, nil, 0)
		require.ErrorIs(t, err, c.kind, name)
	}
	require.ErrorContains(t, region(sound.Outer.Reverse()).Check(0), "Oriented")
	for _, tol := range []float64{-1, math.NaN(), math.Inf(1)} {
		require.Error(t, sound.Check(tol), "%g", tol)
	}
}
