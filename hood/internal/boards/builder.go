package boards

import (
	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
)

// A builder holds what the parts of one hood share.
type builder struct {
	spec.Sizes
	t      float64 // of the board
	front  curve.Section
	right  flare // outward from x = 0; the zero flare where plumb
	left   flare
	tabs   []tabRow
	parts  []part.Part
	faults spec.Checker

	sidePlies []plate.Plate // of the right side, where the left is alike
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

func (b *builder) section(path string, e curve.Ends, w curve.Sweep) curve.Section {
	s, err := e.Sketch(w)
	if err != nil {
		b.faults.Add(path, w.Name(), "", err.Error(), spec.ErrBend)
		return s
	}
	if !s.Fold(e, b.t) {
		b.faults.Add(path, w.Name(), "", "a curve wider than the board is thick, as its back folds over", spec.ErrBend)
		return s
	}
	if b.Method(w) != "" {
		b.roll(path, &s, w)
		return s
	}
	if err := s.PlanKerfs(bend.Board{Thickness: b.t, KerfWidth: b.Bend.KerfWidth, Web: b.Bend.Web}, bend.Limits{Facet: b.Bend.Facet, Strain: b.Bend.Strain, Turn: b.Bend.Turn}); err != nil {
		b.faults.Add(path, w.Name(), "", "a curve the board can take: "+err.Error(), spec.ErrBend)
	}
	return s
}

// add finishes a plate and keeps it.
func (b *builder) add(p plate.Plate) {
	part, ok := p.Finish()
	if !ok {
		b.faults.Add(p.Name(), p.Thickness, "mm", "a board thin enough for its bevels", spec.ErrPlace)
		return
	}
	roundPart(&part)
	b.parts = append(b.parts, part)
}

// board returns an empty plate of the board.
func (b *builder) board(kind part.Kind, hand part.Hand, name string) plate.Plate {
	return plate.Plate{
		Kind: kind, Hand: hand, Panel: name, Material: b.Board.Material, Thickness: b.t,
		Density: spec.Density(b.Board.Material, b.Board.Density),
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
