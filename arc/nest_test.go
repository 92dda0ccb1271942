package arc_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// nestMaker lays loops into each other and knows what is around what.
type nestMaker struct {
	rng    *rand.Rand
	loops  []arc.Path
	parent []int
}

func (m *nestMaker) put(p arc.Path, parent int) int {
	m.loops, m.parent = append(m.loops, p), append(m.parent, parent)
	return len(m.loops) - 1
}

// fill fills a rectangle within loop parent: with rectangles that touch each
// other and its sides, with rectangles apart, or with what touches its sides
// at points.
func (m *nestMaker) fill(b r2.Box, parent, depth int) {
	w, h := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	c := r2.Scale(0.5, r2.Add(b.Min, b.Max))
	if depth == 0 {
		return
	}
	inner := func(p arc.Path, w, h float64) {
		i := m.put(p, parent)
		m.fill(r2.Box{Min: r2.Vec{X: c.X - w/2, Y: c.Y - h/2}, Max: r2.Vec{X: c.X + w/2, Y: c.Y + h/2}}, i, depth-1)
	}
	switch m.rng.IntN(5) {
	case 0, 1: // a grid, touching or apart
		nx, ny, gap := 1+m.rng.IntN(3), 2+m.rng.IntN(2), float64(m.rng.IntN(2))*0.1
		for i := range nx {
			for j := range ny {
				if m.rng.IntN(4) == 0 {
					continue
				}
				x0, x1 := b.Min.X+w*(float64(i)+gap)/float64(nx), b.Min.X+w*(float64(i+1)-gap)/float64(nx)
				y0, y1 := b.Min.Y+h*(float64(j)+gap)/float64(ny), b.Min.Y+h*(float64(j+1)-gap)/float64(ny)
				k := m.put(arc.Rect(x0, y0, x1, y1), parent)
				m.fill(r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}, k, depth-1)
			}
		}
	case 2: // touches all four sides at their middles
		inner(arc.Polygon(r2.Vec{X: b.Min.X, Y: c.Y}, r2.Vec{X: c.X, Y: b.Min.Y}, r2.Vec{X: b.Max.X, Y: c.Y}, r2.Vec{X: c.X, Y: b.Max.Y}), w/2, h/2)
	case 3:
		inner(arc.Circle(c, math.Min(w, h)/2), math.Min(w, h)*0.6, math.Min(w, h)*0.8) // its corners touch the circle
	case 4: // lobes on all sides of a rectangle
		q := arc.Rect(c.X-w*0.3, c.Y-h*0.3, c.X+w*0.3, c.Y+h*0.3)
		for i := range q.V {
			q.V[i].K = 0.4 * (m.rng.Float64()*2 - 1) * math.Min(w, h) / math.Max(w, h)
		}
		inner(q, w/4, h/4)
	}
}

// TestRegionsOfNests makes regions of loops within loops, touching and apart,
// turned and in any order and direction, and asks who is in whom.
func TestRegionsOfNests(t *testing.T) {
	n := 600
	if testing.Short() {
		n = 150
	}
	most := 0
	for seed := range n {
		m := &nestMaker{rng: rand.New(rand.NewPCG(uint64(seed), 71))}
		m.fill(r2.Box{Max: r2.Vec{X: 800, Y: 600}}, -1, 1+m.rng.IntN(5))
		turn := arc.Rotate(arc.Angle(m.rng.IntN(8)) * 45 * arc.Degree / 2).Then(arc.Shift(r2.Vec{X: float64(m.rng.IntN(3)) * 1e4}))
		order := m.rng.Perm(len(m.loops))
		given, at := make([]arc.Path, len(order)), make([]int, len(order))
		for i, j := range order {
			at[j] = i
			given[i] = m.loops[j].Transform(turn)
			if m.rng.IntN(2) == 0 {
				given[i] = given[i].Reverse()
			}
		}
		depth := func(j int) (d int) {
			for ; m.parent[j] >= 0; j = m.parent[j] {
				d++
			}
			return d
		}
		got, err := arc.Regions(given)
		require.NoError(t, err)
		found := map[string]string{}
		for _, r := range got {
			for _, p := range r.Loops() {
				found[p.String()] = r.Outer.String()
			}
		}
		require.Len(t, found, len(order), "seed %d", seed)
		for j := range m.loops {
			d := depth(j)
			most = max(most, d)
			own := given[at[j]].Oriented(d%2 == 0).String()
			want := own
			if d%2 == 1 {
				want = given[at[m.parent[j]]].Oriented(true).String()
			}
			require.Equal(t, want, found[own], "seed %d, loop %d at depth %d", seed, j, d)
		}
	}
	assert.Greater(t, most, 2)
}

// TestStopped asks all that can take long under a context that is done.
func TestStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	p, set := wavy(3000), []arc.Region{{Outer: wavy(3000)}}
	for name, f := range map[string]func() error{
		"Offset":       func() error { _, err := p.OffsetContext(ctx, 1, arc.OffsetOptions{}); return err },
		"RegionOffset": func() error { _, err := set[0].OffsetContext(ctx, 1, arc.OffsetOptions{}); return err },
		"Union":        func() error { _, err := arc.UnionContext(ctx, set, nil, 0); return err },
		"Intersection": func() error { _, err := arc.IntersectionContext(ctx, set, set, 0); return err },
		"Difference":   func() error { _, err := arc.DifferenceContext(ctx, set, set, 0); return err },
		"Symmetric":    func() error { _, err := arc.SymmetricDifferenceContext(ctx, set, set, 0); return err },
		"Contacts":     func() error { _, err := arc.ContactsContext(ctx, p, p, 0); return err },
		"SelfContacts": func() error { _, err := p.SelfContactsContext(ctx, 0); return err },
		"Check":        func() error { return p.CheckContext(ctx, 0) },
		"CheckOpen":    func() error { return arc.Path{V: p.V}.CheckContext(ctx, 0) },
		"RegionCheck":  func() error { return set[0].CheckContext(ctx, 0) },
		"Connect":      func() error { _, err := arc.ConnectContext(ctx, loose([]arc.Path{p}), 0); return err },
		"Regions":      func() error { _, err := arc.RegionsContext(ctx, squares(3000)); return err },
		"Gap":          func() error { _, err := p.GapContext(ctx, p); return err },
		"RegionGap":    func() error { _, err := set[0].GapContext(ctx, set[0]); return err },
		"Clean":        func() error { _, err := p.CleanContext(ctx, 0.1); return err },
		"RegionClean":  func() error { _, err := set[0].CleanContext(ctx, 0.1); return err },
		"Ellipse":      func() error { _, err := arc.EllipseContext(ctx, r2.Vec{}, 600, 300, 1e-6); return err },
		"Elliptical":   func() error { _, err := arc.EllipticalArcContext(ctx, 600, 300, 0, 1, 1e-6); return err },
		"Arch":         func() error { _, err := arc.EllipticalArchContext(ctx, 600, 100, 1e-6); return err },
		"Catenary":     func() error { _, err := arc.CatenaryContext(ctx, 600, 300, 1e-6); return err },
		"FitCircle":    func() error { _, err := arc.FitCircleContext(ctx, []r2.Vec{{}, {X: 1}, {Y: 1}}); return err },
		"ConvexHull":   func() error { _, err := arc.ConvexHullContext(ctx, p); return err },
		"Frame":        func() error { _, err := arc.SmallestFrameContext(ctx, p); return err },
	} {
		assert.ErrorIs(t, f(), context.Canceled, name)
	}
}

// TestPathCheck refuses what crosses itself, open and closed.
func TestPathCheck(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	eight := []r2.Vec{v(0, 0), v(10, 10), v(10, 0), v(0, 10)}
	twice := arc.Circle(r2.Vec{}, 5)
	twice.V = append(twice.V, twice.V...)
	for name, c := range map[string]struct {
		p    arc.Path
		kind error
	}{
		"open, crosses":       {arc.Polyline(eight...), arc.ErrCrossing},
		"closed, crosses":     {arc.Polygon(v(0, 0), v(10, 10), v(10, 0), v(0, 12)), arc.ErrCrossing},
		"closed, no area":     {arc.Polygon(eight...), arc.ErrZeroArea},
		"twice around":        {twice, arc.ErrCrossing},
		"clockwise":           {arc.Rect(0, 0, 1, 1).Reverse(), nil},
		"open":                {arc.Polyline(v(0, 0), v(1, 0), v(1, 1)), nil},
		"touches":             {arc.Polygon(v(0, 0), v(5, 5), v(10, 0), v(10, 10), v(5, 5), v(0, 10)), nil},
		"an arc over a line":  {arc.Path{V: []arc.Vertex{arc.V(0, 0, -1), arc.V(10, 0, 0), arc.V(10, 3, 0), arc.V(-1, 3, 0)}}, arc.ErrCrossing},
		"one vertex":          {arc.Path{V: []arc.Vertex{{}}}, arc.ErrEmpty},
		"not a number":        {arc.Polyline(v(0, math.NaN()), v(1, 0)), arc.ErrNotFinite},
		"less than tolerance": {arc.Polyline(v(0, 0), v(10, 0), v(10, 1), v(5, -1e-9), v(0, 1)), nil},
	} {
		err := c.p.Check(0)
		if c.kind == nil {
			assert.NoError(t, err, name)
			continue
		}
		assert.ErrorIs(t, err, c.kind, name)
	}
	assert.ErrorIs(t, arc.Rect(0, 0, 1, 1).Check(-1), arc.ErrRange)
	// It names the place: y = x meets y = 12 − 1.2x at x = 12/2.2.
	var pe *arc.ParamError
	require.ErrorAs(t, arc.Polygon(v(0, 0), v(10, 10), v(10, 0), v(0, 12)).Check(0), &pe)
	assert.InDelta(t, 0, r2.Norm(r2.Sub(pe.Value.(r2.Vec), v(12/2.2, 12/2.2))), 1e-9)
}

// TestConnectPutsTogether the segments of loops, in any order and direction, to
// the loops they were taken from.
func TestConnectPutsTogether(t *testing.T) {
	for seed := range 60 {
		rng := rand.New(rand.NewPCG(uint64(seed), 9))
		var loops []arc.Path
		area := 0.0
		for _, c := range grid(1 + rng.IntN(40)) {
			p := star(rng, 3+rng.IntN(6), 3).Transform(arc.Shift(c))
			loops, area = append(loops, p), area+math.Abs(p.Area())
		}
		parts := loose(loops)
		for i := range parts { // ends apart by up to 1e-4
			for j := range parts[i].V {
				v := &parts[i].V[j].P
				*v = r2.Add(*v, r2.Scale(1e-4*rng.Float64()/2, r2.Unit(r2.Vec{X: rng.Float64() - 0.5, Y: rng.Float64() - 0.5})))
			}
		}
		got, err := arc.Connect(parts, 1e-4)
		require.NoError(t, err)
		require.Len(t, got, len(loops), "seed %d", seed)
		sum := 0.0
		for _, p := range got {
			require.True(t, p.Closed)
			sum += math.Abs(p.Area())
		}
		require.InDelta(t, area, sum, 1e-3*float64(len(loops)))
		none, err := arc.Connect(parts, 1e-9)
		require.NoError(t, err)
		require.Greater(t, len(none), len(loops))
	}
	// Of three lines that meet, the first two in the list are joined.
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	got, err := arc.Connect([]arc.Path{arc.Polyline(v(0, 0), v(5, 0)), arc.Polyline(v(5, 9), v(5, 0)), arc.Polyline(v(5, 0), v(9, 0))}, 0)
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, arc.Polyline(v(0, 0), v(5, 0), v(5, 9)), got[0])
}

// TestRegionsOfAnything end, and do not panic, on loops that cross.
func TestRegionsOfAnything(t *testing.T) {
	for seed := range 200 {
		rng := rand.New(rand.NewPCG(uint64(seed), 10))
		var loops []arc.Path
		for range 1 + rng.IntN(30) {
			p := star(rng, 3+rng.IntN(12), 40).Transform(arc.Shift(r2.Vec{X: 100 * rng.Float64(), Y: math.Round(100 * rng.Float64())}))
			loops = append(loops, p)
			if rng.IntN(4) == 0 {
				loops = append(loops, p, p.Reverse())
			}
		}
		out, err := arc.Regions(loops)
		require.NoError(t, err)
		n := 0
		for _, r := range out {
			n += len(r.Loops())
		}
		require.Equal(t, len(loops), n)
	}
}
