package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// Limits say what a kerf plan must keep.
type Limits struct {
	// Facet is the largest distance the bent panel may stand off the profile,
	// mm. Zero sets no limit.
	Facet float64

	// Strain is the largest strain of a web at its faces, a ratio. Zero sets
	// no limit but 1, at which the inner face of the web would have no radius.
	Strain float64

	// Turn is the largest angle one kerf may turn: from land to land the show
	// face turns by it, which gloss and raking light show long before a facet
	// can be felt. Zero sets no limit but 90°.
	Turn arc.Angle

	// Land is the least width of the flat between two kerfs, mm.
	// Zero lets kerfs touch.
	Land float64

	// Edge is the least distance from an end of the blank to the wall of the
	// nearest kerf, mm. Zero lets a kerf touch the end.
	Edge float64

	// Corner is the largest angle between two segments of the profile that is
	// taken for the rounding of a smooth joint and turned by the nearest kerf.
	// Zero stands for 1e-6 rad. A straight at an end of the profile may have no
	// corner in it, as nothing would turn it.
	Corner arc.Angle
}

func (l Limits) check(fn string) error {
	err := first(
		needNotNegative(fn, "Limits.Facet", l.Facet, "mm"),
		needNotNegative(fn, "Limits.Strain", l.Strain, ""),
		needNotNegative(fn, "Limits.Turn", float64(l.Turn), "rad"),
		needNotNegative(fn, "Limits.Land", l.Land, "mm"),
		needNotNegative(fn, "Limits.Edge", l.Edge, "mm"),
		needNotNegative(fn, "Limits.Corner", float64(l.Corner), "rad"),
	)
	if err == nil && l.Corner > 1*arc.Degree {
		return fault(fn, "Limits.Corner", l.Corner, "", "at most 1°", ErrRange)
	}
	return err
}

func (l Limits) corner() float64 {
	if l.Corner == 0 {
		return 1e-6
	}
	return float64(l.Corner)
}

// turn returns the limit in force of what one kerf turns.
func (l Limits) turn() float64 {
	if l.Turn == 0 {
		return math.Pi / 2
	}
	return math.Min(float64(l.Turn), math.Pi/2)
}

// strain returns the strain limit in force.
func (l Limits) strain() float64 {
	if l.Strain == 0 || l.Strain > maxStrain {
		return maxStrain
	}
	return l.Strain
}

// maxStrain keeps a radius on the inner face of the web.
const maxStrain = 0.999

// A Limit is what set the number of kerfs of a bend.
type Limit uint8

const (
	NoLimit      Limit = iota // one kerf is enough
	FacetLimit                // fewer would stand too far off the profile
	StrainLimit               // fewer would strain the web too much
	ClosingLimit              // fewer would close before the turn is made
	AngleLimit                // fewer would turn more than 90° each
	TurnLimit                 // fewer would turn more than Limits.Turn each
)

// String returns what the limit is about, in a word.
func (l Limit) String() string {
	switch l {
	case NoLimit:
		return "none"
	case FacetLimit:
		return "facet"
	case StrainLimit:
		return "strain"
	case ClosingLimit:
		return "closing"
	case AngleLimit:
		return "angle"
	case TurnLimit:
		return "turn"
	}
	return fmt.Sprintf("Limit(%d)", uint8(l))
}
