package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
)

// cleatPins returns the blind holes of cleat and back: in the one drawn with x
// to the right, hand 1, or to the left, hand -1, with the hood's middle at 0.
func (b *builder) cleatPins(hand float64) []plate.Recess {
	if b.Pins.Diameter == 0 || b.Cleat.Height == 0 {
		return nil
	}
	var out []plate.Recess
	for _, at := range b.cleatSpots() {
		out = append(out, b.blind(r2.Vec{X: hand * at.X, Y: at.Y}))
	}
	if len(out) < 2 && hand > 0 {
		b.faults.Add("pins.diameter", b.Pins.Diameter, "mm", "two places for pins of the cleat, clear of its edges and of what is cut into the back", spec.ErrPlace)
	}
	return out
}

// blind returns a blind hole.
func (b *builder) blind(at r2.Vec) plate.Recess {
	area := arc.Region{Outer: arc.Circle(at, b.Pins.Hole()/2)}
	return plate.Recess{Area: area, Run: area, Depth: b.Pins.Depth}
}

// cleatSpots returns where the pins of the cleat are, x to the right, y up: in
// the middle of what lies against the back, evenly between the ends.
func (b *builder) cleatSpots() []r2.Vec {
	high := b.Cleat.Height - b.t // above the bevel
	y := b.Height - b.t - high/2
	beside := b.Pins.Hole()/2 + b.Wood()
	half := b.cleatHalf() - beside
	if half <= 0 || high/2 < beside {
		return nil
	}
	n := max(1, int(math.Ceil(2*half/b.Pins.Spacing)))
	var out []r2.Vec
	for i := range n + 1 {
		at := r2.Vec{X: half * (2*float64(i)/float64(n) - 1), Y: y}
		if b.pinFits(at) && (i == 0 || 2*half/float64(n) >= 2*b.Pins.Hole()) {
			out = append(out, at)
		}
	}
	return out
}

// pinFits reports whether a hole in the back has wood around it.
func (b *builder) pinFits(at r2.Vec) bool {
	return b.clearOnBack(spec.Opening{Shape: "circle", X: at.X, Y: at.Y, Diameter: b.Pins.Hole() + 2*b.Wood()})
}

// blockSpots returns where the pins of the right corner block are, the corner
// at 0, 0: as far along its two legs as there is wood, and none where they
// would be less than two holes apart, or the blocks do not stand on a shelf.
func (b *builder) blockSpots() []r2.Vec {
	if b.Pins.Diameter == 0 || b.Blocks.Leg == 0 || b.Liner.Length == 0 {
		return nil
	}
	near := b.Pins.Hole()/2 + b.Wood()
	// From the long side of the triangle, x + y = leg, by as much.
	far := b.Blocks.Leg - near - math.Sqrt2*near
	if math.Sqrt2*(far-near) < 2*b.Pins.Hole() {
		return nil
	}
	spots := []r2.Vec{{X: -far, Y: near}, {X: -near, Y: far}}
	l := b.levelAt(b.Liner.Y)
	for _, hand := range []float64{-1, 1} {
		for _, s := range spots {
			at := b.onShelf(s, hand, l)
			if b.linerAt(l).Touches(spec.Opening{Shape: "circle", X: at.X, Y: at.Y, Diameter: 2 * near}) {
				return nil // both blocks alike
			}
		}
	}
	return spots
}

// onShelf returns where a point of a corner block is on the liner shelf.
func (b *builder) onShelf(at r2.Vec, hand float64, l level) r2.Vec {
	return r2.Vec{X: hand * (b.Width/2 - b.t + at.X), Y: l.front[0] - (b.Depth - b.t - at.Y)}
}

// blockPins returns the holes through a corner block.
func (b *builder) blockPins() []arc.Path {
	var out []arc.Path
	for _, at := range b.blockSpots() {
		out = append(out, arc.Circle(at, b.Pins.Hole()/2).Reverse())
	}
	return out
}

// shelfPins returns the blind holes of the liner shelf under the corner blocks.
func (b *builder) shelfPins(l level) []plate.Recess {
	var out []plate.Recess
	for _, hand := range []float64{-1, 1} {
		for _, at := range b.blockSpots() {
			out = append(out, b.blind(b.onShelf(at, hand, l)))
		}
	}
	return out
}

// cleatHalf returns half the length of the cleat.
func (b *builder) cleatHalf() float64 {
	half := math.Inf(1)
	top, h := b.Height-b.t, b.Cleat.Height
	for _, y := range []float64{top, top - h - h} {
		half = math.Min(half, rise.OutAt(b.inside(b.right, b.RightEnds(), b.t), y))
		half = math.Min(half, rise.OutAt(b.inside(b.left, b.LeftEnds(), b.t), y))
	}
	return half - b.Cleat.Short/2
}
