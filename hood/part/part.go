package part

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
)

// A Part is a flat piece as the machine sees it, show face down: its outline
// is that of the show face, with openings right through as holes.
//
// Name, Outline, Back, Thickness and Pose are required to fold it; kerfs need
// their slots in Work, in the same sequence.
type Part struct {
	sheet.Part
	Kind  Kind     // for its maker; it decides nothing here
	Hand  Hand     // for its maker, as Panel
	Panel string   // the name of the part or, of a ply, that of the panel it is glued up to; of a form, that of the panel bent on it
	Work  cut.Work // grooves, kerfs among them, and pockets, all from the back face

	// Back is the outline of the back face. Blank is what to cut from the
	// sheet: the outline, or where a bevel undercuts it, the outline with what
	// the saw takes off.
	Back, Blank arc.Region

	// Kerfs are where the blank bends, measured up from its lower edge, y = 0.
	Kerfs []bend.Kerf

	// Bent is how a part without kerfs bends: evenly along each stretch, the
	// middle of its thickness keeping its length.
	Bent []Stretch

	// Ply counts, from the show face in, the parts that are glued up to a panel
	// and trimmed after that; 0 is a part of its own. The outline of a ply, on
	// both faces, is what is cut before; its edges are those of the trimmed
	// panel, and its mass what is left.
	Ply int

	Edges []Edge  // the sides of the outline, in its sequence
	Mass  float64 // of one, kg
	Label string  // what to write on it
	Notes []string
	Marks []Mark // lines to draw on it, not to cut

	Pose Pose

	// Cells asks for a mesh in cells, which a part that bends needs: its edges
	// are bottom, right, top and left, the upright ones rise throughout, its
	// slots run across from edge to edge, all of one depth, and its pockets are
	// rabbets along the upright edges, all of one depth.
	Cells bool
}

// A Stretch is a length of a blank that bends evenly, measured up from its
// lower edge, y = 0.
type Stretch struct {
	From, To float64
	Turn     arc.Angle // > 0 where the show face comes to be convex
}

// An Edge is a side of a part: a stretch of its outline that is cut in one.
type Edge struct {
	Name  string
	Show  arc.Path  // on the show face, part of the outline
	Back  arc.Path  // on the back face
	Bevel arc.Angle // off square: > 0 leans in toward the back face
	Saw   bool      // undercut, or of a bevel that changes, or no cutter makes it: to be finished at the saw
	Why   string    // it takes the saw
	Band  bool      // the edge shows: to be banded, or sealed and filled
}

// A Mark is a line to draw on a part.
type Mark struct {
	Name string
	Path arc.Path
}

// OnSheet returns the part as it is laid on a sheet: with its blank for an outline,
// which is more than its show face where a bevel undercuts.
func (p Part) OnSheet() sheet.Part {
	b := p.Part
	if len(p.Blank.Outer.V) > 0 {
		b.Outline = p.Blank
	}
	return b
}

// Edge returns the edge of a name.
func (p Part) Edge(name string) (Edge, bool) {
	for _, e := range p.Edges {
		if e.Name == name {
			return e, true
		}
	}
	return Edge{}, false
}

// A Kind says what a part is for.
type Kind string

// A Hand tells the parts of a pair apart, as one faces the hood; a part that
// has no fellow has none.
type Hand string

// The hands.
const (
	Left  Hand = "left"
	Right Hand = "right"
)

// Other returns the hand across.
func (h Hand) Other() Hand {
	switch h {
	case Left:
		return Right
	case Right:
		return Left
	}
	return h
}
