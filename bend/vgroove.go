package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// VGrooves are equal V-grooves that fold a panel sharply, each closed tight:
// the panel turns about the skin left at the show face.
type VGrooves struct {
	Count int
	Turn  arc.Angle // of one fold, and the included angle of its cutter
	Width float64   // of a groove at the back, mm
	Depth float64   // mm
}

// FoldWithV returns the n grooves that fold a panel of a thickness through a
// turn, leaving a skin, both in mm: each is 2(t − skin)·tan(turn/2n) wide at
// the back. The skin is taken to fold in no width at all, so it must be a foil
// or film that stands a sharp fold.
func FoldWithV(thickness, skin float64, turn arc.Angle, n int) (VGrooves, error) {
	const fn = "bend.FoldWithV"
	err := first(
		needPositive(fn, "thickness", thickness, "mm"),
		needNotNegative(fn, "skin", skin, "mm"),
		needPositive(fn, "turn", float64(turn), "rad"),
	)
	switch {
	case err != nil:
		return VGrooves{}, err
	case skin >= thickness:
		return VGrooves{}, fault(fn, "skin", skin, "mm", fmt.Sprintf("below the thickness, %.6g mm", thickness), ErrRange)
	case turn > 2*math.Pi:
		return VGrooves{}, fault(fn, "turn", turn, "", "at most 360°", ErrRange)
	case n < 1 || n > maxKerfs:
		return VGrooves{}, fault(fn, "n", n, "", fmt.Sprintf("1 to %d", maxKerfs), ErrRange)
	}
	each := float64(turn) / float64(n)
	if each >= math.Pi {
		return VGrooves{}, fault(fn, "n", n, "", "folds of less than 180° each", ErrRange)
	}
	return VGrooves{n, arc.Angle(each), 2 * (thickness - skin) * math.Tan(each/2), thickness - skin}, nil
}

// CheckCutter returns ErrCutter unless a V cutter of an included angle cuts
// the grooves tight, to a hundredth of a degree, and reaches their depth in mm.
func (v VGrooves) CheckCutter(angle arc.Angle, depth float64) error {
	const fn = "bend.VGrooves.CheckCutter"
	err := first(needPositive(fn, "angle", float64(angle), "rad"), needPositive(fn, "depth", depth, "mm"))
	switch {
	case err != nil:
		return err
	case math.Abs(float64(angle-v.Turn)) > float64(0.01*arc.Degree):
		return fault(fn, "angle", angle, "", v.Turn.String()+", the turn of a fold", ErrCutter)
	case depth < v.Depth:
		return fault(fn, "depth", depth, "mm", fmt.Sprintf("at least %.6g mm", v.Depth), ErrCutter)
	}
	return nil
}

// Spacing returns the distance between folds whose flats touch, at their
// middles, an arc of the given radius of the show face: 2R·tan(turn/2), in mm.
// The first fold stands half of it from where the arc begins. The error is
// ErrNoRoom where neighbouring grooves would overlap at the back.
func (v VGrooves) Spacing(radius float64) (float64, error) {
	const fn = "bend.VGrooves.Spacing"
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return 0, err
	}
	if radius < v.Depth {
		return 0, fault(fn, "radius", radius, "mm", fmt.Sprintf("at least the depth, %.6g mm", v.Depth), ErrNoRoom)
	}
	return 2 * radius * math.Tan(float64(v.Turn)/2), nil
}

// Facet returns how far the folds stand off an arc of the given radius of the
// show face, R(sec(turn/2) − 1), in mm.
func (v VGrooves) Facet(radius float64) float64 {
	q := math.Sin(float64(v.Turn) / 4)
	return radius * 2 * q * q / math.Cos(float64(v.Turn)/2)
}
