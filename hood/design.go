package hood

// A Design is a hood worked out from its spec. Its values share nothing with
// the spec or with each other.
type Design struct {
	Spec     Spec
	Front    Curve
	Left     Flare
	Right    Flare
	Parts    []Part
	Trim     []Trim
	Checks   []Check
	Cautions []Caution
	Mass     float64 // of all parts, kg

	made *made
}

// A Flare is what there is to know of a flared side; the zero Flare is a plumb
// one. The curve of either side is seen as that of the right one: outward is
// positive.
type Flare struct {
	Curve Curve
	Seam  []SeamPoint // of the front and this side, upward
}

// A Check is one thing the proof measured.
type Check struct {
	Name  string
	Value float64
	Limit float64
	Unit  string
	OK    bool
	Param string // the key of the spec that sets the limit; empty where none does
}

// A Caution is a warning and where it comes from.
type Caution struct {
	Text   string
	Source string
}

// Part returns the part of a name.
func (d Design) Part(name string) (Part, bool) {
	for _, p := range d.Parts {
		if p.Name == name {
			return p, true
		}
	}
	return Part{}, false
}
