package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/num"
)

// ClosingAngle returns the angle at which a kerf closes at the back when its
// web bends as an arc over the kerf's width: w/(t − b/2). This is the model of
// the plans. The shortcut w/(t − b) overstates it and must not be used. Over a
// round floor the kerf closes a little sooner. A board that [Board.Check]
// refuses gives a meaningless angle.
func (b Board) ClosingAngle() arc.Angle {
	flat := b.KerfWidth / b.arm()
	if b.Bottom == Flat {
		return arc.Angle(flat)
	}
	width := b.BendWidth()
	mouth := func(a float64) float64 { return b.mouth(width, a) }
	a, err := num.Root(mouth, width/b.arm(), math.Min(flat, math.Pi), 1e-15)
	if err != nil {
		return arc.Angle(flat)
	}
	return arc.Angle(a)
}

// HingeAngle returns the closing angle of the other usual model, a web that
// folds sharply at its middle while the kerf's walls stay as they are:
// 2·atan(w/(2(t − b/2))). It is always below [Board.ClosingAngle], by about a
// twelfth of the angle's square.
func (b Board) HingeAngle() arc.Angle {
	return arc.Angle(2 * math.Atan2(b.KerfWidth, 2*b.arm()))
}

// LiftSpacing returns the spacing of kerfs by the rule of the trade: cut one
// kerf in a scrap, mark the radius from it, hold one side and lift the other
// until the kerf closes; what the mark has moved is the spacing,
// 2R·sin(closing/2), in mm (Building Construction vol. 3, art. 13, Curved
// Risers). It goes by closing alone: on a large radius it leaves wide facets.
func LiftSpacing(radius float64, closing arc.Angle) (float64, error) {
	const fn = "bend.LiftSpacing"
	err := first(needPositive(fn, "radius", radius, "mm"), needPositive(fn, "closing", float64(closing), "rad"))
	if err == nil && closing > math.Pi {
		err = fault(fn, "closing", closing, "", "at most 180°", ErrRange)
	}
	if err != nil {
		return 0, err
	}
	return 2 * radius * math.Sin(float64(closing)/2), nil
}

// ClosingAngleFromLift returns the closing angle of one kerf from the lift, in
// mm, of a mark at a distance from it, the rule of [LiftSpacing] read
// backwards.
func ClosingAngleFromLift(lift, distance float64) (arc.Angle, error) {
	const fn = "bend.ClosingAngleFromLift"
	if err := first(needPositive(fn, "lift", lift, "mm"), needPositive(fn, "distance", distance, "mm")); err != nil {
		return 0, err
	}
	if lift > distance {
		return 0, fault(fn, "lift", lift, "mm", fmt.Sprintf("at most the distance, %.6g mm (a turn of 60°)", distance), ErrRange)
	}
	return arc.Angle(2 * math.Asin(lift/distance/2)), nil
}
