package rs274

import (
	"errors"
	"fmt"
)

// A SyntaxError says where a text cannot be read as a program, or would leave
// the machine in doubt.
type SyntaxError struct {
	Line   int    // from 1
	Column int    // of the word, from 1; 0 where the whole line is meant
	Word   string // as written
	Need   string // what would be accepted
	Err    error  // the kind, one of the sentinels
}

// Kinds of fault, for errors.Is.
var (
	ErrSyntax = errors.New("text is no program")
	ErrCode   = errors.New("code is not taken")
	ErrModal  = errors.New("mode is missing or contradictory")
	ErrLength = errors.New("length of the cutter is not applied")
	ErrArc    = errors.New("arc is not defined")
	ErrLimit  = errors.New("program is too large")
)

// Error returns one line: place, word, need.
func (e *SyntaxError) Error() string {
	place := fmt.Sprintf("rs274: line %d", e.Line)
	if e.Column > 0 {
		place += fmt.Sprintf(", column %d", e.Column)
	}
	if e.Word != "" {
		place += fmt.Sprintf(": %q", e.Word)
	}
	return place + ": need " + e.Need
}

// Unwrap returns the kind of fault.
func (e *SyntaxError) Unwrap() error { return e.Err }
