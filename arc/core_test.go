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

// blob is a closed path with lines, a minor and a major arc, turning both ways.
func blob() arc.Path {
	return arc.Path{V: []arc.Vertex{
		arc.V(0, 0, 0), arc.V(40, 0, 0.3), arc.V(50, 30, -0.2), arc.V(20, 25, 1.4), arc.V(5, 22, 0),
	}, Closed: true}
}

// sampledArea is an oracle that knows nothing of arcs: the shoelace sum over
// many points taken along the path.
func sampledArea(p arc.Path, n int) float64 {
	sum, l := 0.0, p.Length()
	prev, _ := p.At(0)
	for i := 1; i <= n; i++ {
		q, _ := p.At(l * float64(i) / float64(n))
		sum += r2.Cross(prev, q) / 2
		prev = q
	}
	return sum
}

func TestPathAreaLengthBounds(t *testing.T) {
	p := blob()
	assert.InEpsilon(t, sampledArea(p, 200000), p.Area(), 1e-6)
	assert.InEpsilon(t, -p.Area(), p.Reverse().Area(), 1e-14)
	assert.InEpsilon(t, p.Length(), p.Reverse().Length(), 1e-14)
	b := p.Bounds()
	lo, hi := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for i := range 100001 {
		q, _ := p.At(p.Length() * float64(i) / 1e5)
		lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
		hi.X, hi.Y = max(hi.X, q.X), max(hi.Y, q.Y)
	}
	assert.InDelta(t, lo.X, b.Min.X, 1e-6)
	assert.InDelta(t, lo.Y, b.Min.Y, 1e-6)
	assert.InDelta(t, hi.X, b.Max.X, 1e-6)
	assert.InDelta(t, hi.Y, b.Max.Y, 1e-6)
}

func TestCircle(t *testing.T) {
	c := arc.Circle(r2.Vec{X: 3, Y: 4}, 10)
	assert.InEpsilon(t, 100*math.Pi, c.Area(), 1e-15)
	assert.InEpsilon(t, 20*math.Pi, c.Length(), 1e-15)
	assert.Equal(t, r2.Box{Min: r2.Vec{X: -7, Y: -6}, Max: r2.Vec{X: 13, Y: 14}}, c.Bounds())
}

func TestMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMotion(t, "m")
		n := drawMotion(t, "n")
		p := r2.Vec{X: rapid.Float64Range(-9, 9).Draw(t, "x"), Y: rapid.Float64Range(-9, 9).Draw(t, "y")}
		assert.InDelta(t, 0, r2.Norm(r2.Sub(n.Apply(m.Apply(p)), m.Then(n).Apply(p))), 1e-9)
		assert.InDelta(t, 0, r2.Norm(r2.Sub(p, m.Inverse().Apply(m.Apply(p)))), 1e-9)
		f := m.Factor()
		area := blob().Area() * f * f
		if m.Mirrors() {
			area = -area
		}
		assert.InEpsilon(t, area, blob().Transform(m).Area(), 1e-9)
	})
}

func drawMotion(t *rapid.T, label string) arc.Motion {
	m := arc.Rotate(arc.Angle(rapid.Float64Range(-7, 7).Draw(t, label)))
	if rapid.Bool().Draw(t, label) {
		m = arc.MirrorX().Then(m)
	}
	m = m.Then(arc.Scale(rapid.Float64Range(0.1, 10).Draw(t, label)))
	return m.Then(arc.Shift(r2.Vec{X: rapid.Float64Range(-9, 9).Draw(t, label), Y: 1}))
}

func TestRightAnglesAreExact(t *testing.T) {
	p := r2.Vec{X: 1.1, Y: 2.3}
	assert.Equal(t, r2.Vec{X: -2.3, Y: 1.1}, arc.Rotate(90*arc.Degree).Apply(p))
	assert.Equal(t, r2.Vec{X: -1.1, Y: -2.3}, arc.Rotate(180*arc.Degree).Apply(p))
	assert.Equal(t, r2.Vec{X: 2.3, Y: -1.1}, arc.Rotate(270*arc.Degree).Apply(p))
}

func TestFlattenStaysWithin(t *testing.T) {
	p := blob()
	for _, tol := range []float64{1, 0.01, 1e-4} {
		q, err := p.Flatten(tol)
		require.NoError(t, err)
		assert.InDelta(t, p.Area(), q.Area(), tol*p.Length())
		for i := range q.NumSegments() {
			assert.Zero(t, q.V[i].K)
		}
	}
	_, err := p.Flatten(0)
	assert.ErrorIs(t, err, arc.ErrRange)
}
