package boards

import (
	"math"

	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r3"
)

// flaredFront draws the front sweep between two corners, as seen from inside:
// the hood's left is on the right.
func (b *builder) flaredFront() plate.Plate {
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return straightEdge(b.front, b.Width/2, b.t)
		}
		return f.front
	}
	p := b.blank(KindSweep, "", "sweep-front", b.front, edge(b.right), edge(b.left))
	p.Pose = panelPose(b.front, 0)
	for _, f := range []flare{b.left, b.right} {
		if f.flared() && f.varies() {
			p.Notes = append(p.Notes, b.seamNote(f))
		}
	}
	return p
}

// flaredSide draws the sweep of the right side as seen from inside: the wall on
// the left.
func (b *builder) flaredSide(f flare) plate.Plate {
	low, high := f.side.back.V[0].P.Y, f.side.back.V[len(f.side.back.V)-1].P.Y
	p := b.blank(KindSweep, part.Right, "sweep-right", f.Section, b.rear(0, f.Curve.FlatLength, low, high), f.side)
	in, _ := rise.EndNormals(f.Sweep.Segment(0))
	p.Pose = part.Pose{
		At: r3.Vec{X: b.Width / 2, Y: b.Skirt}, Right: r3.Vec{Z: 1},
		Up: r3.Vec{X: in.Y, Y: -in.X}, In: r3.Vec{X: in.X, Y: in.Y},
	}
	if f.varies() {
		p.Notes = append(p.Notes, b.seamNote(f))
	}
	p.Pockets = b.rearRabbet(f.Curve.FlatLength)
	p.Marks = mirroredMarks(b.scribeMarks(b.Skirt, b.Height, func(y float64) float64 { return f.OnBlank(f.Developed(y)) }))
	return p
}

// sideSkirt draws the skirt of the right side as seen from inside.
func (b *builder) sideSkirt(f flare) plate.Plate {
	rear := b.rear(0, b.Skirt, 0, b.Skirt-b.t*math.Tan(float64(f.Lower)))
	p := b.blank(KindSkirt, part.Right, "skirt-right", f.Section.Band(b.Skirt), rear, f.band[1])
	p.Pose = part.Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
	p.Pockets = b.rearRabbet(b.Skirt)
	p.Marks = mirroredMarks(b.scribeMarks(0, b.Skirt, func(y float64) float64 { return y }))
	return p
}

// frontSkirt draws the skirt between two corners of which one is flared.
func (b *builder) frontSkirt() plate.Plate {
	s := b.front.Band(b.Skirt)
	edge := func(f flare) seamEdge {
		if !f.flared() {
			return straightEdge(s, b.Width/2, b.t)
		}
		return f.band[0]
	}
	p := b.blank(KindSkirt, "", "skirt-front", s, edge(b.right), edge(b.left))
	p.Pose = part.Pose{At: r3.Vec{Z: b.Depth}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	return p
}

// otherSide mirrors a part of the right side into the plane x = 0.
func otherSide(p plate.Plate, panel string) plate.Plate {
	q := p.Mirrored(panel)
	flip := func(v r3.Vec) r3.Vec { v.X = -v.X; return v }
	q.Pose = part.Pose{At: flip(p.Pose.At), Right: r3.Scale(-1, flip(p.Pose.Right)), Up: flip(p.Pose.Up), In: flip(p.Pose.In)}
	return q
}
