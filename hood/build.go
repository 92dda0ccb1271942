package hood

import (
	"fmt"

	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
)

// A builder holds what the parts of one hood share.
type builder struct {
	Spec
	t      float64 // of the board
	front  curve.Section
	right  flare // outward from x = 0; the zero flare where plumb
	left   flare
	tabs   []tabRow
	parts  []Part
	folded []part.Folded // parts as they come to lie
	faults checker

	sidePlies []plate.Plate // of the right side, where the left is alike
}

// Build works out the hood and proves that it closes. The error is Faults of
// the spec.
func Build(s Spec) (Design, error) {
	if err := s.Validate(); err != nil {
		return Design{}, err
	}
	s = s.settled()
	b := builder{Spec: s.clone(), t: s.Board.Thickness, faults: checker{fn: "hood.Build"}}
	b.sections()
	if b.faults.count() == 0 {
		b.shell()
	}
	if err := b.faults.err(); err != nil {
		return Design{}, err
	}
	d := Design{Spec: b.Spec, Front: b.front.Curve, Parts: b.parts, Left: b.left.report(), Right: b.right.report()}
	d.Trim = b.trim()
	d.Checks = b.prove()
	d.made = &made{folded: b.folded}
	for _, c := range d.Checks {
		switch {
		case c.OK:
		case c.Param != "":
			b.faults.add(c.Param, c.Limit, "mm", fmt.Sprintf("at least %.3g for %s, or a smaller bend.facet", c.Value, c.Name), ErrBend)
		default:
			b.faults.add("proof: "+c.Name, c.Value, c.Unit, fmt.Sprintf("at most %.6g %s", c.Limit, c.Unit), ErrOpen)
		}
	}
	if err := b.faults.err(); err != nil {
		return Design{}, err
	}
	for _, p := range d.Parts {
		if p.Kind == KindForm {
			continue
		}
		d.Mass += p.Mass * float64(p.Copies())
	}
	d.Cautions = s.cautions(d)
	return d, nil
}

// sections works out the sections and their blanks.
func (b *builder) sections() {
	b.front = b.section("sweep", b.frontEnds(), b.Sweep)
	if b.faults.count() > 0 {
		return
	}
	right, left := b.rightEnds(), b.leftEnds()
	if right.Flared() {
		b.right, _ = b.flare(right, b.SideSweep, "side_sweep")
	}
	sweep, at := b.leftSweep()
	switch {
	case !left.Flared():
	case left == right && at == "side_sweep":
		b.left = b.right
	default:
		b.left, _ = b.flare(left, sweep, at)
	}
}

func (b *builder) section(path string, e curve.Ends, w Sweep) curve.Section {
	s, err := e.Sketch(w)
	if err != nil {
		b.faults.add(path, w.Name(), "", err.Error(), ErrBend)
		return s
	}
	if !s.Fold(e, b.t) {
		b.faults.add(path, w.Name(), "", "a curve wider than the board is thick, as its back folds over", ErrBend)
		return s
	}
	if b.way(w) != "" {
		b.roll(path, &s, w)
		return s
	}
	if err := s.PlanKerfs(bend.Board{Thickness: b.t, KerfWidth: b.Bend.KerfWidth, Web: b.Bend.Web}, bend.Limits{Facet: b.Bend.Facet, Strain: b.Bend.Strain, Turn: b.Bend.Turn}); err != nil {
		b.faults.add(path, w.Name(), "", "a curve the board can take: "+err.Error(), ErrBend)
	}
	return s
}

// add finishes a plate and keeps it.
func (b *builder) add(p plate.Plate) {
	part, ok := p.Finish()
	if !ok {
		b.faults.add(p.Name(), p.Thickness, "mm", "a board thin enough for its bevels", ErrPlace)
		return
	}
	b.parts = append(b.parts, part)
}

// board returns an empty plate of the board.
func (b *builder) board(kind Kind, hand Hand, name string) plate.Plate {
	return plate.Plate{
		Kind: kind, Hand: hand, Panel: name, Material: b.Board.Material, Thickness: b.t,
		Density: density(b.Board.Material, b.Board.Density),
	}
}

// shell makes the parts of the case.
func (b *builder) shell() {
	b.placeTabs()
	b.sides()
	if b.plumb() {
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

func (b *builder) addFlared(hand Hand, f flare) {
	plates := b.flaredSides(f)
	if b.Skirt > 0 {
		plates = append([]plate.Plate{b.sideSkirt(f)}, plates...)
	}
	for _, p := range plates {
		if hand == Left {
			p = otherSide(p, string(p.Kind)+"-left")
		}
		b.add(p)
	}
}
