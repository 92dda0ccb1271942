package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func TestMomentsKnown(t *testing.T) {
	m, err := arc.Rect(10, 20, 40, 30).Moments()
	require.NoError(t, err)
	// b·h³/12, Machinery's Handbook, 31st ed., moments of inertia of sections.
	assert.InEpsilon(t, 300, m.Area, 1e-15)
	assert.InDelta(t, 0, r2.Norm(r2.Sub(r2.Vec{X: 25, Y: 25}, m.Centroid)), 1e-13)
	assert.InEpsilon(t, 10.0*30*30*30/12, m.XX, 1e-14)
	assert.InEpsilon(t, 30.0*10*10*10/12, m.YY, 1e-14)
	assert.InDelta(t, 0, m.XY, 1e-9)

	m, err = arc.Circle(r2.Vec{X: 1e5, Y: -1e5}, 10).Moments()
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi*1e4/4, m.XX, 1e-9)
	assert.InEpsilon(t, math.Pi*1e4/4, m.YY, 1e-9)

	// A half disc: its centroid stands 4r/(3π) off its diameter, and its moment
	// about the level axis there is r⁴(π/8 − 8/(9π)).
	half := arc.Path{V: []arc.Vertex{arc.V(10, 0, 1), arc.V(-10, 0, 0)}, Closed: true}
	m, err = half.Moments()
	require.NoError(t, err)
	assert.InDelta(t, 40/(3*math.Pi), m.Centroid.Y, 1e-13)
	assert.InEpsilon(t, 1e4*(math.Pi/8-8/(9*math.Pi)), m.YY, 1e-13)

	ring := region(arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{}, 10).Reverse())
	m, err = ring.Moments()
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi*15e4/4, m.XX, 1e-13)

	_, err = arc.Polyline(r2.Vec{}, r2.Vec{X: 1}).Moments()
	assert.ErrorIs(t, err, arc.ErrOpen)
	_, err = arc.Polygon(r2.Vec{}, r2.Vec{X: 1}).Moments()
	assert.ErrorIs(t, err, arc.ErrZeroArea)
}

// TestMomentsOfFlatSegments compares with gonum's quadrature over the height of
// a segment from nearly flat to most of a circle. The height over the chord is
// written without cancellation, as sag less what the arc has fallen.
func TestMomentsOfFlatSegments(t *testing.T) {
	for _, k := range []float64{1e-12, 1e-9, 1e-7, 1e-5, 1e-3, 0.1, 0.5, 0.99} {
		const c = 1000.0
		p := arc.Path{V: []arc.Vertex{arc.V(-c/2, 0, k), arc.V(c/2, 0, 0)}, Closed: true}
		m, err := p.Moments()
		require.NoError(t, err)
		r := c * (1 + k*k) / (4 * k)
		// Over x = (c/2)·sin u the height is (c²/4 − x²)/(√(R²−x²) + R·cos a).
		height := func(x float64) float64 {
			return (c*c/4 - x*x) / (math.Sqrt(r*r-x*x) + r*(1-k*k)/(1+k*k))
		}
		over := func(f func(x, h float64) float64) float64 {
			return quad.Fixed(func(u float64) float64 {
				x := c / 2 * math.Sin(u)
				return f(x, height(x)) * c / 2 * math.Cos(u)
			}, -math.Pi/2, math.Pi/2, 200, nil, 0)
		}
		area := over(func(x, h float64) float64 { return h })
		low := over(func(x, h float64) float64 { return h * h / 2 }) / area
		assert.InEpsilon(t, area, m.Area, 1e-12, "k %g", k)
		assert.InEpsilon(t, low, -m.Centroid.Y, 1e-12, "k %g", k)
		assert.InEpsilon(t, over(func(x, h float64) float64 { return x * x * h }), m.XX, 1e-12, "k %g", k)
		yy := over(func(x, h float64) float64 { return h*h*h/3 - low*h*h + low*low*h })
		assert.InEpsilon(t, yy, m.YY, 1e-9, "k %g", k)
	}
}

func TestMomentsMove(t *testing.T) {
	base, err := blob().Moments()
	require.NoError(t, err)
	for _, m := range motions {
		got, err := blob().Transform(m.m).Moments()
		require.NoError(t, err)
		f := m.m.Factor()
		assert.InEpsilon(t, math.Pow(f, 4)*(base.XX+base.YY), math.Abs(got.XX+got.YY), 1e-9, m.name)
		det := func(m arc.Moments) float64 { return m.XX*m.YY - m.XY*m.XY }
		assert.InEpsilon(t, math.Pow(f, 8)*det(base), det(got), 1e-9, m.name)
		assert.InDelta(t, 0, r2.Norm(r2.Sub(m.m.Apply(base.Centroid), got.Centroid)), 1e-9*f, m.name)
	}
}
