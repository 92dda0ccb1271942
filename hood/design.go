package hood

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r3"
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
}

// A Flare is what there is to know of a flared side; the zero Flare is a plumb
// one. The curve of either side is seen as that of the right one: outward is
// positive.
type Flare struct {
	Curve Curve
	Seam  []SeamPoint // of the front and this side, upward
}

// A Part is a flat piece as the machine sees it, show face down: its outline
// is that of the show face, with openings right through as holes.
type Part struct {
	sheet.Part
	Kind  Kind
	Hand  Hand
	Panel string // the name of the part or, of a ply, that of the panel it is glued up to; of a form, that of the panel bent on it
	Work  cut.Work

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

	cells bool // mesh it in cells between its four edges
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
	Saw   bool      // undercut, or of a bevel that changes: to be finished at the saw
	Band  bool      // the edge shows: to be banded, or sealed and filled
}

// A Mark is a line to draw on a part.
type Mark struct {
	Name string
	Path arc.Path
}

// A Pose is where a part stands in the hood. A point at x, y of the part and a
// depth d from its show face is at At + x·Right + y·Up + d·In; a part with
// kerfs starts so at its lower edge and bends from there. Right, Up and In are
// unit vectors, square to each other, and Right × Up is In.
type Pose struct {
	At, Right, Up, In r3.Vec
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

// A Solid is a closed mesh of one part in its place, in mm. The corners of its
// triangles run counter-clockwise as one sees them from outside.
type Solid struct {
	Name      string
	Vertices  []r3.Vec
	Triangles [][3]int
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
