package plate

import (
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// transformed returns the drawing moved, or mirrored, as m says. Stretches and
// the pose stay behind.
func (p Plate) transformed(m arc.Motion) Plate {
	p.Sides = slices.Clone(p.Sides)
	for i, s := range p.Sides {
		p.Sides[i].Path, p.Sides[i].Back = s.Path.Transform(m), s.Back.Transform(m)
	}
	p.Holes = slices.Clone(p.Holes)
	for i, h := range p.Holes {
		p.Holes[i] = h.Transform(m)
	}
	p.Slots, p.Grooves = transformedSlots(p.Slots, m), transformedSlots(p.Grooves, m)
	p.Marks = slices.Clone(p.Marks)
	for i, k := range p.Marks {
		p.Marks[i].Path = k.Path.Transform(m)
	}
	p.Pockets = slices.Clone(p.Pockets)
	for i, k := range p.Pockets {
		p.Pockets[i].Area, p.Pockets[i].Run = k.Area.Transform(m), k.Run.Transform(m)
	}
	p.Blank = p.Blank.Transform(m)
	return p
}

func transformedSlots(slots []cut.Slot, m arc.Motion) []cut.Slot {
	out := slices.Clone(slots)
	for i, s := range slots {
		out[i].From, out[i].To = m.Apply(s.From), m.Apply(s.To)
	}
	return out
}

// toOrigin returns the drawing moved so that the lower left of its outline is
// 0, 0.
func (p Plate) toOrigin() Plate {
	o, _ := p.outline()
	if len(p.Blank.V) > 0 {
		o = p.Blank
	}
	low := o.Bounds().Min
	p = p.transformed(arc.Shift(r2.Scale(-1, low)))
	p.Bent = slices.Clone(p.Bent)
	for i := range p.Bent {
		p.Bent[i].From -= low.Y
		p.Bent[i].To -= low.Y
	}
	p.Pose.At = p.Pose.Point(low, 0)
	return p
}

// Mirrored returns the plate drawn mirrored in x: the other of a pair.
func (p Plate) Mirrored(panel string) Plate {
	p = p.transformed(arc.MirrorX())
	p.Panel, p.Hand = panel, p.Hand.Other()
	slices.Reverse(p.Sides[1:]) // the bottom stays the first
	other := map[string]string{"left": "right", "right": "left"}
	for i := range p.Sides {
		s := &p.Sides[i]
		s.Path, s.Back = s.Path.Reverse(), s.Back.Reverse()
		if name, ok := other[s.Name]; ok {
			s.Name = name
		}
	}
	for i, h := range p.Holes {
		p.Holes[i] = h.Reverse()
	}
	p.Blank = p.Blank.Reverse()
	return p
}
