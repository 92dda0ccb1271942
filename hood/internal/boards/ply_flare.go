package boards

import (
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r3"
)

// flaredFronts draws the front sweep between two corners, or its plies.
func (b *builder) flaredFronts() []plate.Plate {
	if b.front.Plies == 0 {
		return []plate.Plate{b.flaredFront()}
	}
	edge := func(f flare) plyEdge {
		if !f.flared() {
			return plumbEdge(b.Width, 45*arc.Degree)
		}
		return b.cornerEdge(b.front, f.Section, f.front.bevel, f.front.saw)
	}
	right := edge(b.right)
	left := right
	if !b.alike() {
		left = edge(b.left)
	}
	out := b.rolled("", "sweep-front", b.front, right, left, panelPose(b.front, 0))
	for _, f := range []flare{b.left, b.right} {
		if note := b.seamNote(f); f.flared() && f.varies() && len(out) > 0 && !slices.Contains(out[0].Notes, note) {
			out[0].Notes = append(out[0].Notes, note)
		}
	}
	return out
}

// flaredSides draws the sweep of the right side, or its plies.
func (b *builder) flaredSides(f flare) []plate.Plate {
	if f.Plies == 0 {
		return []plate.Plate{b.flaredSide(f)}
	}
	if b.alike() && b.sidePlies != nil {
		return slices.Clone(b.sidePlies)
	}
	in, _ := rise.EndNormals(f.Sweep.Segment(0))
	out := b.rolled(part.Right, "sweep-right", f.Section, b.rearEdge(), b.cornerEdge(f.Section, b.front, f.side.bevel, f.side.saw), part.Pose{
		At: r3.Vec{X: b.Width / 2, Y: b.Skirt}, Right: r3.Vec{Z: 1},
		Up: r3.Vec{X: in.Y, Y: -in.X}, In: r3.Vec{X: in.X, Y: in.Y},
	})
	for i := range out {
		d0, d1 := f.Depth(b.t, float64(i)), f.Depth(b.t, float64(i+1))
		mid := (d0 + d1) / 2
		if i == 0 && f.varies() {
			out[i].Notes = append(out[i].Notes, b.seamNote(f))
		}
		switch floor := b.t - b.Back.Rabbet; {
		case b.inRabbet(d0):
			out[i].Notes = append(out[i].Notes, "its rear edge is the shoulder of the rabbet for the back: keep it to the line in glue-up")
		case b.inRabbet(d1) && d1-floor > rounding:
			out[i].Pockets = b.plyRabbet(out[i], d1-floor)
		}
		if !b.inRabbet(d0) {
			out[i].Marks = append(out[i].Marks, mirroredMarks(b.scribeMarks(b.Skirt, b.Height, func(y float64) float64 {
				return f.Along(f.Developed(y), mid)
			}))...)
		}
	}
	b.sidePlies = out
	return slices.Clone(out)
}

// alike reports whether both sides are flared and mirror each other.
func (b *builder) alike() bool {
	_, at := b.SweepOfLeft()
	return at == "side_sweep" && b.LeftEnds() == b.RightEnds() && b.RightEnds().Flared()
}

// plyRabbet is the rabbet for the back in a ply that it goes part of the way
// into.
func (b *builder) plyRabbet(p plate.Plate, depth float64) []plate.Recess {
	box, out, a, tb := p.Blank.Bounds(), b.runOut(), b.Scribe.Allowance, b.BackFace()
	e := p.Sides[3].Back.Bounds()
	return []plate.Recess{{
		Area: arc.Region{Outer: arc.Rect(-a, e.Min.Y, tb, e.Max.Y)},
		Run:  arc.Region{Outer: arc.Rect(box.Min.X-out, box.Min.Y-out, tb, box.Max.Y+out)}, Depth: depth,
	}}
}
