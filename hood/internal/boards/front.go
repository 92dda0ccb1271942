package boards

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r3"
)

func (b *builder) skirtPlate() plate.Plate {
	p := b.board(KindSkirt, "", "skirt")
	p.Cells = true
	w, m := b.frontWidth(), b.frontBevel()
	p.Sides = plate.Rectangle(0, 0, w, b.Skirt, [4]arc.Angle{0, m, b.front.Curve.SkirtBevel, m})
	p.Pose = part.Pose{At: r3.Vec{X: w / 2, Z: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	return p
}

// sweepPlate draws the blank of a sweep between cheeks, x to the left as one
// faces the hood, y up along the blank.
func (b *builder) sweepPlate() plate.Plate {
	p := b.board(KindSweep, "", "sweep")
	p.Cells = true
	w, m, f := b.frontWidth(), b.frontBevel(), b.front
	p.Sides = plate.Rectangle(0, 0, w, f.Curve.FlatLength, [4]arc.Angle{f.Lower, m, f.Upper, m})
	p.Pose = panelPose(f, w/2)
	p.Kerfs = f.Plan.Kerfs
	for _, k := range f.Plan.Kerfs {
		p.Slots = append(p.Slots, b.kerf(k.At, 0, w))
	}
	return p
}

// front panels between cheeks: the sweep, or its plies.
func (b *builder) sweepPlates() []plate.Plate {
	if b.front.Plies == 0 {
		return []plate.Plate{b.sweepPlate()}
	}
	edge := plumbEdge(b.frontWidth(), b.frontBevel())
	return b.rolled("", "sweep", b.front, edge, edge, panelPose(b.front, 0))
}
