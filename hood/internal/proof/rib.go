package proof

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Rib claims that a rib follows the back face of a bent front, and sits in its
// slot in the deck where it goes through.
type Rib struct {
	Rib, Front, Deck string
	Off              float64 // limit along the front
	Clearance        float64 // play in the slot
}

// measure measures a rib against the back face of the bent front: at the middle of
// each land and at its ends, along the rib's height.
func (c Rib) measure(p *prover) {
	rib, sweep := p.parts[c.Rib], p.back(c.Front)
	front, _ := rib.Edge("front")
	low, high := front.Show.V[0].P, front.Show.V[len(front.Show.V)-1].P
	low.X, high.X = 0, 0
	gap := 0.0
	x, _ := sweep.Pose.Local(rib.Pose.At)
	bottom, top := sweep.Breaks[0], sweep.Breaks[len(sweep.Breaks)-1]
	if sweep.Ply > 0 {
		bottom, top = sweep.Levels(sweep.Thickness)
	}
	for _, y := range sweep.Breaks {
		if y < bottom || y > top { // cut off
			continue
		}
		at, _ := rib.Pose.Local(sweep.Point(r2.Vec{X: x.X, Y: y}, sweep.Thickness))
		if at.Y >= low.Y && at.Y <= high.Y && !sweep.InSlot(y) {
			gap = math.Max(gap, front.Show.Distance(at))
		}
	}
	p.add(rib.Name+" to "+sweep.Name, gap, c.Off, "mm")
	if _, ok := c.notchOf(p, rib); !ok {
		return
	}
	notch, _ := c.notchOf(p, rib)
	p.add(rib.Name+" in its slot: play off what is asked", math.Abs(notch.wide-rib.Thickness-c.Clearance), Rounding, "mm")
	p.add(rib.Name+" in its slot: off the middle", notch.off, Rounding, "mm")
	p.add(rib.Name+" in its slot: runs into the deck", math.Max(0, notch.over), Rounding, "mm")
}

// A slotFit is how a rib sits in a slot of the deck.
type slotFit struct{ wide, off, over float64 }

// notchOf returns the fit of the slot of the deck nearest to a rib that goes
// through it.
func (c Rib) notchOf(p *prover, rib placed) (slotFit, bool) {
	deck := p.parts[c.Deck]
	top, _ := rib.Edge("top")
	if len(top.Show.V) < 3 {
		return slotFit{}, false
	}
	mid := func(d float64) r2.Vec {
		at, _ := deck.Pose.Local(rib.Point(top.Show.V[1].P, d))
		return at
	}
	a, b := mid(0), mid(rib.Thickness)
	best, found := slotFit{off: math.Inf(1)}, false
	for _, e := range deck.Edges {
		if e.Name != "notch" {
			continue
		}
		x0, x1 := e.Show.V[1].P.X, e.Show.V[2].P.X
		f := slotFit{x1 - x0, math.Abs((x0+x1)/2 - (a.X+b.X)/2), a.Y - e.Show.V[1].P.Y}
		if f.off < best.off {
			best, found = f, true
		}
	}
	return best, found
}
