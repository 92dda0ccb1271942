package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/integrate/quad"
)

// A Bottom is the shape of the floor of a kerf.
type Bottom uint8

const (
	Flat  Bottom = iota // a saw blade with flat teeth, a straight cutter
	Round               // a round-nosed cutter whose diameter is the kerf width
)

// String returns "flat" or "round".
func (b Bottom) String() string {
	switch b {
	case Flat:
		return "flat"
	case Round:
		return "round"
	}
	return fmt.Sprintf("Bottom(%d)", uint8(b))
}

// A Board is a panel and the kerfs that can be cut in its back.
type Board struct {
	Thickness float64 // mm, > 0
	KerfWidth float64 // of one kerf, at the walls, mm, > 0
	Web       float64 // what is left under a kerf, at its thinnest, mm, > 0 and below Thickness
	Bottom    Bottom  // zero is Flat

	// Skew is the angle between a kerf and the straight lines of the panel
	// (the generators of the curve). Only 0 can be planned.
	Skew arc.Angle

	// Cutter is what the kerfs are cut with; zero fields of it are not checked.
	Cutter Cutter
}

// A Cutter says what a blade or router cutter can do. A zero field is not
// checked.
type Cutter struct {
	Width float64 // narrowest kerf it cuts, mm
	Depth float64 // deepest kerf it cuts, mm
}

// Depth returns the depth of a kerf in mm: the thickness less the web.
func (b Board) Depth() float64 { return b.Thickness - b.Web }

// Check returns the first fault that makes the board unusable for kerfing.
func (b Board) Check() error { return b.check("bend.Board.Check") }

func (b Board) check(fn string) error {
	err := first(
		needPositive(fn, "Board.Thickness", b.Thickness, "mm"),
		needPositive(fn, "Board.KerfWidth", b.KerfWidth, "mm"),
		needPositive(fn, "Board.Web", b.Web, "mm"),
		needNotNegative(fn, "Board.Cutter.Width", b.Cutter.Width, "mm"),
		needNotNegative(fn, "Board.Cutter.Depth", b.Cutter.Depth, "mm"),
		needFinite(fn, "Board.Skew", float64(b.Skew), "rad"),
	)
	switch {
	case err != nil:
		return err
	case b.Web >= b.Thickness:
		return fault(fn, "Board.Web", b.Web, "mm", fmt.Sprintf("below the thickness, %.6g mm", b.Thickness), ErrRange)
	case b.Skew != 0:
		return fault(fn, "Board.Skew", b.Skew, "", "0", ErrSkew)
	case b.Bottom > Round:
		return fault(fn, "Board.Bottom", b.Bottom, "", "Flat or Round", ErrRange)
	case b.Bottom == Round && b.Depth() < b.KerfWidth/2:
		return fault(fn, "Board.KerfWidth", b.KerfWidth, "mm",
			fmt.Sprintf("at most %.6g mm, twice the depth, for a round-bottomed kerf", 2*b.Depth()), ErrRange)
	}
	return b.checkCutter(fn)
}

func (b Board) checkCutter(fn string) error {
	c := b.Cutter
	if b.KerfWidth < c.Width {
		return fault(fn, "Board.KerfWidth", b.KerfWidth, "mm", fmt.Sprintf("at least the cutter's %.6g mm", c.Width), ErrCutter)
	}
	if c.Depth > 0 && b.Depth() > c.Depth {
		return fault(fn, "Board.Web", b.Web, "mm",
			fmt.Sprintf("at least %.6g mm, as the cutter reaches %.6g mm", b.Thickness-c.Depth, c.Depth), ErrCutter)
	}
	return nil
}

// BendWidth returns how much of a kerf's width bends, in mm: all of it over a
// flat floor. Over a round one the web thickens towards the walls, so that the
// bend gathers at the middle; the width returned is that of the flat floor
// with the same web that turns as far at the same strain. For an elastic web
// its curvature goes with the third power of web over thickness there.
func (b Board) BendWidth() float64 {
	if b.Bottom == Flat {
		return b.KerfWidth
	}
	// At R·sin x from the middle the web is b + R(1 − cos x) thick. The
	// integrand falls off over an x of about √(b/R); with x = u³ the points
	// gather there.
	r := b.KerfWidth / 2
	top := math.Cbrt(math.Pi / 2)
	f := func(u float64) float64 {
		x := u * u * u
		s := math.Sin(x / 2)
		q := b.Web / (b.Web + 2*r*s*s)
		return r * math.Cos(x) * q * q * q * 3 * u * u
	}
	return 2 * quad.Fixed(f, 0, top, 64, nil, 0)
}

// arm returns the distance from the middle of the web to the back face.
func (b Board) arm() float64 { return b.Thickness - b.Web/2 }

// mouth returns the width of a kerf at the back when the web under it turns
// through a, positive closing, measured along the arc about the web's center:
// w − a(t − b/2). Of the kerf's width only the given one bends, which is
// BendWidth; the rest, beside a round floor, leans with the walls and closes a
// little sooner.
func (b Board) mouth(width, a float64) float64 {
	lean := b.KerfWidth - width
	if lean != 0 && a != 0 {
		lean *= (a / 2) / math.Tan(a/2)
	}
	return width + lean - a*b.arm()
}
