package rs274

import (
	"fmt"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
)

// cautions are printed in every program. All are common practice; they defer
// to those who know the machine.
var cautions = []string{
	"CAUTION - the machine maker's and the cutter makers' instructions and the rules of the workplace come before this program.",
	"Run it in air above the sheet first, with a hand on the stop.",
	"Check zeros, cutters, clamps and hold-down. Keep hands off the cutter: it turns on after a stop.",
	"Wear eye and ear protection. Collect the dust at the cutter: wood dust harms the lungs and can explode.",
	"Sheets and parts are heavy: lift with two. Parts held by tabs can spring loose: stay clear until the spindle stands still.",
}

// header writes what is to be known before the start, as comments.
func (e *encoder) header(p cut.Program) {
	e.comment("RS-274/NGC program, after NISTIR 6556")
	if p.Title != "" {
		e.comment(p.Title)
	}
	for _, c := range append(cautions, e.o.Cautions...) {
		e.comment(c)
	}
	size := p.Sheet.Size()
	e.comment(fmt.Sprintf("Sheet: %s x %s x %s %s", e.length(size.X), e.length(size.Y), e.length(p.Thickness), p.Material))
	e.comment("Zero: X and Y at the sheet's lower left corner, Z on the spoilboard under the sheet, not on its top. Parts lie show face down.")
	e.comment(fmt.Sprintf("Outlines go %s into the spoilboard. Travel at Z %s.", e.length(p.Through), e.length(p.Safe)))
	for _, t := range p.Tools {
		e.comment(fmt.Sprintf("Tool %d: %s, %g rev/min", t.Number, t.Label(), t.Speed))
	}
	for _, s := range p.Saw {
		e.comment(fmt.Sprintf("Finish by saw: %s, bevel %.2f deg: %s", s.Name, s.Angle.Degrees(), s.Why))
	}
	if n := len(p.Rest); n > 0 {
		e.comment(fmt.Sprintf("Inside corners to finish by hand: %d", n))
	}
	e.comment(fmt.Sprintf("About %.1f minutes", p.Minutes))
}

// setup writes the modes, all of them, so that nothing left over from another
// program matters: plane XY, unit, no cutter compensation, no length offset, first
// coordinate system, no canned cycle, absolute, feed per minute, exact path.
func (e *encoder) setup(p cut.Program) {
	unit := "G21"
	if e.o.Unit == arc.Inches {
		unit = "G20"
	}
	e.line("G17 %s G40 G49 G54 G80 G90 G94 G61", unit)
	e.line("G0 Z%s", e.num(p.Safe))
}

// comment writes text as comments, broken at spaces to fit the line, in
// characters every controller takes.
func (e *encoder) comment(text string) {
	const room = maxLine - 2
	words := strings.Fields(plain(text))
	line := ""
	for _, w := range words {
		for len(w) > room {
			w = w[:room]
		}
		if line != "" && len(line)+1+len(w) > room {
			e.line("(%s)", line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	if line != "" {
		e.line("(%s)", line)
	}
}

// plain returns text without what may not stand in a comment (§3.3.4), in
// ASCII. A comment that begins with MSG, is shown by the machine; none of ours does.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '(' || r == '[':
			return '<'
		case r == ')' || r == ']':
			return '>'
		case r == '\u00a0' || r < ' ':
			return ' '
		case r == '×':
			return 'x'
		case r == ';' || r == '%':
			return ','
		case r > '~':
			return '?'
		}
		return r
	}, s)
}
