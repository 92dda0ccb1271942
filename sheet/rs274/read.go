package rs274

import (
	"bufio"
	"errors"
	"io"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Skipped word is one that Options.Ignore names, or that stands beside one.
type Skipped struct {
	Line, Column int // from 1
	Word         string
}

// Read returns the moves of a program text, in mm above the spoilboard, as a
// machine would make them, from the first point known in all three axes on. A
// full circle or an arc of more than half a turn comes as two moves of one
// line. Words that o says to ignore are listed and not obeyed.
//
// It takes what [Encode] writes with the same options and the ways other
// programs may write the same: spaces, small letters, line numbers, modes that
// last. What the standard allows but a proof cannot rest on is refused:
// parameters, expressions, lines that may be skipped, arcs by radius, relative
// coordinates, planes other than XY, compensation, other offsets, cycles. Each
// mode has to be stated before the first move, the cutter changed before the
// spindle starts, its length applied as o says before any Z in the coordinates
// of the work, z known before the other axes travel, and M2 or M30 has to end
// the text. The error is a [*SyntaxError], a [*ParamError] of o, or that of r.
func Read(r io.Reader, o Options) ([]cut.Move, []Skipped, error) {
	if err := o.check("rs274.Read"); err != nil {
		return nil, nil, err
	}
	m := &machine{o: o, motion: -1}
	err := m.read(r)
	if err != nil {
		return nil, nil, err
	}
	return m.moves, m.skipped, nil
}

func (m *machine) read(r io.Reader) error {
	in := bufio.NewReaderSize(r, 1<<16)
	for !m.ended {
		line, err := readLine(in)
		m.line++
		if err != nil && err != io.EOF {
			if errors.Is(err, bufio.ErrBufferFull) {
				return &SyntaxError{m.line, maxText + 1, "", "at most 256 characters in a line", ErrSyntax}
			}
			return err
		}
		if e := m.block(line); e != nil {
			return e
		}
		if err == io.EOF {
			break
		}
	}
	if !m.ended {
		return &SyntaxError{m.line, 0, "", "M2 or M30 at the end", ErrModal}
	}
	return m.rest(in)
}

func readLine(in *bufio.Reader) (string, error) {
	b, err := in.ReadSlice('\n')
	if err == nil {
		b = b[:len(b)-1]
	}
	return string(b), err
}

// rest refuses text after the end, which a machine would not run.
func (m *machine) rest(in *bufio.Reader) error {
	for {
		c, err := in.ReadByte()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		if c == '\n' {
			m.line++
		} else if c != ' ' && c != '\t' && c != '\r' && c != '%' {
			return &SyntaxError{m.line + 1, 0, string(rune(c)), "nothing after the end", ErrSyntax}
		}
	}
}

// maxMoves bounds what a text may make us keep.
const maxMoves = 4_000_000

// A machine is the state a program has brought the machine into.
type machine struct {
	o       Options
	line    int
	percent bool
	motion  int     // 0 to 3, -1 none yet
	unit    float64 // mm; 0 none yet
	modes   map[int]bool
	feed    float64 // mm/min
	speed   float64 // as set
	running bool
	chosen  int     // by T
	tool    int     // in the spindle
	length  int     // the cutter whose length is applied
	touched int     // the cutter that was touched off
	wait    float64 // since the spindle started, s
	pause   float64 // since the last move, the spindle running, s
	at      r3.Vec
	known   [3]bool
	placed  bool // all three have been known
	ended   bool
	moves   []cut.Move
	skipped []Skipped
}

func (m *machine) fault(w word, need string, err error) error {
	return &SyntaxError{m.line, w.column, w.text, need, err}
}

// emit keeps a move once all of the position is known.
func (m *machine) emit(to r3.Vec, turn float64, rapid bool) error {
	if len(m.moves) >= maxMoves {
		return &SyntaxError{m.line, 0, "", "at most 4 million moves", ErrLimit}
	}
	v := cut.Move{From: m.at, To: to, K: turn, Rapid: rapid, Tool: m.tool, Line: m.line}
	if !rapid {
		v.Feed = m.feed
	}
	if m.running {
		v.Speed, v.Dwell = m.speed, m.pause
	}
	m.pause = 0
	m.moves = append(m.moves, v)
	m.at = to
	return nil
}

// arcTolerance is how far the radii to both ends of an arc may differ
// (§3.5.3): 0.002 mm, or 0.0002 in.
func (m *machine) arcTolerance() float64 {
	if m.unit == arc.Inch {
		return 0.0002 * arc.Inch
	}
	return 0.002
}

// arc makes the move of a G2 or G3 about a center at i, j from the start.
func (m *machine) arc(w word, to r3.Vec, i, j float64, left bool) error {
	cx, cy := m.at.X+i, m.at.Y+j
	r0, r1 := math.Hypot(i, j), math.Hypot(to.X-cx, to.Y-cy)
	if r0 == 0 || r1 == 0 {
		return m.fault(w, "a radius above zero", ErrArc)
	}
	if math.Abs(r0-r1) > m.arcTolerance() {
		return m.fault(w, "a center as far from the end as from the start", ErrArc)
	}
	// K from start to end about the center, in the sense of the arc.
	ax, ay, bx, by := -i, -j, to.X-cx, to.Y-cy
	turn := math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
	if !left {
		turn = -turn
	}
	if to.X == m.at.X && to.Y == m.at.Y {
		turn = 2 * math.Pi
	} else if turn <= 0 {
		turn += 2 * math.Pi
	}
	sign := 1.0
	if !left {
		sign = -1
	}
	if turn <= math.Pi {
		return m.emit(to, sign*math.Tan(turn/4), false)
	}
	sin, cos := math.Sincos(sign * turn / 2)
	mid := r3.Vec{X: cx + cos*ax - sin*ay, Y: cy + sin*ax + cos*ay, Z: (m.at.Z + to.Z) / 2}
	if err := m.emit(mid, sign*math.Tan(turn/8), false); err != nil {
		return err
	}
	return m.emit(to, sign*math.Tan(turn/8), false)
}
