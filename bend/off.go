package bend

import (
	"math"

	"example.com/sagitta/arc"
)

// Strain returns the strain at the faces of a web that turns through an angle:
// web times angle over twice the width that bends. A board that [Board.Check]
// refuses gives a meaningless strain.
func (b Board) Strain(turn arc.Angle) float64 {
	return webStrain(b.Web, b.BendWidth(), math.Abs(float64(turn)))
}

// webStrain is that of a web bent to an arc over a width: half the web over
// the radius width/angle.
func webStrain(web, width, a float64) float64 { return web * a / (2 * width) }

// Off returns the board as it comes out where the zero of the machine lies too
// high by a length and the cutter is too wide by another, in mm: the first is
// left in the web, the second taken off the walls. Its closing angle and
// strain are then those of the kerf that was cut.
func (b Board) Off(zero, wide float64) Board {
	b.Web += zero
	b.KerfWidth += wide
	return b
}
