package spec

import (
	"errors"
	"strings"

	"example.com/sagitta/arc"
)

// A ParamError says which field of a spec cannot be used; Param is the JSON
// path of the field, such as "neck.depth" or "back.openings[0].x".
type ParamError = arc.ParamError

// The kinds of fault, for errors.Is, beside arc.ErrNotFinite and arc.ErrRange.
var (
	// ErrWord: a word that is none of those a field may hold.
	ErrWord = errors.New("unknown word")
	// ErrPlace: something does not fit where it is put.
	ErrPlace = errors.New("does not fit")
	// ErrBend: the material or the limits do not allow the curve.
	ErrBend = errors.New("cannot be bent")
	// ErrOpen: the proof found a joint that does not close.
	ErrOpen = errors.New("does not close")
)

// Faults is every fault found in a spec, in the order of its fields.
type Faults []*ParamError

// Error returns one line per fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, e := range f {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults one by one, for errors.Is and errors.As.
func (f Faults) Unwrap() []error {
	out := make([]error, len(f))
	for i, e := range f {
		out[i] = e
	}
	return out
}
