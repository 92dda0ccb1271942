package hood

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// blank draws the blank of a sweep between two edges, both drawn outward from
// x = 0: one goes to the left of the drawing, one to the right. Bevels tell
// what each edge has.
func (b *builder) blank(kind Kind, hand Hand, name string, s curve.Section, left, right seamEdge) plate {
	p := b.board(kind, hand, name)
	p.cells = true
	mirror := arc.MirrorX()
	l := seamEdge{show: left.show.Transform(mirror).Reverse(), back: left.back.Transform(mirror).Reverse()}
	ends := func(p arc.Path) (a, b r2.Vec) { return p.V[0].P, p.V[len(p.V)-1].P }
	lHigh, lLow := ends(l.show)
	rLow, rHigh := ends(right.show)
	blHigh, blLow := ends(l.back)
	brLow, brHigh := ends(right.back)
	p.sides = []side{
		{name: "bottom", path: arc.Polyline(lLow, rLow), bevel: s.Lower, back: arc.Polyline(blLow, brLow)},
		{name: "right", path: right.show, bevel: right.bevel, back: right.back, saw: right.saw},
		{name: "top", path: arc.Polyline(rHigh, lHigh), bevel: s.Upper, back: arc.Polyline(brHigh, blHigh)},
		{name: "left", path: l.show, bevel: left.bevel, back: l.back, saw: left.saw},
	}
	p.kerfs = s.Plan.Kerfs
	for _, k := range s.Plan.Kerfs {
		from, to := math.Inf(1), math.Inf(-1) // over the whole width of the kerf
		for _, y := range [3]float64{k.At - b.Bend.KerfWidth/2, k.At, k.At + b.Bend.KerfWidth/2} {
			from, to = math.Min(from, rise.OutAt(l.show, y)), math.Max(to, rise.OutAt(right.show, y))
		}
		p.slots = append(p.slots, b.kerf(k.At, from, to))
	}
	return p
}

// flaredFront draws the front sweep between two corners, as seen from inside:
// the hood's left is on the right.
func (b *builder) flaredFront() plate {
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return straightEdge(b.front, b.Width/2, b.t)
		}
		return f.front
	}
	p := b.blank(KindSweep, "", "sweep-front", b.front, edge(b.right), edge(b.left))
	p.pose = panelPose(b.front, 0)
	for _, f := range []flare{b.left, b.right} {
		if f.flared() && f.varies() {
			p.notes = append(p.notes, b.seamNote(f))
		}
	}
	return p
}

// flaredSide draws the sweep of the right side as seen from inside: the wall on
// the left.
func (b *builder) flaredSide(f flare) plate {
	low, high := f.side.back.V[0].P.Y, f.side.back.V[len(f.side.back.V)-1].P.Y
	p := b.blank(KindSweep, Right, "sweep-right", f.Section, b.rear(0, f.Curve.FlatLength, low, high), f.side)
	in, _ := rise.EndNormals(f.Sweep.Segment(0))
	p.pose = Pose{
		At: r3.Vec{X: b.Width / 2, Y: b.Skirt}, Right: r3.Vec{Z: 1},
		Up: r3.Vec{X: in.Y, Y: -in.X}, In: r3.Vec{X: in.X, Y: in.Y},
	}
	if f.varies() {
		p.notes = append(p.notes, b.seamNote(f))
	}
	p.pockets = b.rearRabbet(f.Curve.FlatLength)
	p.marks = mirroredMarks(b.scribeMarks(b.Skirt, b.Height, func(y float64) float64 { return f.OnBlank(f.Developed(y)) }))
	return p
}

// rearRabbet returns the rabbet for the back along x = 0, the part lying to
// the right of it.
func (b *builder) rearRabbet(height float64) []recess {
	r, tb, out, a := b.Back.Rabbet, b.backFace(), b.runOut(), b.Scribe.Allowance
	if r == 0 {
		return nil
	}
	return []recess{{
		region(arc.Rect(-a, 0, tb, height), nil), region(arc.Rect(-a-out, -out, tb, height+out), nil), r,
	}}
}

// sideSkirt draws the skirt of the right side as seen from inside.
func (b *builder) sideSkirt(f flare) plate {
	rear := b.rear(0, b.Skirt, 0, b.Skirt-b.t*math.Tan(float64(f.Lower)))
	p := b.blank(KindSkirt, Right, "skirt-right", f.Section.Band(b.Skirt), rear, f.band[1])
	p.pose = Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
	p.pockets = b.rearRabbet(b.Skirt)
	p.marks = mirroredMarks(b.scribeMarks(0, b.Skirt, func(y float64) float64 { return y }))
	return p
}

// frontSkirt draws the skirt between two corners of which one is flared.
func (b *builder) frontSkirt() plate {
	s := b.front.Band(b.Skirt)
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return straightEdge(s, b.Width/2, b.t)
		}
		return f.band[0]
	}
	p := b.blank(KindSkirt, "", "skirt-front", s, edge(b.right), edge(b.left))
	p.pose = Pose{At: r3.Vec{Z: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	return p
}

// otherSide mirrors a part of the right side into the plane x = 0.
func otherSide(p plate, panel string) plate {
	q := p.mirrored(panel)
	flip := func(v r3.Vec) r3.Vec { v.X = -v.X; return v }
	q.pose = Pose{At: flip(p.pose.At), Right: r3.Scale(-1, flip(p.pose.Right)), Up: flip(p.pose.Up), In: flip(p.pose.In)}
	return q
}
