package miter

import (
	"errors"
	"math"
	"strconv"

	"example.com/sagitta/arc"
)

// A ParamError says which parameter of which function cannot be used.
type ParamError = arc.ParamError

// The kinds of fault, for errors.Is, beside arc.ErrNotFinite and arc.ErrRange.
var (
	// ErrNoSeam: the faces are parallel, or meet on a level line, or two
	// profiles have no height in common.
	ErrNoSeam = errors.New("the faces meet in no seam")
	// ErrNotRising: a profile has a level or falling piece.
	ErrNotRising = errors.New("the profile does not rise throughout")
	// ErrFold: the back of a panel folds over: too thick for its radius.
	ErrFold = errors.New("the back face folds over")
	// ErrVanish: a board has no width left.
	ErrVanish = errors.New("the board has no width left")
	// ErrTolerance: a path cannot be had within the tolerance.
	ErrTolerance = errors.New("tolerance not reached")
)

// item names an element of a list: Plan[3].
func item(name string, i int) string { return name + "[" + strconv.Itoa(i) + "]" }

func fault(fn, param string, value any, unit, need string, kind error) error {
	return &ParamError{Func: fn, Param: param, Value: value, Unit: unit, Need: need, Err: kind}
}

// longest is the largest length in mm that is taken, far beyond any board, so
// that no product of lengths overflows.
const longest = 1e9

// length reports whether v is a length to compute with.
func length(v float64) bool { return math.Abs(v) <= longest }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// needBetween returns an error unless lo < v < hi.
func needBetween(fn, param string, v, lo, hi arc.Angle) error {
	switch {
	case !finite(float64(v)):
		return fault(fn, param, v, "", "a finite angle", arc.ErrNotFinite)
	case v <= lo || v >= hi:
		return fault(fn, param, v, "", "between "+lo.String()+" and "+hi.String(), arc.ErrRange)
	}
	return nil
}
