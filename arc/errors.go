package arc

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The kinds of fault, for errors.Is.
var (
	ErrNotFinite   = errors.New("value is NaN or infinite")
	ErrRange       = errors.New("value out of range")
	ErrEmpty       = errors.New("nothing there")
	ErrOpen        = errors.New("path is open")
	ErrOrientation = errors.New("loop runs the wrong way round")
	ErrZeroArea    = errors.New("loop encloses no area")
	ErrCrossing    = errors.New("path crosses itself")
	ErrSyntax      = errors.New("text cannot be read")
)

// A ParamError says which parameter of which function had a value that cannot
// be used, and what is needed instead.
type ParamError struct {
	Func  string // the function called, with its package: "arc.FromChordSag"
	Param string // the parameter or field, as the caller knows it
	Value any    // the value passed
	Unit  string // its unit, or "" where it has none
	Need  string // what would be accepted: "> 0"
	Err   error  // the kind of fault, one of a package's sentinels
}

// Error returns one line: function, parameter, value, need.
func (e *ParamError) Error() string {
	var b strings.Builder
	if e.Func != "" {
		b.WriteString(e.Func + ": ")
	}
	b.WriteString(e.Param + " = " + formatValue(e.Value))
	if e.Unit != "" {
		b.WriteString(" " + e.Unit)
	}
	if e.Need != "" {
		b.WriteString(": need " + e.Need)
	} else if e.Err != nil {
		b.WriteString(": " + e.Err.Error())
	}
	return b.String()
}

// Unwrap returns the kind of fault.
func (e *ParamError) Unwrap() error { return e.Err }

func formatValue(v any) string {
	switch v := v.(type) {
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case string:
		return strconv.Quote(v)
	}
	return fmt.Sprint(v)
}

// needFinite returns a *ParamError unless v is finite.
func needFinite(fn, param string, v float64, unit string) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return &ParamError{fn, param, v, unit, "a finite number", ErrNotFinite}
	}
	return nil
}

// needPositive returns a *ParamError unless v is finite and above zero.
func needPositive(fn, param string, v float64, unit string) error {
	if err := needFinite(fn, param, v, unit); err != nil {
		return err
	}
	if v <= 0 {
		return &ParamError{fn, param, v, unit, "> 0", ErrRange}
	}
	return nil
}

// needTolerance returns a *ParamError unless tol is finite and not negative.
func needTolerance(fn string, tol float64) error {
	if err := needFinite(fn, "tol", tol, "mm"); err != nil {
		return err
	}
	if tol < 0 {
		return &ParamError{fn, "tol", tol, "mm", ">= 0", ErrRange}
	}
	return nil
}
