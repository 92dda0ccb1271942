package rs274

import (
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// ParamError says which value of a program cannot be written.
type ParamError = arc.ParamError

// Options say how a controller wants its programs: its dialect. [Encode] and
// [Read] take the same. The zero value writes the plain language of NISTIR
// 6556, in mm, with tool lengths out of the controller's table.
type Options struct {
	// Unit is that of the text: Millimeters, which is zero, writes G21 and 4
	// decimals, Inches G20 and 5.
	Unit arc.Unit

	// Cautions are printed in the header beside those every program has.
	Cautions []string

	Decimals int         // of a coordinate, 3 to 6; 0 means those of the unit
	Number   int         // step of the line numbers; 0 means none. After 99999 they begin again
	Comment  CommentForm // ( ) is zero
	Percent  bool        // a line % before the program and one after it
	Rewind   bool        // end with M30; else with M2

	WorkOffset int        // 54 to 59 for G54 to G59; 0 means 54
	Change     ChangeForm // how a cutter is changed; T1 M6 is zero
	Length     LengthForm // how the length of a cutter is applied; G43 H1 is zero
	Dwell      float64    // from the start of the spindle to the next line, s; 0 means the program's SpinUp
	DwellForm  DwellForm  // unit of P behind G4; seconds is zero
	Path       PathMode   // G61 is zero
	PathWord   string     // letter of G64's tolerance, one of E L P Q R; "" means that the dialect has none
	PathWithin float64    // tolerance of G64, mm; 0 means none. It needs PathWord
	Chord      float64    // arcs as short lines that leave them by this at most, 0.001 to 0.1 mm; 0 means arcs
	Retract    *float64   // machine Z to which G53 lifts before the start, a change and the end, mm; nil means no G53
	Park       *r2.Vec    // where the program ends, on the sheet's coordinates, mm; nil means where it last cut

	// Measured is the thickness of the sheet as measured, mm, and puts the zero
	// of Z on its top. 0 leaves the zero on the spoilboard, so that webs do not
	// depend on the thickness.
	Measured float64

	// Lines of the caller's, such as those of a dust hood or a vacuum. They may
	// hold comments, M7 to M9 and what Ignore names, no more.
	Start, End                      []string // before the header; before M2 or M30
	BeforeChange, AfterChange       []string
	BeforeOperation, AfterOperation []string

	// Ignore names what Read lists and does not obey: codes such as M10 or
	// G187, or a letter such as O. What moves the machine or changes the
	// meaning of numbers cannot be ignored.
	Ignore []string

	PerTool   bool   // [Split] makes a program for each cutter
	Extension string // of a program's file; "" means .nc
}

// A CommentForm is how a comment is written.
type CommentForm int

// The forms of comments.
const (
	Parentheses CommentForm = iota // (text), the standard's
	Semicolon                      // ; text
)

// String returns "parentheses" or "semicolon".
func (f CommentForm) String() string { return word_(int(f), "parentheses", "semicolon") }

// A ChangeForm is how a change of cutter is written.
type ChangeForm int

// The forms of a change.
const (
	OneLine    ChangeForm = iota // T1 M6
	ChangeLead                   // M6 T1
	TwoLines                     // T1, and M6 in the next line
	ByHand                       // T1, and a stop M0 to change the cutter by hand
)

// String returns "one line", "change first", "two lines" or "by hand".
func (f ChangeForm) String() string {
	return word_(int(f), "one line", "change first", "two lines", "by hand")
}

// A LengthForm is how the length of a cutter reaches the controller.
type LengthForm int

// The forms of tool length.
const (
	Table        LengthForm = iota // G43 Hn with the first rapid to the safe height, from the controller's table
	TouchOff                       // a stop after each change, to set the zero of Z by touching off
	ByController                   // the controller applies it at the change, which the header states
)

// String returns "table", "touch off" or "by controller".
func (f LengthForm) String() string { return word_(int(f), "table", "touch off", "by controller") }

// A DwellForm is the unit of a dwell.
type DwellForm int

// The units of a dwell.
const (
	Seconds DwellForm = iota
	Milliseconds
)

// String returns "seconds" or "milliseconds".
func (f DwellForm) String() string { return word_(int(f), "seconds", "milliseconds") }

// A PathMode is how a controller takes corners.
type PathMode int

// The path modes.
const (
	Exact PathMode = iota // G61: through every point
	Blend                 // G64: corners rounded, by the tolerance or by as much as the controller does
)

// String returns "exact" or "blend".
func (f PathMode) String() string { return word_(int(f), "exact", "blend") }

// word_ returns the i-th word, or "unknown".
func word_(i int, words ...string) string {
	if i < 0 || i >= len(words) {
		return "unknown"
	}
	return words[i]
}

// Ext returns the extension of a program's file, with its point.
func (o Options) Ext() string {
	if o.Extension == "" {
		return ".nc"
	}
	return "." + strings.TrimPrefix(o.Extension, ".")
}

// unit returns the length of a unit of the text, mm, and its decimals.
func (o Options) unit() (mm float64, decimals int) {
	mm, decimals = 1, 4
	if o.Unit == arc.Inches {
		mm, decimals = arc.Inch, 5
	}
	if o.Decimals != 0 {
		decimals = o.Decimals
	}
	return mm, decimals
}

// workOffset returns the code of the coordinate system, in tenths.
func (o Options) workOffset() int {
	if o.WorkOffset == 0 {
		return 540
	}
	return 10 * o.WorkOffset
}

// Check returns the first option that cannot be used.
func (o Options) Check() error { return o.check("rs274.Options.Check") }

func (o Options) check(fn string) error {
	fault := func(name string, value any, unit, need string) error {
		return &ParamError{Func: fn, Param: "opt." + name, Value: value, Unit: unit, Need: need, Err: arc.ErrRange}
	}
	whole := []struct {
		name        string
		v, low, top int
	}{
		{"Unit", int(o.Unit), 0, 1}, {"Number", o.Number, 0, 1000}, {"Comment", int(o.Comment), 0, 1},
		{"Change", int(o.Change), 0, 3}, {"Length", int(o.Length), 0, 2}, {"DwellForm", int(o.DwellForm), 0, 1}, {"Path", int(o.Path), 0, 1},
	}
	for _, f := range whole {
		if f.v < f.low || f.v > f.top {
			return fault(f.name, f.v, "", fmt.Sprintf("%d to %d", f.low, f.top))
		}
	}
	real := []struct {
		name, unit   string
		v, least, up float64
	}{
		{"Decimals", "", float64(o.Decimals), 3, 6}, {"WorkOffset", "", float64(o.WorkOffset), 54, 59}, {"Dwell", "s", o.Dwell, 0.001, 600},
		{"PathWithin", "mm", o.PathWithin, 0.001, 0.5}, {"Chord", "mm", o.Chord, 0.001, 0.1}, {"Measured", "mm", o.Measured, 0.1, 1000},
	}
	for _, f := range real {
		if f.v != 0 && !(f.v >= f.least && f.v <= f.up) {
			return fault(f.name, f.v, f.unit, fmt.Sprintf("0, or %g to %g", f.least, f.up))
		}
	}
	if err := o.checkPlaces(fault); err != nil {
		return err
	}
	if o.PathWord != "" && (len(o.PathWord) != 1 || !strings.Contains("ELPQR", o.PathWord)) {
		return fault("PathWord", o.PathWord, "", "one of E L P Q R")
	}
	if o.PathWithin > 0 && (o.PathWord == "" || o.Path != Blend) {
		return fault("PathWithin", o.PathWithin, "mm", "the path mode blend, and the letter of the dialect in PathWord")
	}
	if e := strings.TrimPrefix(o.Extension, "."); len(e) > 8 || strings.Trim(e, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") != "" {
		return fault("Extension", o.Extension, "", "at most 8 letters and digits")
	}
	return o.checkLines(fault)
}

type faultFunc func(name string, value any, unit, need string) error

func (o Options) checkPlaces(fault faultFunc) error {
	if o.Retract != nil && !(math.Abs(*o.Retract) <= 1e4) {
		return fault("Retract", *o.Retract, "mm", "a height of the machine")
	}
	if o.Park != nil && !(math.Abs(o.Park.X) <= 1e6 && math.Abs(o.Park.Y) <= 1e6) {
		return fault("Park", *o.Park, "mm", "a place of the machine")
	}
	return nil
}

// fixed are the codes that no one may have ignored: they move the machine,
// stop or turn the spindle, call other text or change what a number means.
var fixed = map[byte][]int{
	'G': {
		50, 70, 80, 90, 100, 120, 130, 160, 180, 190, 270, 280, 290, 300, 301, 310, 330, 382, 383, 384, 385, 410, 411, 420, 421,
		430, 431, 432, 440, 500, 510, 520, 530, 550, 560, 570, 580, 590, 591, 592, 593, 600, 680, 690,
		730, 740, 760, 810, 820, 830, 840, 850, 860, 870, 880, 890, 910, 911, 920, 921, 922, 923, 930, 950, 960, 970, 980, 990,
	},
	'M': {0, 10, 40, 190, 470, 970, 980, 990},
}

// ignorable reports whether a code or letter may be ignored.
func ignorable(name string) bool {
	if len(name) == 0 || len(name) > 8 {
		return false
	}
	letter := name[0]
	if len(name) == 1 {
		return letter == 'O' || letter == 'D'
	}
	v, _, ok := number(name[1:])
	code := int(math.Round(v * 10))
	if !ok || letter != 'G' && letter != 'M' || v < 0 || v > 9999 || v*10 != float64(code) || name != codeName(letter, code) {
		return false
	}
	_, taken := groups[letter][code]
	for _, c := range fixed[letter] {
		taken = taken || c == code
	}
	return !taken
}

// codeName returns a code as Options.Ignore names it.
func codeName(letter byte, code int) string {
	if code%10 != 0 {
		return fmt.Sprintf("%c%d.%d", letter, code/10, code%10)
	}
	return fmt.Sprintf("%c%d", letter, code/10)
}

// maxLines bounds the caller's lines of each kind, and the codes to ignore.
const maxLines = 100

func (o Options) checkLines(fault faultFunc) error {
	if len(o.Ignore) > maxLines || len(o.Cautions) > maxLines {
		return fault("Ignore", len(o.Ignore), "", "at most 100 codes, and as many cautions")
	}
	for _, c := range o.Ignore {
		if !ignorable(c) {
			return fault("Ignore", c, "", "a code such as M10 that neither moves the machine nor changes what numbers mean, or the letter D or O")
		}
	}
	for _, l := range []struct {
		name string
		of   []string
	}{
		{"Start", o.Start}, {"End", o.End}, {"BeforeChange", o.BeforeChange}, {"AfterChange", o.AfterChange},
		{"BeforeOperation", o.BeforeOperation}, {"AfterOperation", o.AfterOperation},
	} {
		if len(l.of) > maxLines {
			return fault(l.name, len(l.of), "", "at most 100 lines")
		}
		for i, s := range l.of {
			if need := o.checkLine(s); need != "" {
				return fault(fmt.Sprintf("%s[%d]", l.name, i), s, "", need)
			}
		}
	}
	return nil
}

// checkLine returns what a line of the caller's would need to be taken.
func (o Options) checkLine(s string) string {
	if len(s) > maxLine || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return "at most 80 characters of ASCII"
	}
	ws, err := words(s, 0, o.Comment)
	if err != nil {
		return err.(*SyntaxError).Need
	}
	left, err := (&machine{o: o}).skip(ws)
	if err != nil {
		return err.(*SyntaxError).Need
	}
	for _, w := range left {
		if w.letter != 'M' || w.value != 7 && w.value != 8 && w.value != 9 {
			return fmt.Sprintf("comments, M7 to M9 and what Ignore names; not %s", w.text)
		}
	}
	return ""
}
