package sheet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A Placement is a copy of a part on a sheet: mirrored in x where Mirror is
// set, turned by Rotate about the part's own origin, then moved by At.
type Placement struct {
	Part   int // index in the list of parts
	Copy   int // from 0
	At     r2.Vec
	Rotate arc.Angle
	Mirror bool
}

// Motion returns the motion from the part's to the sheet's coordinates.
func (p Placement) Motion() arc.Motion {
	m := arc.Rotate(p.Rotate)
	if p.Mirror {
		m = arc.MirrorX().Then(m)
	}
	return m.Then(arc.Shift(p.At))
}

// boxAt returns the box of a part in place. At right angles that is the box of
// the part as drawn, turned, which needs no outline in place.
func (p Part) boxAt(q Placement) r2.Box {
	m := q.Motion()
	sin, cos := math.Sincos(float64(q.Rotate))
	if math.Abs(sin*cos) > 1e-15 { // of the largest part that is 1e-9 mm
		return p.Outline.Transform(m).Bounds()
	}
	b := p.bounds()
	v, w := m.Apply(b.Min), m.Apply(b.Max)
	return box(min(v.X, w.X), min(v.Y, w.Y), max(v.X, w.X), max(v.Y, w.Y))
}

// A Sheet is one sheet of a stock with what lies on it.
type Sheet struct {
	Stock      int // index in the list of stock
	Placements []Placement
	Use        float64  // area of its parts by area of the sheet
	Offcuts    []Offcut // left over: what straight cuts across the sheet free first, then from large to small
}

// An Offcut is a rectangle of a sheet that stays whole or, where
// [Options.TrueOffcuts] asks for it, all that is left in one piece, as stock for
// another time: its price is 0 and its count 1. It keeps the gap from parts.
type Offcut struct {
	At    r2.Vec // the lower left corner of its box on the sheet
	Stock Stock
}

// A Reason says why a copy was not placed.
type Reason int

const (
	NoStock   Reason = iota + 1 // there is no stock of its material and thickness
	TooLarge                    // it fits no empty sheet in any turn it may take; for straight cuts, the usable rectangle of none
	NoRoom                      // the sheets at hand are full, or their outlines leave no place for it
	WrongTurn                   // none of its turns suits the grain of a sheet
	SetSplit                    // its set does not go on one sheet
	NoTime                      // the search ended before a place was found
)

// String returns the reason in words.
func (r Reason) String() string {
	return name(int(r)-1, "no stock of this material and thickness", "larger than any sheet",
		"no room left on the sheets at hand", "no turn allowed that suits the grain", "its set does not go on one sheet",
		"the search ended before a place was found")
}

// An Unplaced is a copy that was left out.
type Unplaced struct {
	Part, Copy int
	Reason     Reason
}

// A Layout is what [Nest] returns.
type Layout struct {
	Sheets     []Sheet
	Unplaced   []Unplaced // by part, then copy
	Cost       float64    // price of the sheets
	Use        float64    // area of the parts by area of the sheets
	Waste      float64    // mm², neither part nor offcut
	Iterations int        // done by the search
	Stopped    bool       // the context ended the search
}
