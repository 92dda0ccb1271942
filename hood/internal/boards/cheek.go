package boards

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// frontBevel returns the bevel between front and cheeks.
func (b *builder) frontBevel() arc.Angle {
	if b.CornerJoint() == "miter" {
		return 45 * arc.Degree
	}
	return 0
}

// frontWidth returns the width of skirt and sweep.
func (b *builder) frontWidth() float64 {
	if b.CornerJoint() == "cheek-covers" {
		return b.Width - 2*b.t
	}
	return b.Width
}

// cheek draws the left cheek: x to the wall, y up.
func (b *builder) cheek() plate.Plate {
	p := b.board(KindCheek, part.Left, "cheek-left")
	p.Cells = true
	edge := b.front.Show
	if b.CornerJoint() == "front-covers" {
		edge = b.front.Inner
	}
	// Mirrored in x, the front's path runs down the left side.
	edgeUp := edge
	edge = edge.Transform(arc.MirrorX()).Reverse()
	n := len(edge.V) - 1
	high, low := edge.V[0].P, edge.V[n].P
	h, a := b.Height, b.Scribe.Allowance
	p.Sides = []plate.Side{
		{Name: "bottom", Path: arc.Polyline(low, r2.Vec{X: a})},
		{Name: "back", Path: arc.Polyline(r2.Vec{X: a}, r2.Vec{X: a, Y: h})},
		{Name: "top", Path: arc.Polyline(r2.Vec{X: a, Y: h}, high)},
		{Name: "front", Path: edge, Bevel: b.frontBevel()},
	}
	// A bevel may take a whole arc at the fold; and where the front leans out
	// its back runs on straight below its show face, as the flat blank does.
	if !p.Holds() || b.frontBevel() > 0 && len(b.front.Inner.V) > len(b.front.Show.V) {
		b.innerEdges(&p)
	}
	p.Pose = part.Pose{At: r3.Vec{X: -b.Width / 2}, Right: r3.Vec{Z: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: 1}}
	p.Grooves = b.dadoes(edgeUp)
	p.Marks = b.scribeMarks(0, h, func(y float64) float64 { return y })
	if b.Back.Rabbet > 0 {
		p.Pockets = b.rearRabbet(h)
		for i, k := range p.Pockets {
			m := arc.MirrorX()
			p.Pockets[i].Area, p.Pockets[i].Run = k.Area.Transform(m), k.Run.Transform(m)
		}
	}
	return p
}

// innerEdges gives a mitered cheek the inner face of the front as the edge of
// its back.
func (b *builder) innerEdges(p *plate.Plate) {
	inner := b.front.Inner.Transform(arc.MirrorX()).Reverse()
	n := len(inner.V) - 1
	for i := range p.Sides {
		p.Sides[i].Back = p.Sides[i].Path.Clone()
	}
	p.Sides[0].Back.V[0].P = inner.V[n].P
	p.Sides[2].Back.V[1].P = inner.V[0].P
	p.Sides[3].Back = inner
}
