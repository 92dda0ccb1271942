package sheet

import "example.com/sagitta/arc"

// A Stock is a kind of sheet at hand or to be bought: a rectangle of Length
// along x and Width along y, or a leftover of any outline.
type Stock struct {
	Name        string
	ID          string // of the very sheet, where it is one in an inventory; "" is none
	Material    string
	Thickness   float64    // mm, > 0
	Length      float64    // mm; with Width > 0 unless there is an Outline
	Width       float64    // mm
	Outline     arc.Region // replaces Length and Width where it has a vertex
	Count       int        // sheets at hand; 0 means as many as needed
	Price       float64    // of a sheet, in any one currency; 0 is free
	Worth       float64    // of its offcuts, per m², in the currency of Price; 0 is nothing
	LeastGain   float64    // by how much opening one has to make a layout cheaper; 0 is by anything
	GrainAcross bool       // the grain runs along y, not along x

	// Forbidden are defects and clamps, in the sheet's coordinates. Parts keep
	// the gap from them.
	Forbidden []arc.Region

	stands bool // is on the saw already, with parts that are forbidden: nothing is paid for it
}

// price is what the search reckons a sheet to cost.
func (s Stock) price() float64 { return s.Price + s.LeastGain }

// Shape returns the outline of the sheet.
func (s Stock) Shape() arc.Region {
	if len(s.Outline.Outer.V) > 0 {
		return s.Outline
	}
	return arc.Region{Outer: arc.Rect(0, 0, s.Length, s.Width)}
}

// Area returns the area of a sheet in mm², forbidden regions included.
func (s Stock) Area() float64 { return s.Shape().Area() }

func (s Stock) irregular() bool { return len(s.Outline.Outer.V) > 0 }

// whole reports whether the sheet is a rectangle without forbidden regions.
func (s Stock) whole() bool { return !s.irregular() && len(s.Forbidden) == 0 }
