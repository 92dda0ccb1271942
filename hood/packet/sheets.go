package packet

import (
	"bytes"
	"fmt"
	"strings"

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
func sheetLayers(d hood.Design, n nested, s sheet.Sheet, in say.Format) (layers []draw.Layer, leaders []string) {
	stock := n.stock[s.Stock]
	layers = []draw.Layer{
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
		l, w := p.Size()
		texts, led := labels(p.Outline.Transform(m), p.Name, in.Size(l, w), len(leaders)+1)
		if notes.Texts = append(notes.Texts, texts...); led {
			leaders = append(leaders, fmt.Sprintf("%d: %s", len(leaders)+1, p.Name))
		}
	}
	for _, o := range s.Offcuts {
		at, w := o.At, r2.Vec{X: o.Stock.Length, Y: o.Stock.Width}
		piece := arc.Rect(at.X, at.Y, at.X+w.X, at.Y+w.Y)
		offcuts.Paths = append(offcuts.Paths, piece)
		notes.Texts = append(notes.Texts, fitted(arc.Region{Outer: piece}, "offcut "+in.Size(w.X, w.Y))...)
	}
	out := layers[:3:3]
	for _, name := range order {
		if l := cuts[name]; l != nil {
			out = append(out, *l)
		}
	}
	return present(append(out, layers[3])), leaders
}

func place(into *draw.Layer, l draw.Layer, m arc.Motion) {
	for _, p := range l.Paths {
		into.Paths = append(into.Paths, p.Transform(m))
	}
	for _, r := range l.Regions {
		into.Regions = append(into.Regions, r.Transform(m))
	}
}

// sheetDrawing returns the drawing of sheet i, counted from 0, and what stands at
// the numbers of parts too slim for their names.
func sheetDrawing(d hood.Design, n nested, i int, in say.Format) (dr draw.Drawing, leaders string) {
	s := n.layout.Sheets[i]
	stock := n.stock[s.Stock]
	layers, led := sheetLayers(d, n, s, in)
	if len(led) > 0 {
		leaders = "At the numbers: " + strings.Join(led, ", ") + "."
	}
	return draw.Drawing{
		Title:  fmt.Sprintf("Sheet %d", i+1),
		Desc:   stock.Name + "; back faces up; " + say.Percent(s.Use, 1) + " used",
		Layers: layers,
	}, leaders
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
