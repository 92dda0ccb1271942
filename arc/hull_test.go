package arc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// reach is the support function of a path, from many points along it.
func reach(p arc.Path, n r2.Vec) float64 {
	h := math.Inf(-1)
	for i := range p.NumSegments() {
		s := p.Segment(i)
		for j := range 257 {
			q, _ := s.At(s.Length() * float64(j) / 256)
			h = math.Max(h, r2.Dot(q, n))
		}
	}
	return h
}

func TestConvexHull(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	for _, c := range []struct {
		name         string
		p            []arc.Path
		area, length float64
	}{
		{"square", []arc.Path{arc.Rect(0, 0, 10, 10)}, 100, 40},
		{"square and inner points", []arc.Path{arc.Rect(0, 0, 10, 10), arc.Polyline(v(0, 0), v(5, 5), v(10, 5))}, 100, 40},
		{"circle", []arc.Path{arc.Circle(v(3, 4), 10)}, 100 * math.Pi, 20 * math.Pi},
		{"two circles", []arc.Path{arc.Circle(v(0, 0), 10), arc.Circle(v(30, 0), 10)}, 100*math.Pi + 600, 20*math.Pi + 60},
		{"belt", []arc.Path{arc.Circle(v(0, 0), 20), arc.Circle(v(20, 0), 10)},
			// Tangents at 60 degrees: 240 of the large circle, 120 of the small one.
			400*math.Pi*2/3 + 100*math.Pi/3 + 30*10*math.Sqrt(3), 40*math.Pi*2/3 + 20*math.Pi/3 + 2*10*math.Sqrt(3)},
		{"cove", []arc.Path{{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(40, 0, -0.3), arc.V(0, 40, 0)}, Closed: true}}, 800, 80 + 40*math.Sqrt2},
		{"open half circle", []arc.Path{{V: []arc.Vertex{arc.V(0, 0, 1), arc.V(20, 0, 0)}}}, 50 * math.Pi, 10*math.Pi + 20},
	} {
		for _, m := range motions {
			var ps []arc.Path
			for _, p := range c.p {
				ps = append(ps, p.Transform(m.m))
			}
			h, err := arc.ConvexHull(ps...)
			require.NoError(t, err, c.name)
			f := m.m.Factor()
			assert.InEpsilon(t, c.area*f*f, h.Area(), 1e-9, "%s, %s", c.name, m.name)
			assert.InEpsilon(t, c.length*f, h.Length(), 1e-9, "%s, %s", c.name, m.name)
		}
	}
}

func TestConvexHullReach(t *testing.T) {
	n := 60
	if testing.Short() {
		n = 30
	}
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 5))
		p := star(rng, 3+rng.IntN(30), 50)
		h, err := arc.ConvexHull(p)
		require.NoError(t, err)
		for range 50 {
			sin, cos := math.Sincos(7 * rng.Float64())
			d := r2.Vec{X: cos, Y: sin}
			require.InDelta(t, reach(p, d), reach(h, d), 2e-3, "seed %d", seed)
		}
		for i := range h.NumSegments() {
			s := h.Segment(i)
			require.GreaterOrEqual(t, s.K, 0.0)
			_, u := s.At(s.Length())
			_, w := h.Segment((i + 1) % len(h.V)).At(0)
			require.Greater(t, r2.Cross(u, w), -1e-6, "seed %d", seed)
		}
	}
}

func TestSmallestFrame(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	for _, c := range []struct {
		name          string
		p             arc.Path
		length, width float64
	}{
		{"rectangle", arc.Rect(0, 0, 30, 20), 30, 20},
		{"circle", arc.Circle(v(1, 2), 10), 20, 20},
		{"right triangle", arc.Polygon(v(0, 0), v(30, 0), v(0, 40)), 40, 30}, // = 50 by 24 along the hypotenuse
		{"stadium", arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(40, 0, 1), arc.V(40, 20, 0), arc.V(0, 20, 1)}, Closed: true}, 60, 20},
	} {
		for _, m := range motions {
			f, err := arc.SmallestFrame(c.p.Transform(m.m))
			require.NoError(t, err)
			s := m.m.Factor()
			assert.InEpsilon(t, c.length*c.width*s*s, f.Area(), 1e-9, "%s, %s", c.name, m.name)
			h, err := f.Path().Offset(1e-6*s, arc.OffsetOptions{Tolerance: 1e-7 * s})
			require.NoError(t, err)
			for _, w := range c.p.Transform(m.m).V {
				assert.True(t, h[0].Contains(w.P), "%s, %s", c.name, m.name)
			}
		}
	}
	// Against all turns of a random outline in small steps.
	for seed := range 8 {
		rng := rand.New(rand.NewPCG(uint64(seed), 6))
		p := star(rng, 3+rng.IntN(12), 50)
		f, err := arc.SmallestFrame(p)
		require.NoError(t, err)
		least := math.Inf(1)
		for i := range 500 {
			b := p.Transform(arc.Rotate(arc.Angle(float64(i) / 500 * math.Pi / 2))).Bounds()
			least = math.Min(least, (b.Max.X-b.Min.X)*(b.Max.Y-b.Min.Y))
		}
		assert.LessOrEqual(t, f.Area(), least*(1+1e-12), "seed %d", seed)
		assert.InEpsilon(t, least, f.Area(), 1e-2, "seed %d", seed)
	}
}

// support returns how far a path reaches in a unit direction, by its corners and
// the circles of its arcs.
func support(p arc.Path, n r2.Vec) float64 {
	h := math.Inf(-1)
	for i := range p.NumSegments() {
		s := p.Segment(i)
		h = math.Max(h, math.Max(r2.Dot(s.A, n), r2.Dot(s.B, n)))
		if s.K == 0 {
			continue
		}
		c := s.Center()
		top := r2.Add(c, r2.Scale(s.Radius(), n))
		// On the arc where it is on the same side of the chord as the middle.
		side := func(q r2.Vec) float64 { return r2.Cross(r2.Sub(s.B, s.A), r2.Sub(q, s.A)) }
		if side(top)*side(s.Mid()) > 0 {
			h = math.Max(h, r2.Dot(top, n))
		}
	}
	return h
}

// TestHullsReach as far as what they are around, to rounding, in all directions,
// bend one way only and have no crumbs; smallest frames touch on all four sides
// and are smaller than those a little turned.
func TestHullsReach(t *testing.T) {
	n := 60
	if testing.Short() {
		n = 30
	}
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 8))
		var paths []arc.Path
		for range 1 + rng.IntN(5) {
			at := arc.Shift(r2.Vec{X: 300 * rng.Float64(), Y: 300 * rng.Float64()})
			p := star(rng, 3+rng.IntN(12), 10+60*rng.Float64())
			switch rng.IntN(4) {
			case 0:
				p = arc.Circle(r2.Vec{}, 10+40*rng.Float64())
			case 1: // many arcs of one circle, and of nearly one
				p = crumbled(rng, arc.Circle(r2.Vec{}, 30), 20, []float64{0, 1e-12}[rng.IntN(2)])
			}
			paths = append(paths, p.Transform(at))
		}
		far := arc.Shift(r2.Vec{X: []float64{0, 1e5}[seed%2]})
		for i := range paths {
			paths[i] = paths[i].Transform(far)
		}
		h, err := arc.ConvexHull(paths...)
		require.NoError(t, err)
		tol := []float64{1e-9, 1e-8}[seed%2]
		segments := 0
		for range 200 {
			sin, cos := math.Sincos(7 * rng.Float64())
			d := r2.Vec{X: cos, Y: sin}
			want := math.Inf(-1)
			segments = 0
			for _, p := range paths {
				want = math.Max(want, support(p, d))
				segments += p.NumSegments()
			}
			require.InDelta(t, want, support(h, d), tol, "seed %d", seed)
		}
		require.LessOrEqual(t, h.NumSegments(), 2*segments+2)
		turn := 0.0
		for i := range h.NumSegments() {
			s := h.Segment(i)
			require.GreaterOrEqual(t, s.K, 0.0)
			require.Greater(t, s.Length(), 1e-11, "seed %d", seed)
			_, u := s.Tangents()
			w, _ := h.Segment((i + 1) % len(h.V)).Tangents()
			turn += float64(s.Angle()) + math.Atan2(r2.Cross(u, w), r2.Dot(u, w))
		}
		require.InDelta(t, 2*math.Pi, turn, 1e-6, "seed %d: once around", seed)
		f, err := arc.SmallestFrame(paths...)
		require.NoError(t, err)
		side := func(a arc.Angle) (along, across float64) {
			d := arc.Rotate(a).Apply(r2.Vec{X: 1})
			e := r2.Vec{X: -d.Y, Y: d.X}
			return support(h, d) + support(h, r2.Scale(-1, d)), support(h, e) + support(h, r2.Scale(-1, e))
		}
		l, w := side(f.Along)
		require.InDelta(t, l, f.Length, tol)
		require.InDelta(t, w, f.Width, tol)
		for i := range 400 {
			l, w := side(arc.Angle(float64(i) / 400 * math.Pi / 2))
			require.LessOrEqual(t, f.Area(), l*w*(1+1e-9), "seed %d", seed)
		}
	}
}
