package hood

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// inside measures what stands behind the front: ribs, liner shelf, and how the
// ribs pass the deck.
func (p *proof) inside(front, skirt string) {
	for _, part := range p.b.parts {
		switch part.Kind {
		case KindRib:
			p.rib(p.parts[part.Name], p.back(front))
		case KindShelf:
			p.shelf(p.parts[part.Name], front, skirt)
		}
	}
	if cleat, ok := p.parts["cleat"]; ok {
		p.cleat(cleat, p.parts["cleat-wall"])
	}
}

// rib measures a rib against the back face of the bent front: at the middle of
// each land and at its ends, along the rib's height.
func (p *proof) rib(rib, sweep placed) {
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
	p.add(rib.Name+" to "+sweep.Name, gap, p.facet(sweep), "mm")
	if _, ok := p.notchOf(rib); !ok {
		return
	}
	notch, _ := p.notchOf(rib)
	p.add(rib.Name+" in its slot: play off what is asked", math.Abs(notch.wide-rib.Thickness-p.b.Ribs.Clearance), rounding, "mm")
	p.add(rib.Name+" in its slot: off the middle", notch.off, rounding, "mm")
	p.add(rib.Name+" in its slot: runs into the deck", math.Max(0, notch.over), rounding, "mm")
}

// A slotFit is how a rib sits in a slot of the deck.
type slotFit struct{ wide, off, over float64 }

// notchOf returns the fit of the slot of the deck nearest to a rib that goes
// through it.
func (p *proof) notchOf(rib placed) (slotFit, bool) {
	deck := p.parts["deck"]
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

// shelf measures the liner shelf against the boards around it.
func (p *proof) shelf(shelf placed, front, skirt string) {
	ahead := p.back(front)
	if s, ok := p.parts[skirt]; ok && p.b.Liner.Y < p.b.Skirt {
		ahead = s
	}
	p.add("liner-shelf to "+ahead.Name, p.meets(shelf, "bottom", ahead), p.facet(ahead), "mm")
	for _, hand := range []string{"left", "right"} {
		if _, ok := p.parts["cheek-"+hand]; ok {
			p.sideFit(shelf, hand)
		}
	}
	p.toBack(shelf)
}

// cleat measures the two slopes of cleat and mate against each other, and the
// cleat against back and wall.
func (p *proof) cleat(cleat, wall placed) {
	a, _ := cleat.Edge("bottom")
	b, _ := wall.Edge("top")
	low := cleat.Point(a.Show.V[0].P, 0)
	high := cleat.Point(a.Back.V[0].P, cleat.Thickness)
	two := []r3.Vec{wall.Point(b.Show.V[0].P, 0), wall.Point(b.Back.V[0].P, wall.Thickness)}
	gap := 0.0
	for _, v := range []r3.Vec{low, high} {
		v.X, two[0].X, two[1].X = 0, 0, 0
		gap = math.Max(gap, toChord(v, two[0], two[1]))
	}
	p.add("cleat to cleat-wall", gap, rounding, "mm")
	_, depth := p.parts["back"].Pose.Local(cleat.Point(r2.Vec{}, cleat.Thickness))
	p.add("cleat to back", math.Abs(depth-p.parts["back"].Thickness), rounding, "mm")
}
