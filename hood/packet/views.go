package packet

import (
	"bytes"
	"fmt"

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

// A sight draws views of a hood on paper.
type sight struct {
	d      hood.Design
	solids []hood.Solid
	style  draw.Style
	scale  float64 // how many mm are 1 mm on paper
}

// scales are those of drawings (ISO 5455).
var scales = []float64{1, 2, 5, 10, 20, 50, 100}

// scaleFor returns the largest scale at which a length has room, or the smallest
// there is.
func scaleFor(length, room float64) float64 {
	for _, n := range scales {
		if length <= n*room {
			return n
		}
	}
	return scales[len(scales)-1]
}

// viewRoom is how wide and high the wood of a view may be on paper, mm, so that
// A4 and Letter hold it with its dimensions.
const viewRoom = 130

// views returns the drawings of the whole hood: a section through the middle,
// the front, and a plan cut through the skirt or the lower end.
func views(d hood.Design, solids []hood.Solid, in say.Format) []view {
	s := d.Spec
	n := scaleFor(max(s.Width, s.Height+s.Chimney.Height, s.Depth), viewRoom)
	v := sight{d, solids, draw.Style{Unit: in.Unit, Fraction: in.Fraction, Scale: n}, n}
	return []view{{"section", v.section()}, {"front", v.front()}, {"side", v.side()}, {"plan", v.plan()}}
}

func (v view) file() (File, error) {
	var b bytes.Buffer
	err := svg.Encode(&b, v.drawing, svg.Options{})
	return File{"drawings/" + v.name + ".svg", b.Bytes()}, err
}

// at returns a point of the hood on paper.
func (v sight) at(x, y float64) r2.Vec { return r2.Vec{X: x / v.scale, Y: y / v.scale} }

// cut returns the wood that a plane cuts.
func (v sight) cut(at plane) draw.Layer {
	l := draw.Layer{Name: "cut wood", Weight: 0.5, Color: ink, Fill: deep}
	for _, s := range v.solids {
		for _, p := range slice(s, at) {
			p = p.Transform(arc.Scale(1 / v.scale))
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

func (v sight) drawing(title, desc string, layers ...draw.Layer) draw.Drawing {
	return draw.Drawing{Title: title, Desc: fmt.Sprintf("%s Scale 1:%.0f.", desc, v.scale), Layers: present(layers)}
}

func dimLayer(d ...draw.Dimension) draw.Layer {
	return draw.Layer{Name: draw.Dims, Weight: 0.25, Color: ink, Dimensions: d}
}

// aside is how far dimension lines stand off the wood, and off each other, mm.
const aside = 9

// section cuts a little beside the middle, where an opening or a joint may lie,
// and dimensions what a maker lays out: chord and sag, skirt, height, depths.
func (v sight) section() draw.Drawing {
	s, d := v.d.Spec, v.d
	low, high := v.at(-s.Depth, s.Skirt), v.at(-s.Neck.Depth, s.Height)
	right := v.at(0, 0).X
	dims := []draw.Dimension{
		draw.Horizontal(v.at(-s.Depth, 0), v.at(0, 0), -aside, v.style),
		draw.Vertical(v.at(0, 0), v.at(0, s.Height), right+3.5*aside, v.style),
		draw.Horizontal(v.at(0, s.Height), high, (s.Height+s.Chimney.Height)/v.scale+aside, v.style),
	}
	if s.Skirt > 0 {
		dims = append(dims, draw.Vertical(low, v.at(-s.Depth, 0), low.X-aside, v.style))
	}
	if s.Chimney.Height > 0 {
		dims = append(dims, draw.Vertical(v.at(0, s.Height), v.at(0, s.Height+s.Chimney.Height), right+aside, v.style))
	}
	chord := arc.Segment{A: low, B: high}
	if len(d.Front.Arcs) == 0 && d.Front.Sag > 0 && d.Front.Chord > 0 {
		chord.K = 2 * d.Front.Sag / d.Front.Chord
		if !d.Front.Kerfs.Opens && s.Sweep.Shape != "cove" { // on this drawing the wall is to the right
			chord.K = -chord.K
		}
	}
	off := 3.0 * aside
	if chord.K < 0 {
		off = -off
	}
	dims = append(dims, draw.ChordSag(chord, off, v.style))
	return v.drawing("Section through the middle", "Seen from the right of the hood, the wall at the right.",
		seen(v.solids, upright(1), 1/v.scale), v.cut(upright(1)), dimLayer(dims...))
}

// front shows the hood from the front, with the sizes that a client knows.
func (v sight) front() draw.Drawing {
	s := v.d.Spec
	w, n := s.Width/2, s.Sizes().NeckWidth()/2
	top := (s.Height + s.Chimney.Height) / v.scale
	dims := []draw.Dimension{
		draw.Horizontal(v.at(-w, 0), v.at(w, 0), -aside, v.style),
		draw.Vertical(v.at(w, 0), v.at(w, s.Height), w/v.scale+aside, v.style),
	}
	if n < w {
		dims = append(dims, draw.Horizontal(v.at(s.Neck.Offset-n, s.Height), v.at(s.Neck.Offset+n, s.Height), top+aside, v.style))
	}
	if s.Chimney.Height > 0 {
		dims = append(dims, draw.Vertical(v.at(w, 0), v.at(w, s.Height+s.Chimney.Height), w/v.scale+2*aside+2, v.style))
	}
	front := func(p r3.Vec) (r2.Vec, float64) { return r2.Vec{X: p.X, Y: p.Y}, p.Z - s.Depth }
	return v.drawing("Front", "As seen from the front; what is hidden is left out.", seen(v.solids, front, 1/v.scale), dimLayer(dims...))
}

// side shows the hood from its right.
func (v sight) side() draw.Drawing {
	s := v.d.Spec
	dims := []draw.Dimension{
		draw.Horizontal(v.at(-s.Depth, 0), v.at(0, 0), -aside, v.style),
		draw.Vertical(v.at(0, 0), v.at(0, s.Height+s.Chimney.Height), aside, v.style),
	}
	if s.Skirt > 0 {
		dims = append(dims, draw.Vertical(v.at(-s.Depth, s.Skirt), v.at(-s.Depth, 0), -s.Depth/v.scale-aside, v.style))
	}
	return v.drawing("Side", "As seen from the right; what is hidden is left out.", seen(v.solids, upright(s.Width), 1/v.scale), dimLayer(dims...))
}

// plan cuts through the skirt, or above the lower end.
func (v sight) plan() draw.Drawing {
	s := v.d.Spec
	height := s.Skirt / 2
	if height == 0 {
		height = 10
	}
	right := s.Width / 2 / v.scale
	return v.drawing("Plan through the lower end", "Seen from above, the wall at the top.",
		seen(v.solids, level(height), 1/v.scale), v.cut(level(height)), dimLayer(
			draw.Horizontal(v.at(-s.Width/2, -s.Depth), v.at(s.Width/2, -s.Depth), -s.Depth/v.scale-aside, v.style),
			draw.Vertical(v.at(s.Width/2, -s.Depth), v.at(s.Width/2, 0), right+aside, v.style)))
}
