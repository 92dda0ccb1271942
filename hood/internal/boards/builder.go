package boards

import (
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
	"example.com/sagitta/sheet"
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

// add finishes a plate and keeps it.
func (b *builder) add(p plate.Plate) {
	p = turnedOver(p)
	part, ok := p.Finish()
	if !ok {
		b.faults.Add(p.Name(), p.Thickness, "mm", "a board thin enough for its bevels", spec.ErrPlace)
		return
	}
	roundPart(&part)
	b.parts = append(b.parts, part)
}

// turnedOver returns a board both of whose faces are hidden with the other one
// down on the machine, where that lets all its bevels be cut from above and this
// does not.
func turnedOver(p plate.Plate) plate.Plate {
	if hidden := []part.Kind{KindDeck, KindRib, KindCleat, KindWallCleat, KindBlock}; !slices.Contains(hidden, p.Kind) || !p.Undercuts() {
		return p
	}
	if q, ok := p.Turned(); ok {
		q.Notes = append(slices.Clone(q.Notes), "both faces are hidden: drawn and cut with the other one down, so that all its bevels can be cut from above")
		return q
	}
	return p
}

// board returns an empty plate of the board.
func (b *builder) board(kind part.Kind, hand part.Hand, name string) plate.Plate {
	return plate.Plate{
		Kind: kind, Hand: hand, Panel: name, Material: b.Board.Material, Thickness: b.t, Grain: b.grain(kind),
		Density: spec.Density(b.Board.Material, b.Board.Density),
	}
}

// A flare is one flared side: its section, and its seam with the front.
type flare struct {
	curve.Section
	at          string // the JSON path of its sweep
	shape       string
	seam        miter.Seam
	front, side seamEdge    // of the sweeps, on the flat blanks, kerfs allowed for
	band        [2]seamEdge // of the skirts of front and side
	list        []Station
}

func (f flare) flared() bool { return len(f.list) > 0 }

// bevel returns the bevel of the seam, or where it changes, its largest.
func (f flare) bevel() arc.Angle {
	most := arc.Angle(0)
	for _, p := range f.list {
		most = max(most, p.First.Bevel)
	}
	return most
}

// sawStep is the finest step in which a saw's tilt is set and read: half of the
// tenth of a degree that digital gauges show. Common practice, no source.
const sawStep = 0.05 * arc.Degree

// varies reports whether the bevel changes along the seam by more than a saw
// is set to.
func (f flare) varies() bool {
	least := f.bevel()
	for _, p := range f.list {
		least = min(least, p.First.Bevel)
	}
	return f.bevel()-least > sawStep
}

// A seamEdge is the edge of a blank at a seam, upward: x out from the middle
// plane or the wall, y up the blank.
type seamEdge struct {
	show, back arc.Path
	bevel      arc.Angle // the largest
	saw        bool      // it changes along the edge
}

// A Station is a place of a seam at a height.
type Station struct {
	Y float64
	miter.Station
}

// A tabRow is the tabs of a level board in the back.
type tabRow struct {
	board part.Kind
	low   float64   // height of the board's lower face
	mids  []float64 // to the right of the middle of the hood, rising
}

// grain returns how a board of a kind lies on its sheet. What shows is alike, and
// of plywood with its fibers up: around the bend, kerfs across them.
func (b *builder) grain(kind part.Kind) sheet.Grain {
	if kind != KindSkirt && kind != KindSweep && kind != KindCheek {
		return sheet.AnyGrain
	}
	switch g := b.Board.Grain; {
	case g == "upright", g == "" && spec.Plywood(b.Board.Material):
		return sheet.Across
	case g == "level":
		return sheet.Along
	}
	return sheet.AnyGrain
}

// The kinds of part. Skirts and sweeps are the front where they have no hand.
// A form is a rib of a bending form and no part of the hood: it has no place in
// the model, and its mass is not in that of the hood. Forms come last.
const (
	KindSkirt        part.Kind = "skirt"
	KindSweep        part.Kind = "sweep"
	KindCheek        part.Kind = "cheek"
	KindBack         part.Kind = "back"
	KindDeck         part.Kind = "deck"
	KindShelf        part.Kind = "liner-shelf"
	KindRib          part.Kind = "rib"
	KindCleat        part.Kind = "cleat"
	KindWallCleat    part.Kind = "cleat-wall" // the mate of the cleat, which stays on the wall
	KindBlock        part.Kind = "corner-block"
	KindChimneySide  part.Kind = "chimney-side"
	KindChimneyFront part.Kind = "chimney-front"
	KindForm         part.Kind = "form-rib"
)
