package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A Rim says how the level edges of a box's boards are cut.
type Rim int

const (
	LevelRim  Rim = iota // beveled, so that the box stands level and its top is flat
	SquareRim            // square to the board's face, as it comes off the saw
)

// A Box is a ring of flat boards around a plan polygon: a box, a hopper, a
// planter, the flat sides of a hood.
//
// Plan is the outline of the show faces at their lower edges, counter-clockwise
// from above, and need not be convex; board i runs from Plan[i] to the next
// corner. Boards holds a board for each side, or one for all. Joints holds for
// each board its joint with the next, or one for all; none means mitered.
type Box struct {
	Plan   []r2.Vec
	Height float64 // mm, plumb
	Boards []Board
	Joints []Joint
	Rim    Rim
}

// A BoxBoard is a board of a box at its true size.
//
// Show and Back are the outlines of its faces, counter-clockwise as seen from
// the show face, both in axes with x to the right along the lower show edge
// from the plan's corner and y up the slope. Left and Right are the cuts at its
// ends; the lower and upper edges are beveled by Lower and Upper off square,
// positive where the back is shorter.
type BoxBoard struct {
	Show, Back   arc.Path
	Left, Right  End
	Lower, Upper arc.Angle
}

// LowerLength and UpperLength return the lengths of the level edges on the show
// face, in mm; a board that runs to a point has no upper edge.
func (b BoxBoard) LowerLength() float64 { return b.Show.Segment(0).Chord() }

// UpperLength returns the length of the upper edge; see LowerLength.
func (b BoxBoard) UpperLength() float64 {
	if len(b.Show.V) < 4 {
		return 0
	}
	return b.Show.Segment(2).Chord()
}

// maxSides bounds the work of looking for sides that run into each other.
const maxSides = 2000

// Solve returns the boards of the box in the order of its plan. It refuses a
// plan that is not a simple counter-clockwise polygon, boards that lie level or
// have no thickness, corners that meet in no seam ([ErrNoSeam]), and boards
// that cross or run into each other below the height ([ErrVanish]).
func (b Box) Solve() ([]BoxBoard, error) {
	const fn = "miter.Box.Solve"
	sides, err := b.sides(fn)
	if err != nil {
		return nil, err
	}
	out := make([]BoxBoard, len(sides))
	for i, s := range sides {
		var ok bool
		if out[i], ok = s.board(b.Height, b.Rim); !ok {
			return nil, fault(fn, item("Plan", i), b.Plan[i], "mm", "sides long enough for their boards up to the height", ErrVanish)
		}
	}
	if !simple(topOf(sides, b.Height)) {
		return nil, fault(fn, "Height", b.Height, "mm", "sides that do not run into each other below it", ErrVanish)
	}
	return out, nil
}

// A side is a board of the box with what is known of its ends.
type side struct {
	Board
	start       r2.Vec
	along       r2.Vec // unit
	length      float64
	left, right End
}

// sides checks the box and solves its corners.
func (b Box) sides(fn string) ([]side, error) {
	if err := b.check(fn); err != nil {
		return nil, err
	}
	n := len(b.Plan)
	sides := make([]side, n)
	for i := range sides {
		v := r2.Sub(b.Plan[(i+1)%n], b.Plan[i])
		l := r2.Norm(v)
		sides[i] = side{Board: pick(b.Boards, i), start: b.Plan[i], along: r2.Scale(1/l, v), length: l}
	}
	for i := range sides {
		j := (i + 1) % n
		a, c := sides[i], sides[j]
		turn := math.Atan2(r2.Cross(a.along, c.along), r2.Dot(a.along, c.along))
		corner := Corner{Plan: arc.Angle(math.Pi - turn), First: a.Board, Second: c.Board}
		if len(b.Joints) > 0 {
			corner.Joint = pick(b.Joints, i)
		}
		cuts, err := corner.Cuts()
		if err != nil {
			return nil, fault(fn, item("Plan", j), b.Plan[j], "mm", "corners that can be cut: "+err.Error(), ErrNoSeam)
		}
		sides[i].right, sides[j].left = cuts.First, cuts.Second
	}
	return sides, nil
}

// pick returns element i, or the only one.
func pick[T any](s []T, i int) T {
	if len(s) == 1 {
		return s[0]
	}
	return s[i]
}

// check looks at everything that can be seen before the corners are solved.
func (b Box) check(fn string) error {
	n := len(b.Plan)
	switch {
	case n < 3 || n > maxSides:
		return fault(fn, "Plan", n, "corners", "3 to 2000", arc.ErrRange)
	case !length(b.Height) || b.Height <= 0:
		return fault(fn, "Height", b.Height, "mm", "> 0 up to 1e9", arc.ErrRange)
	case len(b.Boards) != 1 && len(b.Boards) != n:
		return fault(fn, "Boards", len(b.Boards), "boards", "one, or one a side", arc.ErrRange)
	case len(b.Joints) > 1 && len(b.Joints) != n:
		return fault(fn, "Joints", len(b.Joints), "joints", "none, one, or one a side", arc.ErrRange)
	case b.Rim != LevelRim && b.Rim != SquareRim:
		return fault(fn, "Rim", int(b.Rim), "", "LevelRim or SquareRim", arc.ErrRange)
	}
	for i, p := range b.Plan {
		if !length(p.X) || !length(p.Y) {
			return fault(fn, item("Plan", i), p, "mm", "coordinates up to 1e9", arc.ErrNotFinite)
		}
		if r2.Norm(r2.Sub(b.Plan[(i+1)%n], p)) <= slack {
			return fault(fn, item("Plan", i), p, "mm", "no corner twice", arc.ErrZeroArea)
		}
	}
	for i, w := range b.Boards {
		if !length(w.Thickness) || w.Thickness <= 0 {
			return fault(fn, item("Boards", i)+".Thickness", w.Thickness, "mm", "> 0 up to 1e9", arc.ErrRange)
		}
		if !(math.Sin(float64(w.Tilt)) > 1e-6) {
			return fault(fn, item("Boards", i)+".Tilt", w.Tilt, "", "a board that rises", arc.ErrRange)
		}
	}
	if arc.Polygon(b.Plan...).Area() <= 0 {
		return fault(fn, "Plan", "clockwise", "", "a counter-clockwise polygon", arc.ErrOrientation)
	}
	if !simple(b.Plan) {
		return fault(fn, "Plan", n, "corners", "a polygon that does not cross itself", arc.ErrCrossing)
	}
	return nil
}
