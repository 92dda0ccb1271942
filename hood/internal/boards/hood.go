package boards

import (
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Hood is the boards of a hood, and what should meet in it.
type Hood struct {
	Front       curve.Section
	Left, Right Side
	Parts       []part.Part
	Claims      []proof.Claim
}

// A Side is a flared side, outward from the middle plane; the zero Side is a
// plumb one.
type Side struct {
	curve.Section
	Seam     miter.Seam
	Stations []Station // of the seam, upward
}

// Make cuts the boards of a hood whose spec is valid. The error is spec.Faults.
func Make(s spec.Sizes) (Hood, error) {
	b := builder{Sizes: s, t: s.Board.Thickness, faults: spec.Checker{Func: "hood.Build", In: s.Format()}}
	b.sections()
	if b.faults.Count() == 0 {
		b.shell()
	}
	if b.faults.Count() == 0 {
		b.checkPassages()
	}
	if err := b.faults.Err(); err != nil {
		return Hood{}, err
	}
	return Hood{Front: b.front, Left: b.left.told(), Right: b.right.told(), Parts: b.parts, Claims: b.claims()}, nil
}

// sections works out the sections and their blanks.
func (b *builder) sections() {
	b.front = b.section("sweep", b.FrontEnds(), b.Sweep)
	if b.faults.Count() > 0 {
		return
	}
	right, left := b.RightEnds(), b.LeftEnds()
	if right.Flared() {
		b.right, _ = b.flare(right, b.SideSweep, "side_sweep")
	}
	sweep, at := b.SweepOfLeft()
	switch {
	case !left.Flared():
	case left == right && at == "side_sweep":
		b.left = b.right
	default:
		b.left, _ = b.flare(left, sweep, at)
	}
}

// shell makes the parts of the case.
func (b *builder) shell() {
	b.placeTabs()
	b.sides()
	if b.Plumb() {
		if b.Skirt > 0 {
			b.add(b.skirtPlate())
		}
		for _, p := range b.sweepPlates() {
			b.add(p)
		}
	} else {
		if b.Skirt > 0 {
			b.add(b.frontSkirt())
		}
		for _, p := range b.flaredFronts() {
			b.add(p)
		}
	}
	b.add(b.backPlate())
	b.add(b.deckPlate())
	if b.Liner.Length > 0 {
		b.checkShelf()
		b.add(b.shelfPlate())
	}
	b.addRibs()
	b.addCleat()
	b.addBlocks()
	b.addChimney()
	b.band()
	b.addForms()
}

func (b *builder) addFlared(hand part.Hand, f flare) {
	plates := b.flaredSides(f)
	if b.Skirt > 0 {
		plates = append([]plate.Plate{b.sideSkirt(f)}, plates...)
	}
	for _, p := range plates {
		if hand == part.Left {
			p = otherSide(p, string(p.Kind)+"-left")
		}
		b.add(p)
	}
}

// told returns what is told of the side.
func (f flare) told() Side { return Side{f.Section, f.seam, f.list} }

// sides makes the left and the right side, each plumb or flared.
func (b *builder) sides() {
	cheek := b.cheek()
	if b.left.flared() {
		b.addFlared(part.Left, b.left)
	} else {
		b.add(cheek)
	}
	if b.right.flared() {
		b.addFlared(part.Right, b.right)
		return
	}
	right := cheek.Mirrored("cheek-right")
	right.Pose = part.Pose{At: r3.Vec{X: b.Width / 2}, Right: r3.Vec{Z: 1}, Up: r3.Vec{Y: 1}, In: r3.Vec{X: -1}}
	b.add(right)
}

// band marks the edges that show: the lower ones, and where front and cheeks
// are not mitered the edges of what covers.
func (b *builder) band() {
	for i := range b.parts {
		p := &b.parts[i]
		if p.Ply > 1 { // the glued panel's edges are told once
			continue
		}
		cheek := p.Kind == KindCheek
		front := p.Kind == KindSkirt || p.Kind == KindSweep
		low := p.Kind == KindSkirt || cheek || front && b.Skirt == 0
		for j := range p.Edges {
			e := &p.Edges[j]
			switch {
			case e.Name == "bottom":
				e.Band = low
			case front && b.CornerJoint() == "front-covers" && b.Plumb():
				e.Band = e.Name == "left" || e.Name == "right"
			case cheek && b.CornerJoint() == "cheek-covers":
				e.Band = e.Name == "front"
			}
		}
	}
}
