package hood

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// A side is a stretch of a part's outline with one bevel.
type side struct {
	name  string
	path  arc.Path // open; the next side begins where it ends
	bevel arc.Angle
	back  arc.Path // its edge on the back face, where that does not follow from the bevel
	saw   bool     // the bevel changes along it, which takes a saw or a plane
}

// A recess is a pocket: the area it takes from the part, and the area to run
// the cutter over.
type recess struct {
	area, run arc.Region
	depth     float64
}

// A plate is a part in the making, in any coordinates in which its sides run
// counter-clockwise as the machine sees it.
type plate struct {
	kind      Kind
	hand      Hand
	panel     string // its name, or that of the panel it is a ply of
	ply       int    // from 1, where it is a ply
	material  string
	label     string // what to write after its name
	thickness float64
	density   float64
	grain     sheet.Grain
	sides     []side
	holes     []arc.Path // clockwise
	slots     []cut.Slot // kerfs, from edge to edge
	grooves   []cut.Slot // dadoes, from edge to edge
	pockets   []recess
	kerfs     []bend.Kerf
	pose      Pose // of the coordinates the plate is drawn in
	notes     []string
	marks     []Mark
	bent      []Stretch
	blank     arc.Path // of a ply, what is cut: the sides are those of the glued panel
	cells     bool     // bottom, right, top and left, with grooves along and across
}

// name returns the name of the part.
func (p plate) name() string {
	if p.ply == 0 {
		return p.panel
	}
	return fmt.Sprintf("%s-ply-%d", p.panel, p.ply)
}

func (s side) undercuts() bool { return s.bevel < 0 }

func region(o arc.Path, h []arc.Path) arc.Region { return arc.Region{Outer: o, Holes: h} }

// finish draws the part with its origin at the lower left and works out its
// other faces and its mass. It returns false where a bevel takes all of a
// side.
func (p plate) finish() (Part, bool) {
	p.toOrigin()
	t := p.thickness
	for i := range p.sides {
		if fallsBack(p.sides[i].bevel, t) < rise.AtLine { // rounding of a square edge
			p.sides[i].bevel = 0
		}
	}
	f, ok := p.faces()
	if !ok {
		return Part{}, false
	}
	ply := len(p.blank.V) > 0
	if ply {
		f.show, f.back, f.blank = p.blank, p.blank.Clone(), p.blank.Clone()
	}
	out := Part{
		Part: sheet.Part{
			Name: p.name(), Qty: 1, Material: p.material, Thickness: t,
			Outline: region(f.show, p.holes), Grain: p.grain, Turns: sheet.RightAngles,
		},
		Kind: p.kind, Hand: p.hand, Panel: p.panel, Ply: p.ply,
		Back: region(f.back, clonePaths(p.holes)), Blank: region(f.blank, clonePaths(p.holes)),
		Kerfs: slices.Clone(p.kerfs), Bent: slices.Clone(p.bent),
		Work: p.work(), Label: p.name() + p.label, Notes: p.notes, Marks: p.marks, Pose: p.pose, Cells: p.cells,
	}
	if ply {
		out.Notes = append(slices.Clone(out.Notes), p.trimNote())
	}
	p.setEdges(&out)
	// The area at a depth is a polynomial of second degree in it, or all but,
	// so that Simpson's rule is exact.
	mid := region(f.mid, p.holes).Area()
	if p.ruled() && !ply {
		mid = out.AreaAt(t / 2)
	}
	show, back := out.Outline.Area(), out.Back.Area()
	if ply {
		show, mid, back = p.trimmedAreas()
	}
	volume := t * (show + 4*mid + back) / 6
	out.Mass = (volume - p.cutAway(out)) * p.density * 1e-9
	return out, true
}

// fallsBack returns by how much an edge leaves square over a thickness.
func fallsBack(bevel arc.Angle, thickness float64) float64 {
	return math.Abs(math.Tan(float64(bevel))) * thickness
}

// setEdges names the stretches of both outlines of the part.
func (from plate) setEdges(p *Part) {
	at := 0
	for i, s := range from.sides {
		n := len(s.path.V) - 1
		e := Edge{Name: s.name, Show: s.path.Clone(), Back: s.back.Clone(), Bevel: s.bevel, Saw: s.bevel < 0 || s.saw}
		if fallsBack(s.bevel, from.thickness) < curve.Flat {
			e.Saw = false
		}
		switch {
		case e.Saw && s.saw:
			e.Why = "its bevel changes along it"
		case e.Saw:
			e.Why = "undercuts"
		}
		if !from.ruled() {
			e.Back = stretch(p.Back.Outer, at, n)
		}
		p.Edges = append(p.Edges, e)
		if s.bevel > 0 && !s.saw && fallsBack(s.bevel, from.thickness) >= curve.Flat {
			p.Work.Bevels = append(p.Work.Bevels, cut.Bevel{Name: s.name, Edge: from.bevelRun(p, i, at), Angle: s.bevel})
		}
		at += n
	}
}

// bevelRun returns the way of a bevel on the blank. Where a neighbor undercuts
// the blank goes on past the show face, and so must the bevel.
func (from plate) bevelRun(p *Part, i, at int) arc.Path {
	s := from.sides[i]
	if !from.ruled() {
		return stretch(p.Blank.Outer, at, len(s.path.V)-1)
	}
	right, left := from.ruledUprights()
	switch i {
	case 1:
		return right.Clone()
	case 3:
		return left.Clone()
	}
	return s.path.Clone()
}

// stretch returns n segments of a closed path as an open one.
func stretch(p arc.Path, at, n int) arc.Path {
	out := arc.Path{V: append([]arc.Vertex{}, p.V[at:at+n]...)}
	out.V = append(out.V, arc.Vertex{P: p.V[(at+n)%len(p.V)].P})
	return out
}

// work returns the grooves with their run-out: a slot leaves the part by half
// its width, which is where a cutter as wide stands clear.
func (p plate) work() cut.Work {
	var w cut.Work
	for _, s := range p.slots {
		out := r2.Scale(s.Width/2, r2.Unit(r2.Sub(s.To, s.From)))
		w.Slots = append(w.Slots, cut.Slot{From: r2.Sub(s.From, out), To: r2.Add(s.To, out), Width: s.Width, Depth: s.Depth})
	}
	w.Slots = append(w.Slots, p.grooves...)
	for _, k := range p.pockets {
		w.Pockets = append(w.Pockets, cut.Pocket{Area: k.run, Depth: k.depth})
	}
	return w
}

// toOrigin moves the drawing so that the lower left of its outline is 0, 0.
func (p *plate) toOrigin() {
	o, _ := p.outline()
	if len(p.blank.V) > 0 {
		o = p.blank
	}
	low := o.Bounds().Min
	m := arc.Shift(r2.Scale(-1, low))
	p.sides, p.slots, p.pockets = slices.Clone(p.sides), slices.Clone(p.slots), slices.Clone(p.pockets)
	p.grooves = slices.Clone(p.grooves)
	for i := range p.sides {
		p.sides[i].path = p.sides[i].path.Transform(m)
		p.sides[i].back = p.sides[i].back.Transform(m)
	}
	p.holes = clonePaths(p.holes)
	for i := range p.holes {
		p.holes[i] = p.holes[i].Transform(m)
	}
	for i := range p.slots {
		p.slots[i].From, p.slots[i].To = m.Apply(p.slots[i].From), m.Apply(p.slots[i].To)
	}
	for i := range p.grooves {
		p.grooves[i].From, p.grooves[i].To = m.Apply(p.grooves[i].From), m.Apply(p.grooves[i].To)
	}
	p.marks = slices.Clone(p.marks)
	for i := range p.marks {
		p.marks[i].Path = p.marks[i].Path.Transform(m)
	}
	for i := range p.pockets {
		k := &p.pockets[i]
		k.area, k.run = k.area.Transform(m), k.run.Transform(m)
	}
	p.blank = p.blank.Transform(m)
	p.bent = slices.Clone(p.bent)
	for i := range p.bent {
		p.bent[i].From -= low.Y
		p.bent[i].To -= low.Y
	}
	p.pose.At = p.pose.Point(low, 0)
}

// mirrored returns the plate drawn mirrored in x: the other of a pair.
func (p plate) mirrored(panel string) plate {
	m := arc.MirrorX()
	q := p
	q.panel, q.hand = panel, p.hand.Other()
	q.sides = nil
	for i := len(p.sides) - 1; i >= 0; i-- {
		s := p.sides[i]
		s.path = s.path.Transform(m).Reverse()
		s.back = s.back.Transform(m).Reverse()
		switch s.name {
		case "left":
			s.name = "right"
		case "right":
			s.name = "left"
		}
		q.sides = append(q.sides, s)
	}
	// The bottom stays the first.
	last := len(q.sides) - 1
	q.sides = append(q.sides[last:], q.sides[:last]...)
	if len(p.blank.V) > 0 {
		q.blank = p.blank.Transform(m).Reverse()
	}
	q.holes = nil
	for _, h := range p.holes {
		q.holes = append(q.holes, h.Transform(m).Reverse())
	}
	q.slots = nil
	for _, s := range p.slots {
		q.slots = append(q.slots, cut.Slot{From: m.Apply(s.From), To: m.Apply(s.To), Width: s.Width, Depth: s.Depth})
	}
	q.grooves = nil
	for _, s := range p.grooves {
		q.grooves = append(q.grooves, cut.Slot{From: m.Apply(s.From), To: m.Apply(s.To), Width: s.Width, Depth: s.Depth})
	}
	q.marks = nil
	for _, k := range p.marks {
		q.marks = append(q.marks, Mark{Name: k.Name, Path: k.Path.Transform(m)})
	}
	q.pockets = nil
	for _, k := range p.pockets {
		q.pockets = append(q.pockets, recess{k.area.Transform(m), k.run.Transform(m), k.depth})
	}
	return q
}

func clonePaths(ps []arc.Path) []arc.Path {
	out := make([]arc.Path, len(ps))
	for i := range ps {
		out[i] = ps[i].Clone()
	}
	return out
}
