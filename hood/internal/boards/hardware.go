package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// addCleat draws the cleat, as seen from the front, and its mate on the wall,
// as seen from behind. Both carry 45 degrees on their longer face.
func (b *builder) addCleat() {
	h, t := b.Cleat.Height, b.t
	if h == 0 {
		return
	}
	top := b.Height - t
	depth := b.t - b.Back.Rabbet
	half := b.cleatHalf()
	if half <= h || depth < 0 {
		if most := 2 * (half + b.Cleat.Short/2 - h); most > 0 {
			b.faults.Add("cleat.short", b.Cleat.Short, "mm", "less than "+b.faults.In.Down(most)+", for strips longer than they are high", spec.ErrPlace)
		} else {
			b.noCleat()
		}
		return
	}
	p := b.board(KindCleat, "", "cleat")
	p.Sides = plate.Rectangle(-half, top-h, half, top, [4]arc.Angle{45 * arc.Degree, 0, 0, 0})
	p.Pose = part.Pose{Right: r3.Vec{X: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: 1}}
	p.Pockets = b.cleatPins(1)
	p.Notes = []string{"screw and glue to the back, 45 degree edge down, its point against the wall"}
	b.add(p)
	q := b.board(KindWallCleat, "", "cleat-wall")
	hook := top - h + t
	q.Sides = plate.Rectangle(-half, hook-h, half, hook, [4]arc.Angle{0, 0, 45 * arc.Degree, 0})
	q.Pose = part.Pose{At: r3.Vec{Z: t}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	q.Notes = []string{"fix level to the framing of the wall, 45 degree edge up, its point away from the wall"}
	b.add(q)
}

// addBlocks draws the corner blocks: triangles in the front corners of the
// skirt, as seen from above, over the liner shelf where there is one.
func (b *builder) addBlocks() {
	leg := b.Blocks.Leg
	if leg == 0 {
		return
	}
	y := 0.0
	if b.Liner.Length > 0 {
		y = b.Liner.Y + b.t
	}
	for _, p := range []arc.Path{b.front.Inner, b.left.Inner, b.right.Inner} {
		if b.Skirt == 0 || len(p.V) > 2 && y+b.t > p.V[1].P.Y {
			b.faults.Add("blocks.leg", leg, "mm", "a skirt with room for the blocks", spec.ErrPlace)
			return
		}
	}
	right := b.board(KindBlock, part.Right, "corner-block-right")
	// Drawn y toward the wall, as the deck: the corner is at 0, 0.
	right.Sides = []plate.Side{
		{Name: "front", Path: arc.Polyline(r2.Vec{X: -leg}, r2.Vec{})},
		{Name: "side", Path: arc.Polyline(r2.Vec{}, r2.Vec{Y: leg})},
		{Name: "long", Path: arc.Polyline(r2.Vec{Y: leg}, r2.Vec{X: -leg})},
	}
	right.Holes = b.blockPins()
	right.Pose = part.Pose{At: r3.Vec{X: b.Width/2 - b.t, Y: y, Z: b.Depth - b.t}, Right: r3.Vec{X: 1}, Up: r3.Vec{Z: -1}, In: r3.Vec{Y: 1}}
	b.add(otherSide(right, "corner-block-left"))
	b.add(right)
}

// addChimney draws the box above the neck. Its front covers the sides and is
// screwed on, so that it can be taken off.
func (b *builder) addChimney() {
	c := b.Chimney
	if c.Height == 0 {
		return
	}
	wide, deep := b.ChimneySize()
	if deep > b.Neck.Depth+rounding {
		b.faults.Add("chimney.depth", deep, "mm", "no deeper than the neck", spec.ErrPlace)
	}
	if wide > b.NeckWidth()+rounding {
		b.faults.Add("chimney.width", wide, "mm", "no wider than the neck", spec.ErrPlace)
	}
	if wide <= 4*b.t || deep <= 2*b.t {
		b.faults.Add("chimney", math.Min(wide, deep), "mm", "more room than its boards take", spec.ErrPlace)
	}
	x, y := b.Neck.Offset, b.Height
	for _, hand := range []float64{-1, 1} {
		p := b.board(KindChimneySide, part.Right, "chimney-right")
		p.Sides = plate.Rectangle(0, 0, deep-b.t, c.Height, [4]arc.Angle{})
		p.Pose = part.Pose{At: r3.Vec{X: wide / 2, Y: y}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
		if hand < 0 {
			p = otherSide(p, "chimney-left")
		}
		p.Pose.At.X += x
		b.add(p)
	}
	p := b.board(KindChimneyFront, "", "chimney-front")
	p.Sides = plate.Rectangle(0, 0, wide, c.Height, [4]arc.Angle{})
	p.Pose = part.Pose{At: r3.Vec{X: x + wide/2, Y: y, Z: deep}, Right: r3.Vec{X: -1}, Up: r3.Vec{Y: 1}, In: r3.Vec{Z: -1}}
	p.Notes = []string{"screw on, do not glue: it comes off to reach the duct"}
	b.add(p)
}

// noCleat adds the fault of strips shorter than they are high, and says which would
// be longer: lower ones, as lower down sides that lean in leave more room.
func (b *builder) noCleat() {
	asked := b.Cleat.Height
	defer func() { b.Cleat.Height = asked }()
	for h := math.Floor(asked); h > 2*b.t; h-- {
		if b.Cleat.Height = h; b.cleatHalf() > h+1 {
			b.faults.Add("cleat.height", asked, "mm", "at most "+b.faults.In.Down(h)+", for strips longer than they are high", spec.ErrPlace)
			return
		}
	}
	b.faults.Add("cleat.height", asked, "mm", "0, as the sides leave no room for strips longer than they are high", spec.ErrPlace)
}
