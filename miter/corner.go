package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// A Board is a flat board as a corner sees it.
type Board struct {
	Tilt      arc.Angle // from level, 0° to 180°; 90° is plumb, less leans in
	Thickness float64   // mm; 0 for both boards of a corner means equal
}

// A Joint says how the ends of two boards share a corner.
type Joint int

const (
	Mitered      Joint = iota // the cut runs from the show corner to the back corner
	FirstCovers               // the second board butts against the first, which runs through
	SecondCovers              // the first board butts against the second, which runs through
)

// A Corner is where two flat boards meet. Plan is the interior angle on plan.
type Corner struct {
	Plan          arc.Angle
	First, Second Board
	Joint         Joint
}

// A Hand is a side as one faces the work or the saw.
type Hand int

// The hands.
const (
	Left Hand = iota
	Right
)

// String returns "left" or "right".
func (h Hand) String() string {
	if h == Right {
		return "right"
	}
	return "left"
}

// An End is the cut at one end of a board. Hand is the end it is on, seen from
// the show face with the lower edge down. Miter and Bevel follow the signs of
// the package. Setback is how far the show edge is held back from the corner
// line of the two show faces, in mm square to it: 0 for a miter. In a butt
// joint the board that butts is held back at an outside corner, and the board
// that runs through passes the line at an inside corner, a setback below 0.
type End struct {
	Hand         Hand
	Miter, Bevel arc.Angle
	Setback      float64
}

// Cuts is a solved corner.
//
// Dihedral is the angle between the show faces through the material, over 180°
// at an inside corner. Seam is the unit direction of the corner line, upward,
// with x outward along the bisector of the plan angle and z up; where the
// slopes differ it leaves the bisector and Seam.Y is not 0.
type Cuts struct {
	Dihedral      arc.Angle
	Seam          r3.Vec
	First, Second End
}

// Cuts returns the cuts at both boards' ends. It refuses a plan angle outside
// (0°, 360°), a tilt outside [0°, 180°], and faces that meet in no seam
// ([ErrNoSeam]): two unequal slopes in line, or one board level and one not.
//
// With equal tilts P and plan angle C the miter is atan(cos P / tan(C/2)) and
// the bevel asin(sin P cos(C/2)); in general both follow from the normals.
func (c Corner) Cuts() (Cuts, error) {
	const fn = "miter.Corner.Cuts"
	if err := c.check(fn); err != nil {
		return Cuts{}, err
	}
	f := c.frame()
	seam, ok := f.seam()
	if !ok {
		return Cuts{}, fault(fn, "Second.Tilt", c.Second.Tilt, "", "faces that meet in a rising seam", ErrNoSeam)
	}
	turn := f.turn()
	if turn == 0 && (c.Joint != Mitered || c.First.Thickness != c.Second.Thickness) {
		return Cuts{}, fault(fn, "Plan", c.Plan, "", "boards that turn, or a miter of equal boards", ErrNoSeam)
	}
	cuts := Cuts{Dihedral: math.Pi - turn, Seam: seam}
	// Seen square to the faces, the seam leans over each board or away from it.
	s1, s2 := r3.Dot(seam, f.along(0)), r3.Dot(seam, f.along(1))
	cuts.First = End{Hand: Right, Miter: arc.Angle(math.Atan2(-s1, r3.Dot(seam, f.up(0))))}
	cuts.Second = End{Hand: Left, Miter: arc.Angle(math.Atan2(s2, r3.Dot(seam, f.up(1))))}
	c.joint(turn, &cuts)
	return cuts, nil
}

func (c Corner) check(fn string) error {
	if err := needBetween(fn, "Plan", c.Plan, 0, 360*arc.Degree); err != nil {
		return err
	}
	for i, b := range [2]Board{c.First, c.Second} {
		name := [2]string{"First", "Second"}[i]
		t := float64(b.Tilt)
		if !finite(t) {
			return fault(fn, name+".Tilt", b.Tilt, "", "a finite angle", arc.ErrNotFinite)
		}
		if t < 0 || t > math.Pi {
			return fault(fn, name+".Tilt", b.Tilt, "", "0° to 180°", arc.ErrRange)
		}
		if !length(b.Thickness) || b.Thickness < 0 || (b.Thickness == 0) != (c.First.Thickness == 0) {
			return fault(fn, name+".Thickness", b.Thickness, "mm", "> 0 up to 1e9, or 0 for both boards", arc.ErrRange)
		}
	}
	if c.Joint < Mitered || c.Joint > SecondCovers {
		return fault(fn, "Joint", int(c.Joint), "", "Mitered, FirstCovers or SecondCovers", arc.ErrRange)
	}
	return nil
}

// joint fills in the bevels. Across the seam, with the turn φ between the
// normals, the back corner stands t1 and t2 behind the faces, which puts it
// (t2 − t1 cos φ)/sin φ back along the first face.
func (c Corner) joint(turn arc.Angle, cuts *Cuts) {
	a, b := &cuts.First, &cuts.Second
	t1, t2 := c.First.Thickness, c.Second.Thickness
	sin, cos := math.Sincos(float64(turn))
	if c.Joint == Mitered {
		a.Bevel, b.Bevel = turn/2, turn/2
		if t1 != t2 {
			a.Bevel = arc.Angle(math.Atan((t2/t1 - cos) / sin))
			b.Bevel = arc.Angle(math.Atan((t1/t2 - cos) / sin))
		}
		return
	}
	// Either end lies in a plane parallel to the other board's face.
	a.Bevel = turn - math.Pi/2
	if turn < 0 {
		a.Bevel = turn + math.Pi/2
	}
	b.Bevel = a.Bevel
	through, butt, t, tt := a, b, t1, t2
	if c.Joint == SecondCovers {
		through, butt, t, tt = b, a, t2, t1
	}
	if turn > 0 {
		butt.Setback = t / sin
	} else {
		through.Setback = tt / sin
	}
}
