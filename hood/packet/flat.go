package packet

import (
	"bytes"
	"fmt"
	"image/color"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
)

// Tones of the drawings: ink, and washes for wood, waste and depth.
var (
	ink   = color.NRGBA{0x2b, 0x2a, 0x33, 0xff}
	wood  = color.NRGBA{0xf1, 0xe6, 0xd2, 0xff}
	board = color.NRGBA{0xfb, 0xf8, 0xf2, 0xff}
	deep  = color.NRGBA{0xc9, 0xb4, 0x90, 0xff}
	slit  = color.NRGBA{0x7d, 0x5a, 0x3c, 0xff}
	far   = color.NRGBA{0x62, 0x5f, 0x6c, 0xff}
)

// slotRegion returns the area a kerf takes at the back face.
func slotRegion(from, to r2.Vec, width float64) arc.Region {
	d := r2.Sub(to, from)
	n := r2.Scale(width/2/r2.Norm(d), r2.Vec{X: -d.Y, Y: d.X})
	return arc.Region{Outer: arc.Polygon(r2.Sub(from, n), r2.Sub(to, n), r2.Add(to, n), r2.Add(from, n))}
}

// cutLayers returns what a machine cuts in a part and the lines to mark on it,
// in the part's coordinates.
func cutLayers(p hood.Part) []draw.Layer {
	kerf := draw.Layer{Name: draw.Kerf, Weight: 0.18, Color: slit, Fill: deep}
	for _, s := range p.Work.Slots {
		kerf.Regions = append(kerf.Regions, slotRegion(s.From, s.To, s.Width))
	}
	pocket := draw.Layer{Name: draw.Pocket, Weight: 0.18, Color: slit}
	for _, k := range p.Work.Pockets {
		pocket.Regions = append(pocket.Regions, k.Area)
	}
	opening := draw.Layer{Name: draw.Opening, Weight: 0.35, Color: ink}
	opening.Paths = append(opening.Paths, p.Outline.Holes...)
	bevel := draw.Layer{Name: draw.Bevel, Weight: 0.25, Color: far, Dash: []float64{4, 1.5}}
	if p.Back.Area() != p.Outline.Area() && len(p.Back.Outer.V) > 0 {
		bevel.Paths = append(bevel.Paths, p.Back.Outer)
	}
	mark := draw.Layer{Name: "mark", Weight: 0.18, Color: far, Dash: []float64{2, 2}}
	for _, k := range p.Marks {
		mark.Paths = append(mark.Paths, k.Path)
	}
	outline := draw.Layer{Name: draw.Outline, Weight: 0.5, Color: ink, Paths: []arc.Path{p.Outline.Outer}}
	return present([]draw.Layer{outline, opening, pocket, kerf, bevel, mark})
}

// present leaves out layers that hold nothing.
func present(layers []draw.Layer) []draw.Layer {
	var out []draw.Layer
	for _, l := range layers {
		if len(l.Paths)+len(l.Regions)+len(l.Texts)+len(l.Dimensions) > 0 {
			out = append(out, l)
		}
	}
	return out
}

// partDrawing is the template of a part, at true size, as the machine sees it:
// its wash lies below what is cut, its sizes stand beside.
func partDrawing(p hood.Part, in say.Format) draw.Drawing {
	b := p.Outline.Bounds()
	style := draw.Style{Unit: in.Unit, Fraction: in.Fraction, Height: 7}
	wash := draw.Layer{Name: "wood", Weight: 0.1, Color: wood, Fill: wood, Regions: []arc.Region{p.Outline}}
	dims := draw.Layer{Name: draw.Dims, Weight: 0.25, Color: far, Dimensions: []draw.Dimension{
		draw.Horizontal(b.Min, r2.Vec{X: b.Max.X, Y: b.Min.Y}, b.Min.Y-22, style),
		draw.Vertical(r2.Vec{X: b.Max.X, Y: b.Min.Y}, b.Max, b.Max.X+22, style),
	}}
	return draw.Drawing{
		Title:  p.Name,
		Desc:   p.Label + ". Show face down, as the machine sees it; 1:1.",
		Layers: append(append([]draw.Layer{wash}, cutLayers(p)...), dims, partNotes(p, b, in)),
	}
}

func partNotes(p hood.Part, b r2.Box, in say.Format) draw.Layer {
	lines := []string{
		fmt.Sprintf("%s   ×%d   %s %s", p.Name, p.Copies(), p.Material, in.Length(p.Thickness)),
		"back face up",
	}
	lines = append(lines, sawLines(p)...)
	lines = append(lines, p.Notes...)
	l := draw.Layer{Name: draw.Note, Color: ink}
	for i, text := range lines {
		l.Texts = append(l.Texts, draw.Text{
			At: r2.Vec{X: b.Min.X, Y: b.Max.Y + 12 + 11*float64(len(lines)-1-i)}, Text: text, Height: 7,
		})
	}
	return l
}

// partFiles returns the files of one part: an SVG to print with its check bar,
// and a DXF with nothing but what is cut.
func partFiles(p hood.Part, in say.Format) ([]File, error) {
	var s, d bytes.Buffer
	if err := svg.Encode(&s, draw.WithCheckBar(partDrawing(p, in), in.Unit), svg.Options{}); err != nil {
		return nil, err
	}
	cuts := draw.Drawing{Title: p.Name, Desc: p.Label, Layers: cutLayers(p)}
	if err := dxf.Encode(&d, cuts, dxf.Options{}); err != nil {
		return nil, err
	}
	name := "parts/" + p.Name
	return []File{{name + ".svg", s.Bytes()}, {name + ".dxf", d.Bytes()}}, nil
}
