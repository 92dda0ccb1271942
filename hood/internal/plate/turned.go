package plate

import (
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r3"
)

// Undercuts reports whether a cutter from above cannot make some of the sides.
func (p Plate) Undercuts() bool {
	return slices.ContainsFunc(p.Sides, func(s Side) bool { return undercut(s.Bevel) && fallsBack(s.Bevel, p.Thickness) >= leastLean })
}

// leastLean is how far a side may lean over its thickness and still be cut
// square, mm: that of package cut.
const leastLean = 0.01

// Turned returns the plate drawn with its other face down, each side under the
// name it had, or false where that is no remedy: where something is cut into one
// face, or where a side would undercut then.
func (p Plate) Turned() (Plate, bool) {
	if len(p.Slots)+len(p.Grooves)+len(p.Pockets)+len(p.Kerfs)+len(p.Bent)+len(p.Blank.V) > 0 || p.ruled() || p.Cells {
		return p, false
	}
	f, ok := p.faces()
	if !ok {
		return p, false
	}
	p.Sides = slices.Clone(p.Sides)
	at := 0
	for i := range p.Sides {
		n := len(p.Sides[i].Path.V) - 1
		p.Sides[i].Path, p.Sides[i].Bevel = stretch(f.back, at, n), -p.Sides[i].Bevel
		at += n
	}
	if p.Undercuts() {
		return p, false
	}
	p = p.transformed(arc.MirrorX())
	slices.Reverse(p.Sides[1:]) // the bottom stays the first
	for i, s := range p.Sides {
		p.Sides[i].Path = s.Path.Reverse()
	}
	for i, h := range p.Holes {
		p.Holes[i] = h.Reverse()
	}
	p.Pose.At = r3.Add(p.Pose.At, r3.Scale(p.Thickness, p.Pose.In))
	p.Pose.Right, p.Pose.In = r3.Scale(-1, p.Pose.Right), r3.Scale(-1, p.Pose.In)
	return p, true
}
