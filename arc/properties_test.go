package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// The invariants of arcs, paths and regions, one a test. What they draw is
// below and in kernel_segment_test.go.

// anyChord draws a chord from a hair to a house, mm.
func anyChord() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 { return math.Pow(10, rapid.Float64Range(-3, 4).Draw(t, "log10 chord")) })
}

// anyRatio draws 2·sag/chord, which is k, of minor arcs from flat ones to the
// half circle.
func anyRatio() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 { return math.Pow(10, rapid.Float64Range(-9, 0).Draw(t, "log10 k")) })
}

// anyRegion draws a star around a point, with arcs for sides.
func anyRegion() *rapid.Generator[arc.Region] {
	return rapid.Custom(func(t *rapid.T) arc.Region {
		c := anyPoint(60).Draw(t, "center")
		n := rapid.IntRange(3, 8).Draw(t, "corners")
		p := arc.Path{Closed: true}
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(30, 80).Draw(t, "r")
			p.V = append(p.V, arc.Vertex{P: r2.Add(c, r2.Vec{X: r * cos, Y: r * sin}), K: rapid.Float64Range(-0.1, 0.15).Draw(t, "k")})
		}
		if _, err := (arc.Region{Outer: p}).Offset(0, arc.OffsetOptions{Tolerance: 1e-3}); err != nil {
			t.Skip()
		}
		return arc.Region{Outer: p}
	})
}

func TestArcIsNeverShorterThanItsChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, k := anyChord().Draw(t, "chord"), flatness().Draw(t, "k")
		s := arc.Segment{B: r2.Vec{X: c}, K: k}
		assert.GreaterOrEqual(t, s.Length(), c)
		if math.Abs(k) > 1e-7 {
			assert.Greater(t, s.Length(), c)
		}
	})
}

func TestMinorArcIsNeverLongerThanHalfPiChords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, k := anyChord().Draw(t, "chord"), anyRatio().Draw(t, "k")
		a, err := arc.FromChordSag(c, k*c/2)
		require.NoError(t, err)
		assert.LessOrEqual(t, a.Length(), math.Pi/2*c*(1+1e-15))
	})
}

func TestArcOfTwoSizesHasThemAndTheRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, k := anyChord().Draw(t, "chord"), anyRatio().Draw(t, "k")
		a, err := arc.FromChordSag(c, k*c/2)
		require.NoError(t, err)
		sizes := func(a arc.Arc) [5]float64 {
			return [5]float64{a.Chord(), a.Sag(), a.Radius(), float64(a.Turn()), a.Length()}
		}
		s := sizes(a)
		const chord, sag, radius, turn, length = 0, 1, 2, 3, 4
		for _, p := range []struct {
			name   string
			i, j   int
			of     func() (arc.Arc, error)
			worse  float64 // by how much the pair multiplies an error
			branch bool    // near a half circle both branches meet
		}{
			{"chord, sag", chord, sag, func() (arc.Arc, error) { return arc.FromChordSag(s[chord], s[sag]) }, 1, false},
			{"chord, radius", chord, radius, func() (arc.Arc, error) { return arc.FromChordRadius(s[chord], s[radius], false) }, 1, k > 0.99},
			{"chord, turn", chord, turn, func() (arc.Arc, error) { return arc.FromChordTurn(s[chord], a.Turn()) }, 1, false},
			{"chord, length", chord, length, func() (arc.Arc, error) { return arc.FromChordLength(s[chord], s[length]) }, 1 / (k * k), false},
			{"sag, radius", sag, radius, func() (arc.Arc, error) { return arc.FromSagRadius(s[sag], s[radius]) }, 1, false},
			{"sag, turn", sag, turn, func() (arc.Arc, error) { return arc.FromSagTurn(s[sag], a.Turn()) }, 1, false},
			{"sag, length", sag, length, func() (arc.Arc, error) { return arc.FromSagLength(s[sag], s[length], false) }, 1, false},
			{"radius, turn", radius, turn, func() (arc.Arc, error) { return arc.FromRadiusTurn(s[radius], a.Turn()) }, 1, false},
			{"radius, length", radius, length, func() (arc.Arc, error) { return arc.FromRadiusLength(s[radius], s[length]) }, 1, false},
			{"turn, length", turn, length, func() (arc.Arc, error) { return arc.FromLengthTurn(s[length], a.Turn()) }, 1, false},
		} {
			if p.branch || p.worse > 1e10 {
				continue // the rest is not to be known from these two
			}
			b, err := p.of()
			require.NoError(t, err, p.name)
			got := sizes(b)
			for i := range got {
				tol := 1e-13 * p.worse
				if i == p.i || i == p.j {
					tol = 1e-13
				}
				assert.InEpsilon(t, s[i], got[i], tol, "%s: size %d of k %g", p.name, i, k)
			}
		}
	})
}

func TestReversingMovingMirroringScaling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyRegion().Draw(t, "region")
		p := g.Outer
		f := rapid.Float64Range(0.1, 10).Draw(t, "scale")
		turn := arc.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn"))
		by := anyPoint(1000).Draw(t, "by")
		near := func(want, got, size float64, what string) {
			t.Helper()
			assert.InDelta(t, want, got, 1e-9*(1+size), what)
		}
		r := p.Reverse()
		near(p.Length(), r.Length(), 1e3, "reversed length")
		near(-p.Area(), r.Area(), 1e4, "reversed area")
		assert.Equal(t, p, r.Reverse())
		m := p.Transform(arc.Rotate(turn)).Transform(arc.Shift(by))
		near(p.Length(), m.Length(), 1e3, "moved length")
		near(p.Area(), m.Area(), 1e4, "moved area")
		x := p.Transform(arc.MirrorX())
		near(p.Length(), x.Length(), 1e3, "mirrored length")
		near(-p.Area(), x.Area(), 1e4, "mirrored area")
		s := p.Transform(arc.Scale(f))
		near(f*p.Length(), s.Length(), 1e4, "scaled length")
		near(f*f*p.Area(), s.Area(), 1e6, "scaled area")
		for i := range p.V {
			assert.InDelta(t, p.V[i].K, m.V[i].K, 1e-15)
			assert.InDelta(t, p.V[i].K, s.V[i].K, 1e-15)
			assert.InDelta(t, -p.V[i].K, x.V[i].K, 1e-15)
		}
	})
}

// inside draws points of a box about a region and asks about those that are
// clear of its edge.
func inside(t *rapid.T, g arc.Region, ask func(q r2.Vec, in bool)) {
	b := g.Bounds()
	for range 30 {
		q := r2.Vec{X: rapid.Float64Range(b.Min.X-15, b.Max.X+15).Draw(t, "x"), Y: rapid.Float64Range(b.Min.Y-15, b.Max.Y+15).Draw(t, "y")}
		if d := g.Distance(q); math.Abs(d) > 0.01 {
			ask(q, d < 0)
		}
	}
}

func contains(all []arc.Region, q r2.Vec) bool {
	for _, g := range all {
		if g.Contains(q) {
			return true
		}
	}
	return false
}

func offsetOf(t *rapid.T, all []arc.Region, d float64) []arc.Region {
	var out []arc.Region
	for _, g := range all {
		o, err := g.Offset(d, arc.OffsetOptions{Tolerance: 1e-3})
		require.NoError(t, err)
		out = append(out, o...)
	}
	return out
}

func TestOutAndBackHoldsTheRegion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, d := anyRegion().Draw(t, "region"), rapid.Float64Range(0.5, 12).Draw(t, "d")
		closed := offsetOf(t, offsetOf(t, []arc.Region{g}, d), -d)
		inside(t, g, func(q r2.Vec, in bool) {
			if in {
				assert.True(t, contains(closed, q), "%v", q)
			}
		})
	})
}

func TestInAndBackLiesWithinTheRegion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, d := anyRegion().Draw(t, "region"), rapid.Float64Range(0.5, 12).Draw(t, "d")
		opened := offsetOf(t, offsetOf(t, []arc.Region{g}, -d), d)
		inside(t, g, func(q r2.Vec, in bool) {
			if !in {
				assert.False(t, contains(opened, q), "%v", q)
			}
		})
	})
}

func TestUnionAndIntersectionAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyRegion().Draw(t, "a"), anyRegion().Draw(t, "b")
		u, err := arc.Union([]arc.Region{a}, []arc.Region{b}, 1e-3)
		require.NoError(t, err)
		x, err := arc.Intersection([]arc.Region{a}, []arc.Region{b}, 1e-3)
		require.NoError(t, err)
		sum := 0.0
		for _, g := range append(u, x...) {
			sum += g.Area()
		}
		edge := a.Outer.Length() + b.Outer.Length()
		assert.InDelta(t, a.Area()+b.Area(), sum, 2e-3*edge)
	})
}

func TestFlattenedInsideTrueOutside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyRegion().Draw(t, "region")
		tol := rapid.Float64Range(0.01, 1).Draw(t, "tol")
		in, err := g.Outer.FlattenTo(arc.Inside, tol)
		require.NoError(t, err)
		out, err := g.Outer.FlattenTo(arc.Outside, tol)
		require.NoError(t, err)
		assert.LessOrEqual(t, in.Area(), g.Area()*(1+1e-14))
		assert.GreaterOrEqual(t, out.Area(), g.Area()*(1-1e-14))
		edge := g.Outer.Length() + 10
		assert.LessOrEqual(t, out.Area()-in.Area(), 2.2*tol*edge)
		for _, v := range out.V {
			assert.LessOrEqual(t, -g.Distance(v.P), 1e-9, "a vertex outside")
		}
		for _, v := range in.V {
			assert.LessOrEqual(t, g.Distance(v.P), 1e-9, "a vertex inside")
		}
	})
}
