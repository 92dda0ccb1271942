package arc_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// corners returns the exterior turns at the vertices of a loop.
func corners(p arc.Path) []float64 {
	var out []float64
	for i := range p.NumSegments() {
		s := p.Segment(i)
		_, u := s.At(s.Length())
		_, w := p.Segment((i + 1) % len(p.V)).At(0)
		out = append(out, math.Atan2(r2.Cross(u, w), r2.Dot(u, w)))
	}
	return out
}

// TestOffsetSteiner checks small offsets, which change no topology, by Steiner's
// formula: A(d) = A + P·d + d²(Σ β/2 at convex corners − Σ tan(|β|/2) at
// reflex ones + half of what the arcs turn), β the exterior turn. It holds for
// lines and arcs where the reflex corners are between lines.
func TestOffsetSteiner(t *testing.T) {
	for seed := range 300 {
		rng := rand.New(rand.NewPCG(uint64(seed), 7))
		p := gear(rng, 3+rng.IntN(20), 100, 0.4)
		beta := corners(p)
		for i, b := range beta {
			if b < 0 { // lines at reflex corners
				p.V[i].K, p.V[(i+1)%len(p.V)].K = 0, 0
			}
		}
		// The corners have changed; those that are reflex now must be so between
		// lines too.
		sum, ok := 0.0, true
		for i, b := range corners(p) {
			if b >= 0 {
				sum += b / 2
				continue
			}
			ok = ok && p.V[i].K == 0 && p.V[(i+1)%len(p.V)].K == 0
			sum -= math.Tan(-b / 2)
		}
		for i := range p.V {
			sum += float64(p.Segment(i).Angle()) / 2
		}
		const d = 0.01
		out, err := p.Offset(d, arc.OffsetOptions{})
		if !ok || errors.Is(err, arc.ErrCrossing) {
			continue
		}
		require.NoError(t, err)
		require.Len(t, out, 1)
		assert.InDelta(t, p.Area()+p.Length()*d+d*d*sum, out[0].Area(), 1e-6*p.Length(), "seed %d", seed)
	}
}

// TestOffsetNests offsets an offset: growing in two steps is growing in one,
// and shrinking what was grown gives back at least the region.
func TestOffsetNests(t *testing.T) {
	for seed := range 60 {
		rng := rand.New(rand.NewPCG(uint64(seed), 8))
		r := simpleRegion(rng, 100)
		a, b := 5*rng.Float64(), 5*rng.Float64()
		twice, err := r.Offset(a, arc.OffsetOptions{})
		require.NoError(t, err)
		var again []arc.Region
		for _, x := range twice {
			y, err := x.Offset(b, arc.OffsetOptions{Tolerance: 1e-5})
			require.NoError(t, err)
			again = append(again, y...)
		}
		once, err := r.Offset(a+b, arc.OffsetOptions{})
		require.NoError(t, err)
		got, _, _ := totals(again)
		want, length, _ := totals(once)
		assert.InDelta(t, want, got, 1e-5*length, "seed %d", seed)

		in, err := r.Offset(-a, arc.OffsetOptions{})
		require.NoError(t, err)
		small, _, _ := totals(in)
		assert.Less(t, small, r.Area())
		opened, err := arc.Difference(in, []arc.Region{r}, 1e-5)
		require.NoError(t, err)
		left, _, _ := totals(opened)
		assert.InDelta(t, 0, left, 1e-2)
	}
}

// TestOffsetOpen has open paths, whose parallel keeps clear of their ends too.
func TestOffsetOpen(t *testing.T) {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	u := arc.Polyline(v(0, 30), v(0, 0), v(20, 0), v(20, 30))
	hook := arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(40, 0, 1), arc.V(40, 20, 0), arc.V(10, 20, 0)}}
	for _, c := range []struct {
		name   string
		p      arc.Path
		d      float64
		pieces int
		length float64
	}{
		{"line right", arc.Polyline(v(0, 0), v(10, 0)), 3, 1, 10},
		{"line left", arc.Polyline(v(0, 0), v(10, 0)), -3, 1, 10},
		{"arc outside", arc.Path{V: []arc.Vertex{arc.V(10, 0, 1), arc.V(-10, 0, 0)}}, 5, 1, 15 * math.Pi},
		{"arc inside", arc.Path{V: []arc.Vertex{arc.V(10, 0, 1), arc.V(-10, 0, 0)}}, -5, 1, 5 * math.Pi},
		{"arc collapsing", arc.Path{V: []arc.Vertex{arc.V(10, 0, 1), arc.V(-10, 0, 0)}}, -10, 0, 0},
		{"u outside", u, 5, 1, 80 + 5*math.Pi},
		{"u inside", u, -5, 1, 25 + 10 + 25},
		{"u too narrow", u, -10.01, 0, 0},
		{"hook inside", hook, -5, 1, 40 + 5*math.Pi + 30},
		{"spike", arc.Polyline(v(0, 0), v(10, 0), v(0, 0)), 2, 1, 20 + 2*math.Pi},
	} {
		for _, m := range motions {
			f := m.m.Factor()
			d := c.d * f
			if m.m.Mirrors() {
				d = -d
			}
			for _, back := range []bool{false, true} {
				p := c.p.Transform(m.m)
				if back {
					p, d = p.Reverse(), -d
				}
				out, err := p.Offset(d, arc.OffsetOptions{Tolerance: 1e-6 * math.Max(f, 1e-3)})
				require.NoError(t, err, c.name)
				require.Len(t, out, c.pieces, "%s, %s", c.name, m.name)
				sum := 0.0
				for _, q := range out {
					assert.False(t, q.Closed)
					sum += q.Length()
					for i := range 50 {
						w, _ := q.At(q.Length() * float64(i) / 49)
						assert.InDelta(t, math.Abs(d), distTo(w, p), 2e-6*f, c.name)
					}
				}
				assert.InDelta(t, c.length*f, sum, 1e-4*f, "%s, %s", c.name, m.name)
			}
		}
	}
	cross := arc.Polyline(v(0, 0), v(10, 0), v(10, 10), v(5, 10), v(5, -5))
	_, err := cross.Offset(1, arc.OffsetOptions{})
	assert.ErrorIs(t, err, arc.ErrCrossing)
}

func TestOffsetRefuses(t *testing.T) {
	sq, nan, inf := arc.Rect(0, 0, 10, 10), math.NaN(), math.Inf(1)
	bow := arc.Polygon(r2.Vec{}, r2.Vec{X: 10, Y: 10}, r2.Vec{X: 10}, r2.Vec{Y: 9})
	for _, c := range []struct {
		name string
		p    arc.Path
		d    float64
		o    arc.OffsetOptions
		want error
	}{
		{"empty", arc.Path{}, 1, arc.OffsetOptions{}, arc.ErrEmpty},
		{"crossing", bow, 1, arc.OffsetOptions{}, arc.ErrCrossing},
		{"no area", arc.Polygon(r2.Vec{}, r2.Vec{X: 3}), 1, arc.OffsetOptions{}, arc.ErrZeroArea},
		{"nan d", sq, nan, arc.OffsetOptions{}, arc.ErrNotFinite},
		{"inf d", sq, inf, arc.OffsetOptions{}, arc.ErrNotFinite},
		{"huge d", sq, 1e200, arc.OffsetOptions{}, arc.ErrRange},
		{"nan vertex", arc.Polygon(r2.Vec{X: nan}, r2.Vec{}, r2.Vec{Y: 1}), 1, arc.OffsetOptions{}, arc.ErrNotFinite},
		{"negative tolerance", sq, 1, arc.OffsetOptions{Tolerance: -1}, arc.ErrRange},
		{"nan tolerance", sq, 1, arc.OffsetOptions{Tolerance: nan}, arc.ErrRange},
		{"too fine", sq, 1, arc.OffsetOptions{Tolerance: 1e-300}, arc.ErrRange},
		{"join", sq, 1, arc.OffsetOptions{Join: 7}, arc.ErrRange},
		{"limit", sq, 1, arc.OffsetOptions{MiterLimit: nan}, arc.ErrRange},
	} {
		_, err := c.p.Offset(c.d, c.o)
		assert.ErrorIs(t, err, c.want, c.name)
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe, c.name)
	}
	for name, r := range map[string]arc.Region{
		"orientation": region(sq.Reverse()),
		"hole":        region(sq, arc.Rect(2, 2, 4, 4)),
	} {
		_, err := r.Offset(1, arc.OffsetOptions{})
		assert.ErrorIs(t, err, arc.ErrOrientation, name)
	}
	_, err := region(sq, arc.Rect(8, 8, 14, 14).Reverse()).Offset(1, arc.OffsetOptions{})
	assert.ErrorIs(t, err, arc.ErrCrossing)
	_, err = region(sq, arc.Rect(18, 8, 24, 14).Reverse()).Offset(1, arc.OffsetOptions{})
	assert.ErrorIs(t, err, arc.ErrCrossing, "hole outside")
}
