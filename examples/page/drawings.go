package main

import (
	"bytes"
	"context"
	"fmt"
	"image/color"
	"net/url"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/sheet"
	"gonum.org/v1/gonum/spatial/r2"
)

var (
	wood = color.NRGBA{R: 0xe4, G: 0xd2, B: 0xb0, A: 0xff}
	soft = color.NRGBA{R: 0x5a, G: 0x5a, B: 0x5a, A: 0xff}
)

// section draws the front from the side, with the chord and the sag of its arc.
func section(s hood.Spec) (string, error) {
	c, err := curve.Ends{Bottom: s.Depth, Top: s.Neck.Depth, Skirt: s.Skirt, Height: s.Height}.Sketch(s.Sweep)
	if err != nil {
		return "", err
	}
	dims := draw.Layer{Name: draw.Dims, Weight: 2, Color: soft}
	style := draw.Style{Height: 22}
	if g := c.Sweep.Segment(0); g.K != 0 {
		dims.Dimensions = append(dims.Dimensions, draw.ChordSag(g, 70, style))
	}
	dims.Dimensions = append(dims.Dimensions,
		draw.Horizontal(r2.Vec{}, r2.Vec{X: s.Depth}, -70, style), draw.Vertical(r2.Vec{}, r2.Vec{Y: s.Height}, -70, style))
	return inline(draw.Drawing{
		Title: "Section of the front", Desc: "The show face seen from the side, the wall at the left",
		Layers: []draw.Layer{
			{Name: "wall", Weight: 2, Dash: []float64{16, 8}, Color: soft, Paths: []arc.Path{arc.Polyline(r2.Vec{}, r2.Vec{Y: s.Height})}},
			{Name: draw.Outline, Weight: 4, Paths: []arc.Path{c.Show}},
			dims,
		},
	})
}

func inline(d draw.Drawing) (string, error) {
	var b bytes.Buffer
	err := svg.Encode(&b, d, svg.Options{Inline: true})
	return b.String(), err
}

// A nest is the sheets of a hood.
type nest struct {
	Faults []string `json:"faults,omitempty"`
	Sheets []string `json:"sheets,omitempty"` // SVG
	Use    string   `json:"use,omitempty"`
}

// sheets lays the parts out, ends early when ctx does, and draws the sheets.
func sheets(ctx context.Context, q url.Values) nest {
	d, err := hood.Build(specOf(q))
	if err != nil {
		return nest{Faults: refused(err).Faults}
	}
	var parts []sheet.Part
	for _, p := range d.Parts {
		parts = append(parts, p.OnSheet())
	}
	l, err := sheet.Nest(ctx, parts, stock, sheet.Options{Gap: 14, Margin: 15, Iterations: 10})
	if err != nil {
		return nest{Faults: []string{err.Error()}}
	}
	n := nest{Use: fmt.Sprintf("%d sheets, %.0f %% used, %d parts without a place", len(l.Sheets), 100*l.Use, len(l.Unplaced))}
	for i, s := range l.Sheets {
		text, err := inline(drawn(parts, s, i))
		if err != nil {
			return nest{Faults: []string{err.Error()}}
		}
		n.Sheets = append(n.Sheets, text)
	}
	return n
}

var stock = []sheet.Stock{
	{Name: "mdf", Material: "mdf", Thickness: 19, Length: 2800, Width: 2070},
	{Name: "plywood", Material: "plywood", Thickness: 12, Length: 2500, Width: 1250},
}

func drawn(parts []sheet.Part, s sheet.Sheet, i int) draw.Drawing {
	st := stock[s.Stock]
	board := draw.Layer{Name: draw.Sheet, Weight: 3, Color: soft, Paths: []arc.Path{arc.Rect(0, 0, st.Length, st.Width)}}
	cut := draw.Layer{Name: draw.Outline, Weight: 2, Fill: wood}
	for _, p := range s.Placements {
		cut.Regions = append(cut.Regions, parts[p.Part].Outline.Transform(p.Motion()))
	}
	return draw.Drawing{Title: fmt.Sprintf("Sheet %d, %s", i+1, st.Name), Layers: []draw.Layer{board, cut}}
}
