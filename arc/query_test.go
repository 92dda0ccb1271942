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

func TestClosestAndDistance(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for _, p := range []arc.Path{blob(), arc.Rect(0, 0, 9, 4), arc.Circle(r2.Vec{X: 2}, 7), star(rng, 20, 50)} {
		for range 300 {
			q := r2.Vec{X: 160*rng.Float64() - 80, Y: 160*rng.Float64() - 80}
			l, pt := p.Closest(q)
			on, _ := p.At(l)
			assert.InDelta(t, 0, r2.Norm(r2.Sub(on, pt)), 1e-9)
			assert.InDelta(t, distTo(q, p), p.Distance(q), 1e-9)
			r := region(p.Oriented(true))
			want := distTo(q, p)
			if windsAround(q, chords(p, 1e-5)) != 0 {
				want = -want
			}
			if math.Abs(want) > 1e-4 {
				assert.InDelta(t, want, r.Distance(q), 1e-9)
				assert.Equal(t, want < 0, p.Contains(q))
			}
		}
	}
	// Foot on an arc too flat for its center to be known.
	flat := arc.Segment{B: r2.Vec{X: 1000}, K: 1e-13}
	l, pt := flat.Closest(r2.Vec{X: 250, Y: 30})
	assert.InDelta(t, 250, l, 1e-9)
	assert.InDelta(t, 250, pt.X, 1e-9)
}

func TestLocateExactly(t *testing.T) {
	tri := arc.Polygon(r2.Vec{}, r2.Vec{X: 3, Y: 1}, r2.Vec{X: 0, Y: 2})
	for _, v := range tri.V {
		assert.Equal(t, arc.OnBoundary, tri.Locate(v.P))
	}
	assert.Equal(t, arc.OnBoundary, tri.Locate(r2.Vec{X: 1.5, Y: 0.5}))
	assert.Equal(t, arc.Inside, tri.Locate(r2.Vec{X: math.Nextafter(1.5, 0), Y: math.Nextafter(0.5, 1)}))
	assert.Equal(t, arc.Outside, tri.Locate(r2.Vec{X: 1.5, Y: math.Nextafter(0.5, 0)}))
	c := arc.Circle(r2.Vec{}, 5)
	for _, q := range []r2.Vec{{X: 3, Y: 4}, {X: -3, Y: 4}, {X: 4, Y: -3}, {Y: 5}, {Y: -5}, {X: 5}} {
		assert.Equal(t, arc.OnBoundary, c.Locate(q))
		assert.Equal(t, arc.Inside, c.Locate(r2.Scale(1-1e-15, q)))
		assert.Equal(t, arc.Outside, c.Locate(r2.Scale(1+1e-15, q)))
	}
	ring := region(arc.Circle(r2.Vec{}, 20), c.Reverse())
	assert.Equal(t, arc.Outside, ring.Locate(r2.Vec{}))
	assert.Equal(t, arc.OnBoundary, ring.Locate(r2.Vec{X: 3, Y: 4}))
	assert.Equal(t, arc.Inside, ring.Locate(r2.Vec{X: 10}))
	assert.True(t, ring.Contains(r2.Vec{X: 20}))
	assert.False(t, arc.Polyline(r2.Vec{}, r2.Vec{X: 1}).Contains(r2.Vec{}))
}

func TestTrimSplitStartJoin(t *testing.T) {
	p := blob()
	total := p.Length()
	for i := range 40 {
		from := total * float64(i) / 40
		for _, part := range []float64{0.01, 0.3, 0.9} {
			to := math.Mod(from+part*total, total)
			q, err := p.Trim(from, to)
			require.NoError(t, err)
			assert.InDelta(t, part*total, q.Length(), 1e-9)
			a, _ := q.At(q.Length() / 3)
			b, _ := p.At(math.Mod(from+part*total/3, total))
			assert.InDelta(t, 0, r2.Norm(r2.Sub(a, b)), 1e-9)
		}
		s := p.StartAt(from)
		assert.InEpsilon(t, total, s.Length(), 1e-12)
		assert.InEpsilon(t, p.Area(), s.Area(), 1e-12)
		a, _ := p.At(from)
		assert.InDelta(t, 0, r2.Norm(r2.Sub(a, s.V[0].P)), 1e-9)

		pieces, err := p.Split(from, from/2, total/3, -1, 2*total)
		require.NoError(t, err)
		sum := 0.0
		for _, q := range pieces {
			assert.False(t, q.Closed)
			sum += q.Length()
		}
		assert.InEpsilon(t, total, sum, 1e-12)
		for j := range pieces {
			if j%2 == 1 {
				pieces[j] = pieces[j].Reverse()
			}
		}
		whole, err := arc.Connect(pieces, 1e-9)
		require.NoError(t, err)
		require.Len(t, whole, 1)
		assert.True(t, whole[0].Closed)
		assert.InEpsilon(t, math.Abs(p.Area()), math.Abs(whole[0].Area()), 1e-9)
	}
	open := arc.Polyline(r2.Vec{}, r2.Vec{X: 10}, r2.Vec{X: 10, Y: 10})
	three, err := open.Split(5, 15)
	require.NoError(t, err)
	assert.Len(t, three, 3)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err = open.Split(5, x)
		assert.ErrorIs(t, err, arc.ErrNotFinite)
	}
	_, err = arc.Polyline(r2.Vec{}, r2.Vec{X: 1e200}).Split(5)
	assert.ErrorIs(t, err, arc.ErrRange)
	_, err = open.Trim(7, 7)
	assert.ErrorIs(t, err, arc.ErrEmpty)
}

func TestRegions(t *testing.T) {
	loops := []arc.Path{arc.Rect(40, 40, 60, 60).Reverse(), arc.Rect(0, 0, 100, 100).Reverse(), arc.Rect(20, 20, 80, 80),
		arc.Circle(r2.Vec{X: 200}, 5)}
	rs, err := arc.Regions(loops)
	require.NoError(t, err)
	area, _, n := totals(rs)
	assert.Len(t, rs, 3)
	assert.Equal(t, 4, n)
	assert.InEpsilon(t, 1e4-3600+400+25*math.Pi, area, 1e-12)
	r := region(loops[1], loops[2]).Oriented()
	assert.InEpsilon(t, 6400.0, r.Area(), 1e-12)
}

func TestFlattenTo(t *testing.T) {
	for _, p := range []arc.Path{blob(), blob().Reverse(), arc.Circle(r2.Vec{X: 3}, 20), blob().Transform(arc.MirrorX())} {
		for _, tol := range []float64{2, 0.1, 1e-3} {
			count := map[arc.Side]int{}
			for _, side := range []arc.Side{arc.Inside, arc.Outside, arc.OnBoundary} {
				f, err := p.FlattenTo(side, tol)
				require.NoError(t, err)
				count[side] = len(f.V)
				for i := range f.NumSegments() {
					s := f.Segment(i)
					require.Zero(t, s.K)
					for j := range 9 {
						q, _ := s.At(s.Length() * float64(j) / 8)
						d := distTo(q, p)
						require.LessOrEqual(t, d, tol*(1+1e-9)+1e-9)
						if d > 1e-9 && side != arc.OnBoundary {
							require.Equal(t, side, p.Locate(q))
						}
					}
				}
				if side == arc.Inside {
					assert.Less(t, math.Abs(f.Area()), math.Abs(p.Area()))
				} else if side == arc.Outside {
					assert.Greater(t, math.Abs(f.Area()), math.Abs(p.Area()))
				}
			}
			if tol < 0.01 {
				assert.Less(t, float64(count[arc.OnBoundary]), 0.8*float64(count[arc.Inside]))
			}
		}
	}
}
