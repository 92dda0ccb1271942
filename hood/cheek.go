package hood

import (
	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// sides makes the left and the right side, each plumb or flared.
func (b *builder) sides() {
	cheek := b.cheek()
	if b.left.flared() {
		b.addFlared(Left, b.left)
	} else {
		b.add(cheek)
	}
	if b.right.flared() {
		b.addFlared(Right, b.right)
		return
	}
	right := cheek.mirrored("cheek-right")
	right.pose = Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
	b.add(right)
}

// frontBevel returns the bevel between front and cheeks.
func (b *builder) frontBevel() arc.Angle {
	if b.corner() == "miter" {
		return 45 * arc.Degree
	}
	return 0
}

// frontWidth returns the width of skirt and sweep.
func (b *builder) frontWidth() float64 {
	if b.corner() == "cheek-covers" {
		return b.Width - 2*b.t
	}
	return b.Width
}

// backFace returns how far from the wall the front face of the back stands:
// behind it is the back, and the cleat where there is one.
func (s Spec) backFace() float64 {
	if s.Cleat.Height > 0 {
		return s.Back.Thickness + s.Board.Thickness
	}
	return s.Back.Thickness
}

// cheek draws the left cheek: x to the wall, y up.
func (b *builder) cheek() plate {
	p := b.board(KindCheek, Left, "cheek-left")
	p.cells = true
	edge := b.front.Show
	if b.corner() == "front-covers" {
		edge = b.front.Inner
	}
	// Mirrored in x, the front's path runs down the left side.
	edgeUp := edge
	edge = edge.Transform(arc.MirrorX()).Reverse()
	n := len(edge.V) - 1
	high, low := edge.V[0].P, edge.V[n].P
	h, a := b.Height, b.Scribe.Allowance
	p.sides = []side{
		{name: "bottom", path: arc.Polyline(low, r2.Vec{X: a})},
		{name: "back", path: arc.Polyline(r2.Vec{X: a}, r2.Vec{X: a, Y: h})},
		{name: "top", path: arc.Polyline(r2.Vec{X: a, Y: h}, high)},
		{name: "front", path: edge, bevel: b.frontBevel()},
	}
	// A bevel may take a whole arc at the fold; and where the front leans out
	// its back runs on straight below its show face, as the flat blank does.
	if _, ok := p.faces(); !ok || b.frontBevel() > 0 && len(b.front.Inner.V) > len(b.front.Show.V) {
		b.innerEdges(&p)
	}
	p.pose = Pose{At: r3.Vec{X: -b.Width / 2}, Right: r3.Vec{Z: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: 1}}
	p.grooves = b.dadoes(edgeUp)
	p.marks = b.scribeMarks(0, h, func(y float64) float64 { return y })
	if b.Back.Rabbet > 0 {
		p.pockets = b.rearRabbet(h)
		for i, k := range p.pockets {
			m := arc.MirrorX()
			p.pockets[i].area, p.pockets[i].run = k.area.Transform(m), k.run.Transform(m)
		}
	}
	return p
}

// innerEdges gives a mitered cheek the inner face of the front as the edge of
// its back.
func (b *builder) innerEdges(p *plate) {
	inner := b.front.Inner.Transform(arc.MirrorX()).Reverse()
	n := len(inner.V) - 1
	for i := range p.sides {
		p.sides[i].back = p.sides[i].path.Clone()
	}
	p.sides[0].back.V[0].P = inner.V[n].P
	p.sides[2].back.V[1].P = inner.V[0].P
	p.sides[3].back = inner
}

// runOut returns how far a groove leaves a part: as wide as the cutter for
// outlines, which so finds room in any groove, and stands clear at its ends.
func (b *builder) runOut() float64 { return b.Cut.Tool }
