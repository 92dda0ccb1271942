package hood

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// rectangle returns the sides of a rectangle with one bevel each: bottom,
// right, top, left.
func rectangle(x0, y0, x1, y1 float64, bevels [4]arc.Angle) []side {
	c := [5]r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x0, Y: y0}}
	names := [4]string{"bottom", "right", "top", "left"}
	out := make([]side, 4)
	for i := range out {
		out[i] = side{name: names[i], path: arc.Polyline(c[i], c[i+1]), bevel: bevels[i]}
	}
	return out
}

func (b *builder) skirtPlate() plate {
	p := b.board(KindSkirt, "", "skirt")
	p.cells = true
	w, m := b.frontWidth(), b.frontBevel()
	p.sides = rectangle(0, 0, w, b.Skirt, [4]arc.Angle{0, m, b.front.Curve.SkirtBevel, m})
	p.pose = Pose{At: r3.Vec{X: w / 2, Z: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	return p
}

// sweepPlate draws the blank of a sweep between cheeks, x to the left as one
// faces the hood, y up along the blank.
func (b *builder) sweepPlate() plate {
	p := b.board(KindSweep, "", "sweep")
	p.cells = true
	w, m, f := b.frontWidth(), b.frontBevel(), b.front
	p.sides = rectangle(0, 0, w, f.Curve.FlatLength, [4]arc.Angle{f.Lower, m, f.Upper, m})
	p.pose = panelPose(f, w/2)
	p.kerfs = f.Plan.Kerfs
	for _, k := range f.Plan.Kerfs {
		p.slots = append(p.slots, b.kerf(k.At, 0, w))
	}
	return p
}

// front panels between cheeks: the sweep, or its plies.
func (b *builder) sweepPlates() []plate {
	if b.front.Plies == 0 {
		return []plate{b.sweepPlate()}
	}
	edge := plumbEdge(b.frontWidth(), b.frontBevel())
	return b.rolled("", "sweep", b.front, edge, edge, panelPose(b.front, 0))
}

// kerf returns the kerf across a blank at a height.
func (b *builder) kerf(at, from, to float64) cut.Slot {
	return cut.Slot{
		From: r2.Vec{X: from, Y: at}, To: r2.Vec{X: to, Y: at},
		Width: b.Bend.KerfWidth, Depth: b.t - b.Bend.Web,
	}
}

// pose returns where a front panel's blank begins to bend.
func panelPose(s curve.Section, right float64) Pose {
	e := s.Sweep.V[0].P
	in, _ := rise.EndNormals(s.Sweep.Segment(0))
	return Pose{
		At:    r3.Vec{X: right, Y: e.Y, Z: e.X},
		Right: r3.Vec{X: -1},
		Up:    r3.Vec{Y: -in.X, Z: in.Y},
		In:    r3.Vec{Y: in.Y, Z: in.X},
	}
}
