package rs274

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
)

// change writes a change of cutter: up, spindle stopped, changed, started. The
// next travel applies the length where that comes from a table.
func (e *encoder) change(p cut.Program, op cut.Operation) {
	if op.Tool < 1 || op.Tool > 99999 {
		e.fail("tool", op.Tool, "", "1 to 99999", arc.ErrRange)
	}
	speed := op.Moves[0].Speed
	if !(speed > 0) {
		e.fail("speed", speed, "rev/min", "> 0", arc.ErrRange)
	}
	name := ""
	for _, t := range p.Tools {
		if t.Number == op.Tool {
			name = t.Label(e.o.Unit)
		}
	}
	e.comment(fmt.Sprintf("tool %d: %s", op.Tool, name))
	if e.tool >= 0 {
		e.line("G0 Z%s", e.num(e.z(p.Safe)))
	}
	e.line("M5")
	if e.tool >= 0 {
		e.retract()
	}
	e.own(e.o.BeforeChange)
	e.swap(op.Tool)
	e.own(e.o.AfterChange)
	e.line("S%s M3", e.fixed(speed, 0))
	e.dwell()
	e.at, e.tool, e.feed = [3]string{"", "", e.num(e.z(p.Safe))}, op.Tool, ""
	if e.o.Length == Table {
		e.line("G0 G43 H%d Z%s", op.Tool, e.at[2])
	} else {
		e.line("G0 Z%s", e.at[2])
	}
	e.pos.Z = e.value(e.at[2])
}

// swap writes the change itself, and the stop to touch off where one is asked.
func (e *encoder) swap(tool int) {
	switch e.o.Change {
	case OneLine:
		e.line("T%d M6", tool)
	case ChangeLead:
		e.line("M6 T%d", tool)
	case TwoLines:
		e.line("T%d", tool)
		e.line("M6")
	case ByHand:
		e.line("T%d", tool)
		e.comment(fmt.Sprintf("stop: put in tool %d", tool))
		e.line("M0")
	}
	if e.o.Length != TouchOff {
		return
	}
	e.comment("stop: touch off " + e.zero())
	if e.o.Change != ByHand {
		e.line("M5")
		e.line("M0")
	}
}

// zero names the place where Z is zero.
func (e *encoder) zero() string {
	if e.o.Measured > 0 {
		return "the top of the sheet"
	}
	return "the spoilboard"
}

func (e *encoder) dwell() {
	switch d := e.o.Dwell; {
	case d == 0:
	case e.o.DwellForm == Milliseconds:
		e.line("G4 P%s", e.fixed(1000*d, 0))
	default:
		e.line("G4 P%s", e.fixed(d, 3))
	}
}

// retract lifts in the machine's own coordinates, which no length moves.
func (e *encoder) retract() {
	if e.o.Retract != nil {
		e.line("G53 G0 Z%s", e.num(*e.o.Retract))
	}
}
