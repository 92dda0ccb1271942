package sheet

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/internal/clear"
)

// A ParamError says which field of the input cannot be used.
type ParamError = arc.ParamError

// ParamErrors are all the fields that cannot be used, where there are several.
type ParamErrors []*ParamError

// Error returns one line a field.
func (e ParamErrors) Error() string {
	lines := make([]string, len(e))
	for i := range e {
		lines[i] = e[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults, so that errors.As finds the first.
func (e ParamErrors) Unwrap() []error {
	out := make([]error, len(e))
	for i := range e {
		out[i] = e[i]
	}
	return out
}

// Kinds of fault beside those of package arc, for errors.Is.
var (
	// ErrIllegal is wrapped by the [Faults] that [Check] returns.
	ErrIllegal = errors.New("layout is not legal")
	// ErrTooMany says that the input has more parts than the search takes.
	ErrTooMany = errors.New("too many")
)

func needNotNegative(fn, param string, v float64, unit string) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return &ParamError{Func: fn, Param: param, Value: v, Unit: unit, Need: "a finite number", Err: arc.ErrNotFinite}
	}
	if v < 0 {
		return &ParamError{Func: fn, Param: param, Value: v, Unit: unit, Need: ">= 0", Err: arc.ErrRange}
	}
	return nil
}

func needSize(fn, param string, v float64) error {
	if err := needNotNegative(fn, param, v, "mm"); err != nil {
		return err
	}
	if v == 0 || v > maxSize {
		return &ParamError{Func: fn, Param: param, Value: v, Unit: "mm", Need: fmt.Sprintf("> 0 and <= %g", maxSize), Err: arc.ErrRange}
	}
	return nil
}

// checkRegion reports the first fault of a region: an open loop, one that runs
// the wrong way round, a number that cannot be used.
func checkRegion(fn, param string, r arc.Region) error {
	for i, l := range r.Loops() {
		name := param + ".Outer"
		if i > 0 {
			name = fmt.Sprintf("%s.Holes[%d]", param, i-1)
		}
		if err := checkLoop(fn, name, l, i > 0); err != nil {
			return err
		}
	}
	if at, bad := clear.Crossing(r); bad {
		return &ParamError{Func: fn, Param: param, Value: at, Unit: "mm", Need: "loops that do not cross", Err: arc.ErrCrossing}
	}
	return nil
}

func checkLoop(fn, name string, l arc.Path, hole bool) error {
	if err := l.Usable(); err != nil {
		return &ParamError{Func: fn, Param: name, Value: len(l.V), Unit: "vertices", Need: "a usable path: " + err.Error(), Err: errors.Unwrap(err)}
	}
	if !l.Closed {
		return &ParamError{Func: fn, Param: name, Value: l.Closed, Need: "a closed path", Err: arc.ErrOpen}
	}
	if len(l.V) > maxVertices {
		return &ParamError{Func: fn, Param: name, Value: len(l.V), Unit: "vertices", Need: fmt.Sprintf("<= %d", maxVertices), Err: ErrTooMany}
	}
	b := l.Bounds()
	for _, v := range [4]float64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
		if !(math.Abs(v) <= maxSize) {
			return &ParamError{Func: fn, Param: name, Value: v, Unit: "mm", Need: fmt.Sprintf("coordinates within ±%g", maxSize), Err: arc.ErrRange}
		}
	}
	a := l.Area()
	if math.IsNaN(a) || a == 0 {
		return &ParamError{Func: fn, Param: name, Value: a, Unit: "mm²", Need: "an area", Err: arc.ErrZeroArea}
	}
	if (a < 0) != hole {
		return &ParamError{Func: fn, Param: name, Value: a, Unit: "mm²", Need: "an outer loop counter-clockwise, holes clockwise", Err: arc.ErrOrientation}
	}
	return nil
}
