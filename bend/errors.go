package bend

import (
	"errors"
	"math"

	"example.com/sagitta/arc"
)

// A ParamError says which parameter of which function had a value that cannot
// be used, and what is needed instead. It is [arc.ParamError].
type ParamError = arc.ParamError

// The kinds of fault, for errors.Is.
var (
	ErrNotFinite = arc.ErrNotFinite
	ErrRange     = arc.ErrRange
	ErrClosed    = errors.New("profile is closed; a blank has two ends")
	ErrCorner    = errors.New("profile has a corner, which no kerf can turn")
	ErrNoRoom    = errors.New("the kerfs needed do not fit on the curve")
	ErrTooMany   = errors.New("more than the library will work on")
	ErrSkew      = errors.New("kerfs that are not square to the profile are not planned")
	ErrCutter    = errors.New("the cutter cannot make this cut")
	ErrOverlap   = errors.New("kerfs overlap each other or the end of the blank")
	ErrOutside   = errors.New("outside the published table")
	ErrTooTight  = errors.New("the curve is too tight for the material")
)

func fault(fn, param string, v any, unit, need string, kind error) error {
	return &ParamError{Func: fn, Param: param, Value: v, Unit: unit, Need: need, Err: kind}
}

// Numbers that a function takes lie within these bounds, whatever their unit,
// so that no product or quotient of two of them overflows.
const (
	largest  = 1e12
	smallest = 1e-12
)

func needFinite(fn, param string, v float64, unit string) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fault(fn, param, v, unit, "a finite number", ErrNotFinite)
	}
	if math.Abs(v) > largest {
		return fault(fn, param, v, unit, "at most 1e12", ErrRange)
	}
	return nil
}

func needPositive(fn, param string, v float64, unit string) error {
	if err := needFinite(fn, param, v, unit); err != nil {
		return err
	}
	if v < smallest {
		return fault(fn, param, v, unit, "> 0 (at least 1e-12)", ErrRange)
	}
	return nil
}

func needNotNegative(fn, param string, v float64, unit string) error {
	if err := needFinite(fn, param, v, unit); err != nil {
		return err
	}
	if v < 0 {
		return fault(fn, param, v, unit, ">= 0", ErrRange)
	}
	return nil
}

// first returns the first error that is one.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
