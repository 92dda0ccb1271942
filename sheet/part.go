package sheet

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A Grain says how a part lies to the grain of its sheet.
type Grain int

const (
	AnyGrain Grain = iota // no matter
	Along                 // the part's x axis along the grain
	Across                // the part's x axis square to the grain
)

// String returns "any", "along" or "across".
func (g Grain) String() string { return name(int(g), "any", "along", "across") }

// Turns says by which angles a part may be turned from how it is drawn. What
// the grain forbids is never taken.
type Turns int

const (
	RightAngles Turns = iota // 0, 90, 180, 270 degrees
	HalfTurns                // 0, 180 degrees
	NoTurn                   // as drawn
	AnyAngle                 // any angle
)

// String returns "right angles", "half turns", "none" or "any".
func (t Turns) String() string {
	return name(int(t), "right angles", "half turns", "none", "any")
}

func name(i int, names ...string) string {
	if i < 0 || i >= len(names) {
		return "unknown"
	}
	return names[i]
}

// A Part is a flat piece to be cut. Material and Thickness have to be those of
// its stock. The holes of the outline are openings right through, in which
// other parts may lie.
type Part struct {
	Name      string
	Qty       int     // copies; 0 means 1
	Material  string  // compared as it is written
	Thickness float64 // mm, > 0
	Outline   arc.Region
	Grain     Grain
	Turns     Turns
	MirrorOK  bool   // may also be laid on its other face
	Priority  int    // higher ones are placed first, and left out last; 0 is neutral
	Note      string // for people, printed in the cut list
	Set       string // parts of one material that name the same set share a sheet or stay unplaced; "" is none

	// Near names a job whose parts are to be near each other, on few sheets, where
	// sheets can be dealt anew by jobs or parts of the same shape change places for
	// it; it never costs anything.
	Near string

	drawn r2.Box // of the outline, where that is worked out already; see measured
}

// measured returns the parts with their boxes, which a search asks for often.
func measured(parts []Part) []Part {
	out := slices.Clone(parts)
	for i := range out {
		out[i].drawn = out[i].Outline.Bounds()
	}
	return out
}

// bounds returns the box of the part as drawn.
func (p Part) bounds() r2.Box {
	if p.drawn == (r2.Box{}) {
		return p.Outline.Bounds()
	}
	return p.drawn
}

// Copies returns how many copies are wanted.
func (p Part) Copies() int {
	if p.Qty == 0 {
		return 1
	}
	return p.Qty
}

// Size returns the length along x and the width along y of the part as drawn.
func (p Part) Size() (length, width float64) {
	b := p.bounds()
	return b.Max.X - b.Min.X, b.Max.Y - b.Min.Y
}
