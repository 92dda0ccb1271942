package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// blank draws the blank of a sweep between two edges, both drawn outward from
// x = 0: one goes to the left of the drawing, one to the right. Bevels tell
// what each edge has.
func (b *builder) blank(kind part.Kind, hand part.Hand, name string, s curve.Section, left, right seamEdge) plate.Plate {
	p := b.board(kind, hand, name)
	p.Cells = true
	mirror := arc.MirrorX()
	l := seamEdge{show: left.show.Transform(mirror).Reverse(), back: left.back.Transform(mirror).Reverse()}
	ends := func(p arc.Path) (a, b r2.Vec) { return p.V[0].P, p.V[len(p.V)-1].P }
	lHigh, lLow := ends(l.show)
	rLow, rHigh := ends(right.show)
	blHigh, blLow := ends(l.back)
	brLow, brHigh := ends(right.back)
	p.Sides = []plate.Side{
		{Name: "bottom", Path: arc.Polyline(lLow, rLow), Bevel: s.Lower, Back: arc.Polyline(blLow, brLow)},
		{Name: "right", Path: right.show, Bevel: right.bevel, Back: right.back, Saw: right.saw},
		{Name: "top", Path: arc.Polyline(rHigh, lHigh), Bevel: s.Upper, Back: arc.Polyline(brHigh, blHigh)},
		{Name: "left", Path: l.show, Bevel: left.bevel, Back: l.back, Saw: left.saw},
	}
	p.Kerfs = s.Plan.Kerfs
	for _, k := range s.Plan.Kerfs {
		from, to := math.Inf(1), math.Inf(-1) // over the whole width of the kerf
		for _, y := range [3]float64{k.At - b.Bend.KerfWidth/2, k.At, k.At + b.Bend.KerfWidth/2} {
			from, to = math.Min(from, rise.OutAt(l.show, y)), math.Max(to, rise.OutAt(right.show, y))
		}
		p.Slots = append(p.Slots, b.kerf(k.At, from, to))
	}
	return p
}

// kerf returns the kerf across a blank at a height.
func (b *builder) kerf(at, from, to float64) cut.Slot {
	return cut.Slot{
		From: r2.Vec{X: from, Y: at}, To: r2.Vec{X: to, Y: at},
		Width: b.Bend.KerfWidth, Depth: b.t - b.Bend.Web,
	}
}

// pose returns where a front panel's blank begins to bend.
func panelPose(s curve.Section, right float64) part.Pose {
	e := s.Sweep.V[0].P
	in, _ := rise.EndNormals(s.Sweep.Segment(0))
	return part.Pose{
		At:    r3.Vec{X: right, Y: e.Y, Z: e.X},
		Right: r3.Vec{X: -1},
		Up:    r3.Vec{Y: -in.X, Z: in.Y},
		In:    r3.Vec{Y: in.Y, Z: in.X},
	}
}
