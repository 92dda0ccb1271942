package boards

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// backPlate draws the back as seen from the wall: x to the left as one faces
// the hood. It reaches the floors of the rabbets less the clearance.
func (b *builder) backPlate() plate.Plate {
	depth := b.t - b.Back.Rabbet + b.Back.Clearance
	right := b.inside(b.right, b.RightEnds(), depth).Transform(arc.MirrorX())
	left := b.inside(b.left, b.LeftEnds(), depth)
	first, last := func(p arc.Path) r2.Vec { return p.V[0].P }, func(p arc.Path) r2.Vec { return p.V[len(p.V)-1].P }
	p := plate.Plate{
		Kind: KindBack, Panel: "back", Material: b.Back.Material, Thickness: b.Back.Thickness,
		Density: spec.Density(b.Back.Material, b.Back.Density),
		Sides: []plate.Side{
			{Name: "bottom", Path: arc.Polyline(first(right), first(left))},
			{Name: "right", Path: left},
			{Name: "top", Path: arc.Polyline(last(left), last(right))},
			{Name: "left", Path: right.Reverse()},
		},
		Pose: part.Pose{At: r3.Vec{Z: b.BackFace()}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}},
	}
	for _, o := range b.Back.Openings {
		p.Holes = append(p.Holes, o.Loop().Reverse())
	}
	b.cutSlots(&p)
	p.Pockets = b.cleatPins(-1)
	return p
}
