package cut

import (
	"errors"
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// A ParamError says which field of the input cannot be used.
type ParamError = arc.ParamError

// Kinds of fault beside those of package arc, for errors.Is.
var (
	// ErrNoTool says that no cutter of the list can make a cut.
	ErrNoTool = errors.New("no cutter for it")
	// ErrNoWay says that the cutter has no way to where it is to cut.
	ErrNoWay = errors.New("cutter does not get there")
	// ErrNoHold says that a part would hang on nothing.
	ErrNoHold = errors.New("nothing to hold it")
	// ErrFaulty is wrapped by the [Faults] of a replay.
	ErrFaulty = errors.New("program does not make the parts")
)

func needPositive(fn, param string, v, most float64, unit string) error {
	if !(v > 0 && v <= most) {
		return &ParamError{Func: fn, Param: param, Value: v, Unit: unit, Need: fmt.Sprintf("> 0 and <= %g", most), Err: kind(v)}
	}
	return nil
}

func needNotNegative(fn, param string, v, most float64, unit string) error {
	if !(v >= 0 && v <= most) {
		return &ParamError{Func: fn, Param: param, Value: v, Unit: unit, Need: fmt.Sprintf(">= 0 and <= %g", most), Err: kind(v)}
	}
	return nil
}

func kind(v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return arc.ErrNotFinite
	}
	return arc.ErrRange
}

func checkDepth(fn, name string, depth, thickness float64) error {
	if !(depth > 0 && depth < thickness) {
		return &ParamError{Func: fn, Param: name + ".Depth", Value: depth, Unit: "mm", Need: fmt.Sprintf("> 0 and less than the thickness of %g mm", thickness), Err: arc.ErrRange}
	}
	return nil
}

func checkPath(fn, name string, p arc.Path) error {
	if err := p.Usable(); err != nil {
		return &ParamError{Func: fn, Param: name, Value: len(p.V), Unit: "vertices", Need: "a usable path", Err: errors.Unwrap(err)}
	}
	if len(p.V) > maxItems {
		return &ParamError{Func: fn, Param: name, Value: len(p.V), Unit: "vertices", Need: fmt.Sprintf("<= %d", maxItems), Err: arc.ErrRange}
	}
	b := p.Bounds()
	for _, v := range [4]float64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
		if !(math.Abs(v) <= maxSize) {
			return &ParamError{Func: fn, Param: name, Value: v, Unit: "mm", Need: "coordinates of a sheet", Err: arc.ErrRange}
		}
	}
	return nil
}

func checkRegion(fn, name string, r arc.Region) error {
	for i, l := range r.Loops() {
		if err := checkPath(fn, name, l); err != nil {
			return err
		}
		a := l.Area()
		switch {
		case !l.Closed:
			return &ParamError{Func: fn, Param: name, Value: i, Unit: "loop", Need: "closed loops", Err: arc.ErrOpen}
		case a == 0:
			return &ParamError{Func: fn, Param: name, Value: i, Unit: "loop", Need: "loops with area", Err: arc.ErrZeroArea}
		case (a > 0) != (i == 0):
			return &ParamError{Func: fn, Param: name, Value: i, Unit: "loop", Need: "the outer loop counter-clockwise, holes clockwise", Err: arc.ErrOrientation}
		}
	}
	return nil
}
