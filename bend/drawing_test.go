package bend

import (
	"bytes"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/internal/readback"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The strip's file, read back, holds what is to be cut.
func TestStripDrawing(t *testing.T) {
	p, err := KerfPlan(sweep(-1), mdf19, common)
	require.NoError(t, err)
	s, err := p.TestStrip()
	require.NoError(t, err)
	for _, unit := range []arc.Unit{arc.Millimeters, arc.Inches} {
		d := s.Drawing(unit)
		require.NoError(t, d.Check())
		var b bytes.Buffer
		require.NoError(t, svg.Encode(&b, d, svg.Options{}))
		for _, g := range s.Stages {
			assert.Contains(t, b.String(), "radius "+arc.FormatLength(g.Radius, unit)+", sag "+arc.FormatLength(g.Sag, unit))
		}
		b.Reset()
		require.NoError(t, dxf.Encode(&b, d, dxf.Options{}))
		doc, err := readback.DXF(&b)
		require.NoError(t, err)
		kerfs, outline := doc.Loops(draw.Kerf), doc.Loops(draw.Outline)
		require.Len(t, kerfs, len(s.Slots))
		total := 0.0
		for _, k := range kerfs {
			total += k.Area()
		}
		box := s.Outline.Bounds()
		assert.InDelta(t, float64(len(kerfs))*mdf19.KerfWidth*(box.Max.Y-box.Min.Y), total, 0.05)
		require.Len(t, outline, 1)
		assert.InDelta(t, s.Outline.Area(), outline[0].Area(), 0.05)
	}
}

func TestSectionDrawing(t *testing.T) {
	for _, sense := range []float64{-1, 1} {
		p, err := KerfPlan(sweep(sense), mdf19, common)
		require.NoError(t, err)
		s := refold(t, p, sweep(sense))
		d := s.Drawing()
		require.NoError(t, d.Check())
		var b bytes.Buffer
		require.NoError(t, svg.Encode(&b, d, svg.Options{}))
		doc, err := readback.SVG(&b)
		require.NoError(t, err)
		require.Len(t, doc.Loops(draw.Outline), 1)
		want := p.FlatLength*19 - float64(len(p.Kerfs))*3.2*(19-1.6)
		assert.InDelta(t, want, doc.Loops(draw.Outline)[0].Area(), 1)
		assert.InDelta(t, p.FlatLength, doc.On(draw.Centering)[0].Length(), 0.01)
	}
}
