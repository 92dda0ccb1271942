package rs274

import (
	"bytes"
	"example.com/sagitta/internal/num"
	"fmt"
	"io"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Encode writes a program. It computes no cut: a move becomes a line of text,
// its numbers rounded; an arc's I and J are reckoned from its rounded start
// and checked, so that the radii to its rounded ends agree to 0.001 mm where
// 0.002 mm is the standard's limit (§3.5.3). An arc that leaves its chord by
// less than half a last digit is a line; one with a radius above 100 m, which a
// control may hold too coarsely, is lines that leave it by at most 0.001 mm.
//
// With a measured thickness z counts from the sheet's top instead of the
// spoilboard.
//
// It is an error if an option cannot be used, a number is not finite, a move
// in the work has no feed, or an arc cannot be rounded so; then nothing is
// written.
func Encode(w io.Writer, p cut.Program, o Options) error {
	if err := o.check("rs274.Encode"); err != nil {
		return err
	}
	if o.Dwell == 0 {
		o.Dwell = p.SpinUp
	}
	e := &encoder{o: o, tool: -1}
	e.unit, e.decimals = o.unit()
	e.checkMeasured(p)
	if o.Percent {
		e.text("%")
	}
	e.own(o.Start)
	e.header(p)
	e.setup()
	for i, op := range p.Operations {
		e.operation(p, i, op)
	}
	e.close(p)
	if e.err != nil {
		return e.err
	}
	_, err := w.Write(e.w.Bytes())
	return err
}

// checkMeasured refuses a measure that is not one of this sheet: a plan of a
// much thinner one would travel into it.
func (e *encoder) checkMeasured(p cut.Program) {
	if m := e.o.Measured; m != 0 && p.Thickness != 0 && !(math.Abs(m-p.Thickness) <= p.Thickness/10) {
		e.fail("opt.Measured", m, "mm", fmt.Sprintf("within a tenth of the sheet's %g mm", p.Thickness), arc.ErrRange)
	}
}

// close stops the spindle at the safe height and ends the program.
func (e *encoder) close(p cut.Program) {
	if e.tool >= 0 {
		e.line("G0 Z%s", e.num(e.z(p.Safe)))
	}
	e.line("M5")
	if q := e.o.Park; q != nil && e.tool >= 0 {
		e.straight("G0", r3.Vec{X: q.X, Y: q.Y, Z: p.Safe})
	}
	e.retract()
	e.own(e.o.End)
	if e.o.Rewind {
		e.line("M30")
	} else {
		e.line("M2")
	}
	if e.o.Percent {
		e.text("%")
	}
}

// An encoder knows what the machine's state is after the lines written.
type encoder struct {
	w        bytes.Buffer
	o        Options
	unit     float64 // mm
	decimals int
	err      error
	at       [3]string // position as printed; "" is not known
	pos      r3.Vec    // the same, as a reader takes it, mm
	feed     string
	tool     int
	lines    int // numbered so far
}

func (e *encoder) fail(param string, value any, unit, need string, err error) {
	if e.err == nil {
		e.err = &ParamError{Func: "rs274.Encode", Param: param, Value: value, Unit: unit, Need: need, Err: err}
	}
}

// maxLine is how long a line is written at most; the standard takes 256
// characters (§3.3).
const maxLine = 80

// line writes a line of code, numbered where that is asked.
func (e *encoder) line(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	if e.o.Number > 0 {
		e.lines = e.lines%(maxNumbered/e.o.Number) + 1
		s = fmt.Sprintf("N%d %s", e.lines*e.o.Number, s)
	}
	e.text(s)
}

// maxNumbered is the largest line number (§3.3.2); numbers may come again.
const maxNumbered = 99999

// text writes a line as it is.
func (e *encoder) text(s string) {
	if e.err != nil {
		return
	}
	if len(s) > maxLine {
		e.fail("line", s, "", "at most 80 characters", arc.ErrRange)
		return
	}
	e.w.WriteString(s + "\n")
}

// own writes lines of the caller's.
func (e *encoder) own(lines []string) {
	for _, s := range lines {
		e.text(s)
	}
}

// z returns a height as the program counts it.
func (e *encoder) z(z float64) float64 { return z - e.o.Measured }

// maxNumber bounds a coordinate, mm, and a feed, mm/min.
const maxNumber = 1e7

// num prints a length or a feed in the program's unit.
func (e *encoder) num(v float64) string { return e.fixed(v/e.unit, e.decimals) }

func (e *encoder) fixed(v float64, decimals int) string {
	if !(math.Abs(v) <= maxNumber) {
		e.fail("number", v, "", "a finite number of a machine's size", arc.ErrNotFinite)
		return "0"
	}
	s := fmt.Sprintf("%.*f", decimals, num.Decimals(v, decimals))
	// No trailing zeros, no negative zero.
	for s[len(s)-1] == '0' && decimals > 0 {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// value returns what a reader makes of a printed number, mm.
func (e *encoder) value(s string) float64 {
	v, _, ok := number(s)
	if !ok {
		return math.NaN()
	}
	return v * e.unit
}

// operation writes the moves of one operation, after a change of cutter where
// it has another.
func (e *encoder) operation(p cut.Program, i int, op cut.Operation) {
	if len(op.Moves) == 0 {
		return
	}
	if op.Tool != e.tool {
		e.change(p, op)
	}
	e.own(e.o.BeforeOperation)
	e.comment(fmt.Sprintf("%d: %s of %s, %s deep", i+1, op.Kind, op.Name, e.length(op.Depth)))
	if op.Moves[0].Rapid {
		// Travel at the safe height, then down.
		e.straight("G0", r3.Vec{X: op.Moves[0].To.X, Y: op.Moves[0].To.Y, Z: p.Safe})
	}
	for _, m := range op.Moves {
		e.move(m)
	}
	e.own(e.o.AfterOperation)
}

func (e *encoder) length(mm float64) string {
	if e.o.Unit == arc.Inches {
		return e.fixed(mm/arc.Inch, 3) + " in"
	}
	return e.fixed(mm, 2) + " mm"
}

func (e *encoder) move(m cut.Move) {
	switch {
	case m.Rapid:
		e.straight("G0", m.To)
	case !(m.Feed > 0):
		e.fail("feed", m.Feed, "mm/min", "> 0", arc.ErrRange)
	case e.flat(m):
		e.straight("G1", m.To, e.rate(m.Feed))
	case e.o.Chord > 0:
		e.chords(m, e.o.Chord)
	case e.long(m):
		e.chords(m, offArc)
	default:
		e.arc(m)
	}
}

// segment returns the way of a move, seen from above.
func segment(m cut.Move) arc.Segment {
	return arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}
}

// maxRadius is the largest radius in mm that is written as an arc: a control
// that reckons in single precision, 24 bits, holds a center that far off to
// 0.008 mm.
const maxRadius = 1e5

// offArc is how far the radii to both ends of an arc may differ, and lines that
// stand for an arc may leave it, mm.
const offArc = 1e-3

// long reports whether an arc of a move is too large for a control. Chords
// longer than any machine stay arcs, to be refused.
func (e *encoder) long(m cut.Move) bool {
	s := segment(m)
	return math.Abs(s.K) < 1 && s.Radius() > maxRadius && s.Chord() < maxRadius
}

// rate returns the F word, or nothing where that feed is already set.
func (e *encoder) rate(feed float64) string {
	f := e.fixed(feed/e.unit, 2)
	if f == e.feed {
		return ""
	}
	e.feed = f
	return " F" + f
}

// flat reports whether a move is written as a straight one: where the arc
// leaves its chord by less than a last digit, or the chord is so short that its rounded
// ends no longer tell the arc from a full circle.
func (e *encoder) flat(m cut.Move) bool {
	chord := math.Hypot(m.To.X-m.From.X, m.To.Y-m.From.Y)
	least := 20 * math.Pow(10, -float64(e.decimals)) * e.unit
	return m.K == 0 || chord*math.Abs(m.K)/2 < least/40 || chord < least && math.Abs(m.K) < 1
}

// axes returns the words of the axes that change, and the new position.
func (e *encoder) axes(to r3.Vec, all bool) (string, [3]string) {
	words := ""
	now := [3]string{e.num(to.X), e.num(to.Y), e.num(e.z(to.Z))}
	for i, s := range now {
		if s != e.at[i] || all && i < 2 {
			words += " " + "XYZ"[i:i+1] + s
		}
	}
	return words, now
}

func (e *encoder) moved(now [3]string) {
	e.at = now
	e.pos = r3.Vec{X: e.value(now[0]), Y: e.value(now[1]), Z: e.value(now[2])}
}

func (e *encoder) straight(code string, to r3.Vec, rate ...string) {
	words, now := e.axes(to, false)
	if words == "" {
		return
	}
	f := ""
	if len(rate) > 0 {
		f = rate[0]
	}
	e.line("%s%s%s", code, words, f)
	e.moved(now)
}

// arc writes a G2 or G3.
func (e *encoder) arc(m cut.Move) {
	c := segment(m).Center()
	code := "G3"
	if m.K < 0 {
		code = "G2"
	}
	words, now := e.axes(m.To, true)
	i, j, off := e.center(c, now)
	if !(off <= offArc) {
		e.fail("arc", off, "mm", "radii to both ends that agree to 0.001 mm after rounding", arc.ErrRange)
		return
	}
	e.line("%s%s I%s J%s%s", code, words, i, j, e.rate(m.Feed))
	e.moved(now)
}

// center returns I and J of an arc about c that ends at now, and by how much
// the radii to its rounded ends differ. Where rounding has moved them apart,
// the best of the digits beside is taken.
func (e *encoder) center(c r2.Vec, now [3]string) (i, j string, off float64) {
	off = math.Inf(1)
	from, to := r2.Vec{X: e.pos.X, Y: e.pos.Y}, r2.Vec{X: e.value(now[0]), Y: e.value(now[1])}
	step := math.Pow(10, -float64(e.decimals)) * e.unit
	for n := range 9 {
		// The nearest digits first: 0, 1, -1.
		di, dj := [3]float64{0, 1, -1}[n/3], [3]float64{0, 1, -1}[n%3]
		a, b := e.num(c.X-e.pos.X+di*step), e.num(c.Y-e.pos.Y+dj*step)
		at := r2.Add(from, r2.Vec{X: e.value(a), Y: e.value(b)})
		r0, r1 := r2.Norm(r2.Sub(from, at)), r2.Norm(r2.Sub(to, at))
		if d := math.Abs(r0 - r1); r0 > 0 && d < off {
			i, j, off = a, b, d
		}
		if off <= offArc {
			break
		}
	}
	return i, j, off
}

// maxChords bounds the short lines of one arc.
const maxChords = 20000

// chords writes an arc as lines with their ends on it that leave it by at
// most a length: over an angle a a line leaves an arc of radius r by
// r(1 - cos(a/2)) = 2r·sin²(a/4).
func (e *encoder) chords(m cut.Move, within float64) {
	s := segment(m)
	a := 4 * math.Asin(math.Min(1, math.Sqrt(within/(2*s.Radius()))))
	n := math.Ceil(math.Abs(float64(s.Angle())) / a)
	if !(n <= maxChords) {
		e.fail("arc", n, "", "an arc of at most 20,000 short lines", arc.ErrRange)
		return
	}
	for i := 1.0; i < n; i++ {
		q, _ := s.At(s.Length() * i / n)
		e.straight("G1", r3.Vec{X: q.X, Y: q.Y, Z: m.From.Z + (m.To.Z-m.From.Z)*i/n}, e.rate(m.Feed))
	}
	e.straight("G1", m.To, e.rate(m.Feed))
}
