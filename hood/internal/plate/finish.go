package plate

import (
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// Finish draws the part with its origin at the lower left and works out its
// other faces and its mass. It returns false where a bevel takes all of a
// side.
func (p Plate) Finish() (part.Part, bool) {
	p = p.toOrigin()
	t := p.Thickness
	for i := range p.Sides {
		if fallsBack(p.Sides[i].Bevel, t) < rise.AtLine { // rounding of a square edge
			p.Sides[i].Bevel = 0
		}
	}
	f, ok := p.faces()
	if !ok {
		return part.Part{}, false
	}
	ply := len(p.Blank.V) > 0
	if ply {
		f.show, f.back, f.blank = p.Blank, p.Blank.Clone(), p.Blank.Clone()
	}
	out := part.Part{
		Part: sheet.Part{
			Name: p.Name(), Qty: 1, Material: p.Material, Thickness: t,
			Outline: arc.Region{Outer: f.show, Holes: p.Holes}, Grain: p.Grain, Turns: sheet.RightAngles,
		},
		Kind: p.Kind, Hand: p.Hand, Panel: p.Panel, Ply: p.Ply,
		Back: arc.Region{Outer: f.back, Holes: clonePaths(p.Holes)}, Blank: arc.Region{Outer: f.blank, Holes: clonePaths(p.Holes)},
		Kerfs: slices.Clone(p.Kerfs), Bent: slices.Clone(p.Bent),
		Work: p.work(), Label: p.Name() + p.Label, Notes: p.Notes, Marks: p.Marks, Pose: p.Pose, Cells: p.Cells,
	}
	if ply {
		out.Notes = append(slices.Clone(out.Notes), p.trimNote())
	}
	p.setEdges(&out)
	// The area at a depth is a polynomial of second degree in it, or all but,
	// so that Simpson's rule is exact.
	mid := arc.Region{Outer: f.mid, Holes: p.Holes}.Area()
	if p.ruled() && !ply {
		mid = out.AreaAt(t / 2)
	}
	show, back := out.Outline.Area(), out.Back.Area()
	if ply {
		show, mid, back = p.trimmedAreas()
	}
	volume := t * (show + 4*mid + back) / 6
	out.Mass = (volume - p.cutAway(out)) * p.Density * 1e-9
	return out, true
}

// work returns the grooves with their run-out: a slot leaves the part by half
// its width, which is where a cutter as wide stands clear.
func (p Plate) work() cut.Work {
	var w cut.Work
	for _, s := range p.Slots {
		out := r2.Scale(s.Width/2, r2.Unit(r2.Sub(s.To, s.From)))
		w.Slots = append(w.Slots, cut.Slot{From: r2.Sub(s.From, out), To: r2.Add(s.To, out), Width: s.Width, Depth: s.Depth})
	}
	w.Slots = append(w.Slots, p.Grooves...)
	for _, k := range p.Pockets {
		w.Pockets = append(w.Pockets, cut.Pocket{Area: k.Run, Depth: k.Depth})
	}
	return w
}

func clonePaths(ps []arc.Path) []arc.Path {
	out := make([]arc.Path, len(ps))
	for i := range ps {
		out[i] = ps[i].Clone()
	}
	return out
}
