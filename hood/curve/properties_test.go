package curve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/hood/curve"
)

// ends draws where a section begins and ends.
func ends(t *rapid.T) curve.Ends {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	e := curve.Ends{Bottom: f("bottom", 400, 600), Skirt: f("skirt", 50, 200), Height: f("height", 600, 1000)}
	e.Top = e.Bottom - f("lean", 30, 250)
	return e
}

// arcs draws a sweep of arcs between ends, and its chord.
func arcs(t *rapid.T, e curve.Ends) (curve.Sweep, float64) {
	w := curve.Sweep{Shape: rapid.SampledFrom([]string{"cove", "bow", "ogee", "reverse-ogee"}).Draw(t, "shape")}
	chord := math.Hypot(e.Bottom-e.Top, e.Height-e.Skirt)
	w.Sag = rapid.Float64Range(0.002, 0.08).Draw(t, "sag") * chord / float64(len(w.Signs()))
	return w, chord
}

// A curve is as long as the chord and sag of its arcs say, turns as far, and
// stands off its chord by no more than its sag.
func TestSketchIsWhatIsAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := ends(t)
		w, chord := arcs(t, e)
		s, err := e.Sketch(w)
		require.NoError(t, err)
		n := float64(len(w.Signs()))
		half := 2 * math.Atan(2*w.Sag/(chord/n)) // of the turn of an arc
		radius := chord / n / 2 / math.Sin(half)
		assert.InEpsilon(t, n*2*half, float64(s.Curve.Turn), 1e-9)
		assert.InEpsilon(t, n*2*half*radius, s.Curve.ShowLength, 1e-9)
		assert.InEpsilon(t, radius, s.Curve.Radius, 1e-9)
		u := r2.Unit(r2.Vec{X: e.Top - e.Bottom, Y: e.Height - e.Skirt})
		most := 0.0
		for i := range 201 {
			l := s.Curve.ShowLength * float64(i) / 200
			p, _ := s.Sweep.At(l)
			most = math.Max(most, math.Abs(r2.Cross(u, r2.Sub(p, r2.Vec{X: e.Bottom, Y: e.Skirt}))))
		}
		assert.LessOrEqual(t, most, w.Sag*(1+1e-9))
		assert.Greater(t, most, w.Sag*0.99)
	})
}

// The back of a board is its thickness behind its face, and no point of it is
// nearer.
func TestFoldIsAThicknessBehind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := ends(t)
		w, _ := arcs(t, e)
		s, err := e.Sketch(w)
		require.NoError(t, err)
		thick := rapid.Float64Range(6, 25).Draw(t, "thickness")
		if !s.Fold(e, thick) {
			t.Skip("folds over")
		}
		length := s.Inner.Length()
		near := math.Inf(1)
		for i := range 201 {
			p, _ := s.Inner.At(length * float64(i) / 200)
			near = math.Min(near, s.Show.Distance(p))
		}
		assert.InDelta(t, thick, near, 1e-6)
	})
}

// The length along the face up to a height is that of the points passed on the
// way there, and grows with the height.
func TestDevelopedIsTheWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := ends(t)
		w, _ := arcs(t, e)
		s, err := e.Sketch(w)
		require.NoError(t, err)
		if !curve.Rises(s.Show) {
			t.Skip("does not rise")
		}
		last := -1.0
		for i := range 41 {
			l := s.Curve.ShowLength * float64(i) / 40
			p, _ := s.Sweep.At(l)
			u := s.Developed(p.Y)
			assert.InDelta(t, l, u, 1e-6)
			assert.Greater(t, u, last)
			last = u
		}
	})
}

// A curve below a thousandth of a millimeter is straight, and one above is not;
// nothing in between panics, whatever the number.
func TestSettledByFlat(t *testing.T) {
	e := curve.Ends{Bottom: 540, Top: 300, Skirt: 140, Height: 860}
	for _, w := range []struct {
		sag      float64
		straight bool
	}{{0, true}, {5e-324, true}, {1e-15, true}, {curve.Flat / 2, true}, {curve.Flat * 2, false}, {40, false}} {
		s := curve.Sweep{Shape: "cove", Sag: w.sag}.Settled(e)
		assert.Equal(t, w.straight, s.Name() == "straight", "%g", w.sag)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e300} {
		assert.NotPanics(t, func() {
			_, _ = e.Sketch(curve.Sweep{Shape: "ogee", Sag: bad}.Settled(e))
			_, _ = curve.Ends{Bottom: bad, Top: bad, Skirt: bad, Height: bad}.Sketch(curve.Sweep{Shape: "cove", Sag: 40})
		}, "%g", bad)
	}
}
