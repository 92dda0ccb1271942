package hood

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sidesDemo has two flared sides of different shape and flare.
func sidesDemo() Spec {
	s := flaredDemo()
	s.LeftSweep = Sweep{Shape: "ogee", Sag: 14}
	s.Neck.Offset = 30
	return s
}

// leftDemo has a flared left side and a plumb right one.
func leftDemo() Spec {
	s := flaredDemo()
	s.Neck.Width = 800
	s.Neck.Offset, s.Duct.X = 125, -125 // the duct stays between the ribs
	s.SideSweep, s.LeftSweep = Sweep{}, Sweep{Shape: "bow", Sag: 20}
	return s
}

// Each side of a hood with two different ones is that of the hood that has it
// on both; seams and sides are reported by hand.
func TestSidesAreTheirOwn(t *testing.T) {
	cove, ogee := Sweep{Shape: "cove", Sag: 30}, Sweep{Shape: "ogee", Sag: 14}
	build := func(right, left Sweep, offset float64) Design {
		s := flaredDemo()
		s.SideSweep, s.LeftSweep, s.Neck.Offset = right, left, offset
		d, err := Build(s)
		require.NoError(t, err)
		return d
	}
	mixed, coves, ogees := build(cove, ogee, 0), build(cove, Sweep{}, 0), build(ogee, Sweep{}, 0)
	for _, w := range []struct {
		from Design
		hand string
	}{{coves, "right"}, {ogees, "left"}} {
		for _, name := range []string{"skirt-" + w.hand, "sweep-" + w.hand} {
			want, ok := w.from.Part(name)
			require.True(t, ok, name)
			got, _ := mixed.Part(name)
			assert.Equal(t, want, got, name)
		}
	}
	assert.Equal(t, coves.Right.Curve, mixed.Right.Curve)
	assert.Equal(t, ogees.Right.Curve, mixed.Left.Curve)
	assert.Equal(t, coves.Right.Seam, mixed.Right.Seam)
	assert.Equal(t, ogees.Right.Seam, mixed.Left.Seam)
	assert.Equal(t, coves.Left, coves.Right)

	// Left and right exchanged give the mirrored hood.
	other := build(ogee, cove, -40)
	mixed = build(cove, ogee, 40)
	assert.Equal(t, mixed.Left, other.Right)
	assert.InDelta(t, mixed.Mass, other.Mass, 1e-9)
	for _, p := range mixed.Parts {
		name := p.Name
		switch {
		case strings.HasSuffix(name, "-left"):
			name = strings.TrimSuffix(name, "-left") + "-right"
		case strings.HasSuffix(name, "-right"):
			name = strings.TrimSuffix(name, "-right") + "-left"
		}
		q, ok := other.Part(name)
		require.True(t, ok, name)
		assert.InDelta(t, p.Outline.Area(), q.Outline.Area(), 1e-6, name)
		assert.InDelta(t, p.Back.Area(), q.Back.Area(), 1e-6, name)
	}
}

// An offset neck makes the flares differ though the shape is one.
func TestOffsetNeckReportsBothSides(t *testing.T) {
	s := flaredDemo()
	s.Neck.Offset = 60
	d, err := Build(s)
	require.NoError(t, err)
	// The chord from half the width, 525, to 250 ± 60 over 720 upward.
	assert.InDelta(t, math.Hypot(525-310, 720), d.Right.Curve.Chord, 1e-9)
	assert.InDelta(t, math.Hypot(525-190, 720), d.Left.Curve.Chord, 1e-9)
	for _, f := range []Flare{d.Left, d.Right} {
		top := f.Seam[len(f.Seam)-1]
		assert.InDelta(t, 300, top.ZShow, 1e-6)
	}
	assert.InDelta(t, 190, d.Left.Seam[24].XShow, 1e-6)
	assert.InDelta(t, 310, d.Right.Seam[24].XShow, 1e-6)

	d, err = Build(leftDemo())
	require.NoError(t, err)
	assert.Zero(t, d.Right)
	assert.NotZero(t, d.Left.Curve.Chord)
}

// The bent and placed sides stand where their curves are by closed form: no
// vertex of a sweep's mesh stands out of its show face, and at each height one
// reaches it within the facet.
func TestSidesStandOnTheirCurves(t *testing.T) {
	d, err := Build(sidesDemo())
	require.NoError(t, err)
	model, err := d.Model()
	require.NoError(t, err)
	// The right side is one cove from (525, 140) to (280, 860), sag 30; the
	// left an ogee from 525 to 220, sag 14 each half.
	right := circleOut(525, 140, 280, 860, 30, -1)
	mid := [2]float64{(525 + 220) / 2.0, 500}
	low, high := circleOut(525, 140, mid[0], mid[1], 14, -1), circleOut(mid[0], mid[1], 220, 860, 14, 1)
	left := func(y float64) float64 {
		if y < mid[1] {
			return low(y)
		}
		return high(y)
	}
	for _, m := range model {
		hand, at := 1.0, right
		switch m.Name {
		case "sweep-left":
			hand, at = -1, left
		case "sweep-right":
		default:
			continue
		}
		near, seen := 0.0, 0
		for _, v := range m.Vertices {
			if v.Y < 140 || v.Y > 860 {
				continue
			}
			off := hand*v.X - at(v.Y)
			assert.Less(t, off, 0.2, "%s at %.1f", m.Name, v.Y)
			if off > -1 { // not the floor of a kerf
				near = math.Max(near, math.Abs(off))
				seen++
			}
		}
		assert.Greater(t, seen, 50, m.Name)
		// A facet stands off square to the curve, so a little more across.
		assert.Less(t, near, 0.15, m.Name)
	}
}

// circleOut returns how far out the arc from (x0, y0) to (x1, y1) stands at a
// height: through the two ends and a point one sag square off the middle,
// sign -1 inward.
func circleOut(x0, y0, x1, y1, sag, sign float64) func(y float64) float64 {
	c := math.Hypot(x1-x0, y1-y0)
	r := (c*c/4 + sag*sag) / (2 * sag)
	nx, ny := (y1-y0)/c, -(x1-x0)/c // outward
	h := sign * (sag - r)
	cx, cy := (x0+x1)/2+h*nx, (y0+y1)/2+h*ny
	return func(y float64) float64 {
		return cx + sign*math.Sqrt(r*r-(y-cy)*(y-cy))
	}
}

func TestSidesShareNothing(t *testing.T) {
	s := flaredDemo()
	s.SideSweep = Sweep{Shape: "ogee", Sag: 14}
	d, err := Build(s)
	require.NoError(t, err)
	d.Left.Curve.Arcs[1].Chord, d.Left.Seam[1].Y = 0, 0
	again, err := Build(s)
	require.NoError(t, err)
	assert.Equal(t, again.Right, d.Right)
}
