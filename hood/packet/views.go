package packet

import (
	"bytes"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
)

// A view is a drawing of the whole hood and its name in the packet.
type view struct {
	name    string
	drawing draw.Drawing
}

// views returns the drawings of the whole hood: a section through the middle,
// the front, and a plan cut through the skirt or the lower end.
func views(d hood.Design, solids []hood.Solid, in say.Format) []view {
	style := draw.Style{Unit: in.Unit, Fraction: in.Fraction, Height: 18}
	return []view{
		{"section", sectionView(d, solids, style)},
		{"front", frontView(d, solids, style)},
		{"plan", planView(d, solids, style)},
	}
}

func (v view) file() (File, error) {
	var b bytes.Buffer
	err := svg.Encode(&b, v.drawing, svg.Options{})
	return File{"drawings/" + v.name + ".svg", b.Bytes()}, err
}

// cutLayer returns the wood that a plane cuts.
func cutLayer(solids []hood.Solid, at plane) draw.Layer {
	l := draw.Layer{Name: "cut wood", Weight: 0.5, Color: ink, Fill: deep}
	for _, s := range solids {
		for _, p := range slice(s, at) {
			l.Paths = append(l.Paths, p)
			if p.Area() > 0 {
				l.Regions = append(l.Regions, arc.Region{Outer: p})
			} else {
				l.Regions = append(l.Regions, arc.Region{Outer: p.Reverse()})
			}
		}
	}
	return l
}

// beyond returns the sharp edges of the model as they are seen across a plane.
func beyond(solids []hood.Solid, at plane) draw.Layer {
	l := draw.Layer{Name: "beyond", Weight: 0.2, Color: far}
	for _, s := range solids {
		for _, e := range sharpEdges(s) {
			a, _ := at(s.Vertices[e[0]])
			b, _ := at(s.Vertices[e[1]])
			if r2.Norm(r2.Sub(b, a)) > 0.05 {
				l.Paths = append(l.Paths, arc.Polyline(a, b))
			}
		}
	}
	return l
}

// sectionView cuts a little beside the middle, where an opening or a joint may
// lie, and dimensions what a maker lays out: chord and sag, skirt, height,
// depths.
func sectionView(d hood.Design, solids []hood.Solid, style draw.Style) draw.Drawing {
	s := d.Spec
	low, high := r2.Vec{X: -s.Depth, Y: s.Skirt}, r2.Vec{X: -s.Neck.Depth, Y: s.Height}
	dims := draw.Layer{Name: draw.Dims, Weight: 0.3, Color: ink, Dimensions: []draw.Dimension{
		draw.Horizontal(r2.Vec{X: -s.Depth}, r2.Vec{}, -50, style),
		draw.Horizontal(high, r2.Vec{Y: s.Height}, s.Height+50, style),
		draw.Vertical(r2.Vec{}, r2.Vec{Y: s.Height}, 60, style),
	}}
	if s.Skirt > 0 {
		dims.Dimensions = append(dims.Dimensions, draw.Vertical(r2.Vec{X: -s.Depth}, low, -s.Depth-50, style))
	}
	chord := arc.Segment{A: low, B: high}
	if k := 2 * d.Front.Sag / d.Front.Chord; len(d.Front.Arcs) == 0 && d.Front.Sag > 0 && d.Front.Chord > 0 {
		chord.K = k
		if d.Front.Kerfs.Opens || s.Sweep.Shape == "cove" {
			chord.K = -k
		}
		// On this drawing the wall is to the right, so left and right change.
		chord.K = -chord.K
	}
	off := 90.0
	if chord.K < 0 {
		off = -off
	}
	dims.Dimensions = append(dims.Dimensions, draw.ChordSag(chord, off, style))
	return draw.Drawing{
		Title:  "Section through the middle",
		Desc:   "Seen from the right of the hood, the wall at the right.",
		Layers: present([]draw.Layer{beyond(solids, upright(1)), cutLayer(solids, upright(1)), dims}),
	}
}

func frontView(d hood.Design, solids []hood.Solid, style draw.Style) draw.Drawing {
	s := d.Spec
	w, n := s.Width/2, s.Neck.Width/2
	if n == 0 {
		n = w
	}
	front := func(v r3.Vec) (r2.Vec, float64) { return r2.Vec{X: v.X, Y: v.Y}, v.Z }
	dims := draw.Layer{Name: draw.Dims, Weight: 0.3, Color: ink, Dimensions: []draw.Dimension{
		draw.Horizontal(r2.Vec{X: -w}, r2.Vec{X: w}, -50, style),
		draw.Horizontal(r2.Vec{X: s.Neck.Offset - n, Y: s.Height}, r2.Vec{X: s.Neck.Offset + n, Y: s.Height}, s.Height+s.Chimney.Height+50, style),
		draw.Vertical(r2.Vec{X: w}, r2.Vec{X: w, Y: s.Height}, w+60, style),
	}}
	return draw.Drawing{
		Title:  "Front",
		Desc:   "The edges of every part as seen from the front, hidden ones too.",
		Layers: present([]draw.Layer{beyond(solids, front), dims}),
	}
}

func planView(d hood.Design, solids []hood.Solid, style draw.Style) draw.Drawing {
	s := d.Spec
	height := s.Skirt / 2
	if height == 0 {
		height = 10
	}
	dims := draw.Layer{Name: draw.Dims, Weight: 0.3, Color: ink, Dimensions: []draw.Dimension{
		draw.Horizontal(r2.Vec{X: -s.Width / 2, Y: -s.Depth}, r2.Vec{X: s.Width / 2, Y: -s.Depth}, -s.Depth-50, style),
		draw.Vertical(r2.Vec{X: s.Width / 2, Y: -s.Depth}, r2.Vec{X: s.Width / 2}, s.Width/2+60, style),
	}}
	return draw.Drawing{
		Title:  "Plan through the lower end",
		Desc:   "Seen from above, the wall at the top.",
		Layers: present([]draw.Layer{beyond(solids, level(height)), cutLayer(solids, level(height)), dims}),
	}
}
