package hood

import (
	"sync"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
)

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
	User   bool // it concerns who lives with the hood, and not the shop alone
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

// A SeamPoint is a point of the seam between the front and a flared side. U is
// a developed length on the show face, before kerfs, up from the lower edge of
// the sweep. XBack and UFrontBack are where the back faces meet at the same
// height, if they do: next to its ends a panel cut square has no back.
type SeamPoint struct {
	Y             float64 // height
	XShow, ZShow  float64 // of the seam, out from the middle plane and from the wall
	UFront, USide float64
	Bevel         arc.Angle // of both panels
	XBack         float64   // out from the middle plane, as XShow
	UFrontBack    float64
	HasBack       bool
}

// A made is what is worked out from the parts of a design once, when it is first
// asked for, and shared by its copies.
type made struct {
	folded []part.Folded
	model  sync.Once
	solids []Solid
	weigh  sync.Once
	hang   Hang
}
