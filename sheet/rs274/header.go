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
	if m := e.o.Measured; m > 0 {
		e.comment("Zero: X and Y at the sheet's lower left corner, Z on the top of the sheet. Parts lie show face down.")
		e.comment(fmt.Sprintf("The sheet was measured %s thick. An error of that measure goes into every web and into the spoilboard: measure each sheet.", e.length(m)))
	} else {
		e.comment("Zero: X and Y at the sheet's lower left corner, Z on the spoilboard under the sheet, not on its top. Parts lie show face down.")
	}
	e.comment(fmt.Sprintf("Outlines go %s into the spoilboard. Travel at Z %s.", e.length(p.Through), e.length(e.z(p.Safe))))
	e.hold(p)
	e.lengths()
	e.path()
	for _, r := range p.Reaches() {
		e.comment(fmt.Sprintf("Tool %d: %s, %g rev/min, cuts %s deep", r.Tool.Number, r.Tool.Label(e.o.Unit), r.Tool.Speed, e.length(r.Depth)))
		if r.Caution != "" {
			e.comment(fmt.Sprintf("Tool %d: %s", r.Tool.Number, r.Caution))
		}
	}
	if edges, minutes, stands := p.Stepped(); edges > 0 {
		off := ""
		if stands > 0 {
			off = e.length(stands)
		}
		e.comment(cut.StepsLine(edges, minutes, off))
	}
	for _, s := range p.Saw {
		e.comment(fmt.Sprintf("Finish by saw: %s, %s: %s", s.Name, cut.SawLine(s.Side, s.Angle), s.Why))
	}
	if n := len(p.Rest); n > 0 {
		e.comment(fmt.Sprintf("Inside corners to finish by hand: %d", n))
	}
	if p.Minutes > 0 {
		e.comment(fmt.Sprintf("About %.1f minutes", p.Minutes))
	}
}

// lengths says where the lengths of the cutters come from, which no text can
// check, and how the spindle gets its time.
func (e *encoder) lengths() {
	switch e.o.Length {
	case Table:
		e.comment("Tool lengths: from the controller's table, by G43 H with the number of the tool. Check that each is right.")
	case TouchOff:
		e.comment("Tool lengths: the program stops after each change. Touch off Z on " + e.zero() + " with the new cutter, then go on.")
	case ByController:
		e.comment("Tool lengths: the controller has to apply them at each change by itself. Nothing here does.")
	}
	if d := e.o.Dwell; d > 0 {
		e.comment(fmt.Sprintf("The spindle gets %s s to come up to speed.", e.fixed(d, 3)))
	} else {
		e.comment("No time is kept for the spindle to come up to speed: the controller has to wait for it.")
	}
}

// hold says what holds what is cut free.
func (e *encoder) hold(p cut.Program) {
	switch p.Hold {
	case cut.BySkin:
		e.comment(fmt.Sprintf("Held by: a skin of %s under outlines and openings. It stays: cut it by hand.", e.length(p.Skin)))
	case cut.BySkinAtLast:
		e.comment(fmt.Sprintf("Held by: a skin of %s, and by vacuum alone once the last passes cut it. WITHOUT VACUUM THAT HOLDS EVERY PART, STOP BEFORE THEM.", e.length(p.Skin)))
	case cut.ByVacuum:
		e.comment("Held by: vacuum alone. NEITHER TAB NOR SKIN HOLDS WHAT IS CUT FREE, and no replay looked at whether anything does.")
	default:
		if p.TabWidth > 0 {
			e.comment(fmt.Sprintf("Held by: tabs %s wide and %s high.", e.length(p.TabWidth), e.length(p.TabHeight)))
		}
	}
}

// path says what is known of corners.
func (e *encoder) path() {
	switch {
	case e.o.Path == Blend && e.o.PathWithin > 0:
		e.comment(fmt.Sprintf("Path mode G64 within %s %s: corners may be rounded by as much.", e.num(e.o.PathWithin), e.o.Unit))
	case e.o.Path == Blend:
		e.comment("Path mode G64 without a tolerance: the controller rounds corners by its own rule. CORNERS ARE UNPROVED.")
	}
}

// setup writes the modes, all of them, so that nothing left over from another
// program matters: plane XY, unit, no cutter compensation, no length offset,
// coordinate system, no canned cycle, absolute, feed per minute, path mode. A
// height is stated only in the machine's own coordinates: in those of the work
// it would send the gauge line there, not the tip (§3.5.11).
func (e *encoder) setup() {
	unit, length, path := "G21", "G49 ", "G61"
	if e.o.Unit == arc.Inches {
		unit = "G20"
	}
	if e.o.Length == ByController {
		// G49 would cancel what the controller applies.
		length = ""
	}
	if e.o.Path == Blend {
		path = "G64"
	}
	if e.o.PathWithin > 0 {
		path += " " + e.o.PathWord + e.num(e.o.PathWithin)
	}
	e.line("G17 %s G40 %s%s G80 G90 G94 %s", unit, length, codeName('G', e.o.workOffset()), path)
	e.retract()
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
			e.text(e.remark(line))
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	if line != "" {
		e.text(e.remark(line))
	}
}

func (e *encoder) remark(s string) string {
	if e.o.Comment == Semicolon {
		return "; " + s
	}
	return "(" + s + ")"
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
