package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// isParamError passes where there is no error or one of the right type.
func isParamError(t *testing.T, err error, what ...any) {
	t.Helper()
	var pe *arc.ParamError
	if err != nil {
		assert.ErrorAs(t, err, &pe, what...)
	}
}

func TestLayoutTakesSpecialValues(t *testing.T) {
	arcs := []arc.Arc{{}}
	for _, s := range []float64{0, 1e-12, 3, 1e6} {
		a, err := arc.FromChordSag(10, s)
		require.NoError(t, err)
		arcs = append(arcs, a)
	}
	for _, a := range arcs {
		for _, x := range special {
			b, err := a.Concentric(x)
			isParamError(t, err, "%v %v", a, x)
			assert.False(t, math.IsNaN(b.Chord()+b.Sag()))
			n, err := a.Facets(x)
			isParamError(t, err, "%v %v", a, x)
			assert.True(t, err != nil || n >= 1)
			assert.False(t, math.IsInf(a.Ordinate(x), 0))
			m, err := arc.Facets(x, 1, 0.1)
			isParamError(t, err, "%v", x)
			assert.True(t, err != nil || m >= 1)
			m, err = arc.Facets(1, arc.Angle(x), 0.1)
			isParamError(t, err, "%v", x)
			assert.True(t, err != nil || m >= 1)
		}
		for _, n := range []int{math.MinInt, -1, 0, 1, 2, math.MaxInt} {
			s, err := a.FacetSag(n)
			isParamError(t, err, n)
			assert.False(t, math.IsNaN(s) || s < 0)
		}
	}
}

func TestPlacedArcsTakeSpecialValues(t *testing.T) {
	o, e := r2.Vec{}, r2.Vec{X: 1}
	for _, x := range special {
		for _, y := range special {
			p := r2.Vec{X: x, Y: y}
			for _, f := range []func() (arc.Segment, error){
				func() (arc.Segment, error) { return arc.ThreePoints(o, p, e) },
				func() (arc.Segment, error) { return arc.ThreePoints(p, o, e) },
				func() (arc.Segment, error) { return arc.Tangent(o, p, e) },
				func() (arc.Segment, error) { return arc.Tangent(o, e, p) },
			} {
				s, err := f()
				isParamError(t, err, p)
				assert.False(t, math.IsNaN(s.K) || math.IsInf(s.K, 0), p)
			}
			for _, f := range []func() ([2]arc.Segment, error){
				func() ([2]arc.Segment, error) { return arc.Biarc(o, p, e, e) },
				func() ([2]arc.Segment, error) { return arc.Biarc(o, e, p, e) },
				func() ([2]arc.Segment, error) { return arc.Biarc(o, e, e, p) },
			} {
				pair, err := f()
				isParamError(t, err, p)
				for _, s := range pair {
					assert.NoError(t, arc.Path{V: []arc.Vertex{{P: s.A, K: s.K}, {P: s.B}}}.Usable(), p)
				}
			}
			d := arc.Segment{B: e, K: 0.5}.Distance(p)
			assert.False(t, d < 0)
			if math.Abs(x) < 1e100 && math.Abs(y) < 1e100 {
				assert.False(t, math.IsNaN(d), p)
			}
			l, err := arc.CatenaryLength(x, y)
			isParamError(t, err, p)
			assert.False(t, math.IsNaN(l))
		}
	}
}

func TestAnglesTakeSpecialValues(t *testing.T) {
	for _, x := range special {
		a := arc.Angle(x)
		assert.Equal(t, math.IsNaN(x), math.IsNaN(a.Degrees()))
		assert.NotEmpty(t, a.String())
		p := arc.Rotate(a).Apply(r2.Vec{X: 1})
		if math.IsNaN(x) || math.IsInf(x, 0) {
			assert.True(t, math.IsNaN(p.X), x)
			continue
		}
		assert.InDelta(t, 1, math.Hypot(p.X, p.Y), 1e-15, x)
	}
	for deg, want := range map[arc.Angle]r2.Vec{
		-360: {X: 1}, -270: {Y: 1}, -180: {X: -1}, -90: {Y: -1}, 0: {X: 1}, 90: {Y: 1}, 450: {Y: 1}, 36000: {X: 1},
	} {
		assert.Equal(t, want, r2.Add(arc.Rotate(deg*arc.Degree).Apply(r2.Vec{X: 1}), r2.Vec{}), deg)
	}
	assert.Equal(t, "22.5°", (22.5 * arc.Degree).String())
	assert.Equal(t, "mm", arc.Millimeters.String())
	assert.Equal(t, "in", arc.Inches.String())
	assert.Equal(t, "mm", arc.Unit(200).String())
}

// Two arcs from a to b with the given directions there, whichever they are,
// join at a common tangent.
func TestBiarcJoins(t *testing.T) {
	b := r2.Vec{X: 100, Y: 20}
	for i := range 24 {
		for j := range 24 {
			u := arc.Rotate(arc.Angle(i) * 15 * arc.Degree).Apply(r2.Vec{X: 3})
			v := arc.Rotate(arc.Angle(j)*15*arc.Degree + 0.01).Apply(r2.Vec{X: 0.5})
			pair, err := arc.Biarc(r2.Vec{}, u, b, v)
			require.NoError(t, err, "%d %d", i, j)
			_, start := pair[0].At(0)
			_, before := pair[0].At(pair[0].Length())
			_, after := pair[1].At(0)
			_, end := pair[1].At(pair[1].Length())
			for _, d := range [][2]r2.Vec{{u, start}, {before, after}, {end, v}} {
				require.InDelta(t, 0, math.Atan2(r2.Cross(d[0], d[1]), r2.Dot(d[0], d[1])), 1e-9, "%d %d", i, j)
			}
			require.Equal(t, b, pair[1].B)
		}
	}
}
