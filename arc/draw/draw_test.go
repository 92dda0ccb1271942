package draw_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
)

func TestHatchCoversTheRegion(t *testing.T) {
	ring := arc.Region{Outer: arc.Circle(r2.Vec{X: 3, Y: 4}, 50), Holes: []arc.Path{arc.Circle(r2.Vec{X: 3, Y: 4}, 20).Reverse()}}
	for _, deg := range []arc.Angle{0, 30, 45, 90, 200} {
		lines, err := draw.Hatch(ring, deg*arc.Degree, 0.1)
		require.NoError(t, err)
		sum := 0.0
		for _, l := range lines {
			sum += l.Length()
			for _, v := range l.V {
				d := math.Hypot(v.P.X-3, v.P.Y-4)
				assert.Less(t, math.Min(math.Abs(d-50), math.Abs(d-20)), 0.1)
			}
		}
		// The lines' length times their pitch is the area, by quadrature.
		assert.InEpsilon(t, ring.Area(), sum*0.1, 1e-3)
	}
}

func TestHatchSpecial(t *testing.T) {
	square := arc.Region{Outer: arc.Rect(0, 0, 10, 10)}
	for _, c := range []struct {
		angle arc.Angle
		pitch float64
		r     arc.Region
	}{
		{0, 0, square}, {0, -1, square}, {0, math.NaN(), square}, {0, math.Inf(1), square}, {0, 1e-9, square},
		{arc.Angle(math.NaN()), 1, square}, {arc.Angle(math.Inf(1)), 1, square},
		{0, 1, arc.Region{}}, {0, 1, arc.Region{Outer: arc.Rect(0, 0, math.NaN(), 1)}},
	} {
		_, err := draw.Hatch(c.r, c.angle, c.pitch)
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe)
	}
	far := arc.Region{Outer: arc.Rect(1e20, 1e20, 2e20, 2e20)}
	_, err := draw.Hatch(far, 0, 1e18)
	assert.NoError(t, err)
}

// The two arrow tips of a dimension are as far apart as it says.
func TestDimensionsMeasure(t *testing.T) {
	a, b := r2.Vec{X: 10, Y: 20}, r2.Vec{X: 310, Y: 420}
	for want, d := range map[string]draw.Dimension{
		"500": draw.Aligned(a, b, 30, draw.Style{}),
		"300": draw.Horizontal(a, b, -5, draw.Style{}),
		"400": draw.Vertical(a, b, -5, draw.Style{}),
	} {
		assert.Equal(t, want, d.Labels[0].Text)
		tip := r2.Sub(d.Arrows[1].V[0].P, d.Arrows[0].V[0].P)
		assert.Equal(t, want, arc.FormatLength(r2.Norm(tip), arc.Millimeters)[:3])
	}
	d := draw.Aligned(a, b, 30, draw.Style{})
	assert.InDelta(t, 30, r2.Norm(r2.Sub(d.Arrows[0].V[0].P, a)), 1e-12)
	assert.Greater(t, r2.Cross(r2.Sub(b, a), r2.Sub(d.Arrows[0].V[0].P, a)), 0.0, "to the left")
	in := draw.Aligned(a, b, 30, draw.Style{Unit: arc.Inches})
	assert.Equal(t, "19 11/16 in", in.Labels[0].Text)
}

func TestLabelsReadFromBelowOrTheRight(t *testing.T) {
	for deg := range 360 {
		u := arc.Rotate(arc.Angle(deg) * arc.Degree).Apply(r2.Vec{X: 100})
		got := draw.Aligned(r2.Vec{}, u, 10, draw.Style{}).Labels[0].Angle.Degrees()
		assert.True(t, got > -90 && got <= 90+1e-6, "%d: %v", deg, got)
	}
}

func TestSmallDimensionPutsItsLabelOutside(t *testing.T) {
	d := draw.Horizontal(r2.Vec{}, r2.Vec{X: 2}, 0, draw.Style{})
	assert.Greater(t, d.Labels[0].At.X, 2.0)
	assert.Greater(t, d.Arrows[1].V[1].P.X, 2.0, "its arrows point inward")
}

func TestRadiusAngleChordSag(t *testing.T) {
	// A 3-4-5 arc: chord 8, sag 2, radius 5.
	g := arc.Segment{A: r2.Vec{X: 100}, B: r2.Vec{X: 108}, K: 0.5}
	assert.Equal(t, "R 5", draw.Radius(g, draw.Style{}).Labels[0].Text)
	d := draw.ChordSag(g, 20, draw.Style{})
	assert.Equal(t, "8", d.Labels[0].Text)
	assert.Equal(t, "sag 2", d.Labels[1].Text)
	assert.InDelta(t, 20, d.Arrows[0].V[0].P.Y, 1e-12, "away from the arc, which lies below")
	assert.Empty(t, draw.Radius(arc.Segment{B: r2.Vec{X: 1}}, draw.Style{}).Lines)
	assert.Len(t, draw.ChordSag(arc.Segment{B: r2.Vec{X: 1}}, 1, draw.Style{}).Labels, 1)

	w := draw.Angle(r2.Vec{}, r2.Vec{X: 1}, r2.Vec{Y: 3}, 20, draw.Style{})
	assert.Equal(t, "90°", w.Labels[0].Text)
	assert.InDelta(t, 10*math.Pi, w.Lines[0].Length(), 1e-12)
	w = draw.Angle(r2.Vec{}, r2.Vec{Y: 3}, r2.Vec{X: 1}, 20, draw.Style{})
	assert.Equal(t, "270°", w.Labels[0].Text)
}

func TestDegenerateDimensionsAreFinite(t *testing.T) {
	p := r2.Vec{X: 7, Y: 8}
	g := arc.Segment{A: p, B: p, K: 1}
	dims := []draw.Dimension{
		draw.Aligned(p, p, 3, draw.Style{}), draw.Horizontal(p, p, 8, draw.Style{}), draw.Vertical(p, p, 1, draw.Style{}),
		draw.Angle(p, p, p, 5, draw.Style{}), draw.Radius(g, draw.Style{}), draw.ChordSag(g, 3, draw.Style{}),
	}
	assert.NoError(t, draw.Drawing{Layers: []draw.Layer{{Name: "a", Dimensions: dims}}}.Check())
}

func TestExtentHoldsText(t *testing.T) {
	d := draw.Drawing{Layers: []draw.Layer{{Name: "a", Texts: []draw.Text{{Text: "12345", Height: 10, Align: draw.Middle, Angle: 90 * arc.Degree}}}}}
	e := d.Extent()
	assert.InDelta(t, 40, e.Max.Y-e.Min.Y, 1e-9)
	assert.InDelta(t, 0, e.Max.Y+e.Min.Y, 1e-9)
	assert.InDelta(t, 13, e.Max.X-e.Min.X, 1e-9)
	assert.Equal(t, r2.Box{}, draw.Drawing{}.Extent())
}

func TestWithCheckBarLeavesTheDrawing(t *testing.T) {
	d := draw.Drawing{Layers: make([]draw.Layer, 1, 4)}
	d.Layers[0] = draw.Layer{Name: "a", Paths: []arc.Path{arc.Rect(0, 0, 1, 1)}}
	e := draw.WithCheckBar(d, arc.Millimeters)
	assert.Len(t, d.Layers, 1)
	assert.Equal(t, draw.Check, e.Layers[1].Name)
	assert.Equal(t, r2.Vec{X: -5, Y: -21}, e.Page.Min)
	assert.NoError(t, e.Check())
}
