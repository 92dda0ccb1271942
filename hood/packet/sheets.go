package packet

import (
	"bytes"
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet"
)

// sheetLayers returns a sheet with its parts in place.
func sheetLayers(d hood.Design, n nested, s sheet.Sheet, in say.Format) []draw.Layer {
	stock := n.stock[s.Stock]
	layers := []draw.Layer{
		{Name: draw.Sheet, Weight: 0.7, Color: far, Fill: board, Regions: []arc.Region{stock.Shape()}},
		{Name: "wood", Weight: 0.1, Color: wood, Fill: wood},
		{Name: "offcut", Weight: 0.35, Color: far, Dash: []float64{8, 4}},
		{Name: draw.Note, Color: ink},
	}
	washes, offcuts, notes := &layers[1], &layers[2], &layers[3]
	cuts := map[string]*draw.Layer{}
	order := []string{draw.Kerf, draw.Pocket, draw.Opening, draw.Bevel, draw.Outline, "mark"}
	for _, pl := range s.Placements {
		p, m := d.Parts[pl.Part], pl.Motion()
		washes.Regions = append(washes.Regions, p.Outline.Transform(m))
		for _, l := range cutLayers(p) {
			into := cuts[l.Name]
			if into == nil {
				c := l
				c.Paths, c.Regions = nil, nil
				into = &c
				cuts[l.Name] = into
			}
			place(into, l, m)
		}
		notes.Texts = append(notes.Texts, partLabel(p, m, in)...)
	}
	for _, o := range s.Offcuts {
		at, w := o.At, r2.Vec{X: o.Stock.Length, Y: o.Stock.Width}
		offcuts.Paths = append(offcuts.Paths, arc.Rect(at.X, at.Y, at.X+w.X, at.Y+w.Y))
	}
	out := layers[:3:3]
	for _, name := range order {
		if l := cuts[name]; l != nil {
			out = append(out, *l)
		}
	}
	return present(append(out, layers[3]))
}

func place(into *draw.Layer, l draw.Layer, m arc.Motion) {
	for _, p := range l.Paths {
		into.Paths = append(into.Paths, p.Transform(m))
	}
	for _, r := range l.Regions {
		into.Regions = append(into.Regions, r.Transform(m))
	}
}

// partLabel names a part in its middle, along its longer side.
func partLabel(p hood.Part, m arc.Motion, in say.Format) []draw.Text {
	b := p.Outline.Transform(m).Bounds()
	at := r2.Scale(0.5, r2.Add(b.Min, b.Max))
	l, w := p.Size()
	size := in.Size(l, w)
	up, turn := r2.Vec{Y: 22}, arc.Angle(0)
	if b.Max.Y-b.Min.Y > 1.5*(b.Max.X-b.Min.X) {
		up, turn = r2.Vec{X: -22}, 90*arc.Degree
	}
	return []draw.Text{
		{At: r2.Add(at, up), Text: p.Name, Height: 30, Align: draw.Middle, Angle: turn},
		{At: r2.Sub(at, up), Text: size, Height: 22, Align: draw.Middle, Angle: turn},
	}
}

// sheetDrawing returns the drawing of sheet i, counted from 0.
func sheetDrawing(d hood.Design, n nested, i int, in say.Format) draw.Drawing {
	s := n.layout.Sheets[i]
	stock := n.stock[s.Stock]
	return draw.Drawing{
		Title:  fmt.Sprintf("Sheet %d", i+1),
		Desc:   stock.Name + "; back faces up; " + say.Percent(s.Use, 1) + " used",
		Layers: sheetLayers(d, n, s, in),
	}
}

func sheetFiles(dr draw.Drawing, i int) ([]File, error) {
	var s, x bytes.Buffer
	if err := svg.Encode(&s, dr, svg.Options{}); err != nil {
		return nil, err
	}
	if err := dxf.Encode(&x, dr, dxf.Options{}); err != nil {
		return nil, err
	}
	name := fmt.Sprintf("sheets/sheet-%d", i+1)
	return []File{{name + ".svg", s.Bytes()}, {name + ".dxf", x.Bytes()}}, nil
}
