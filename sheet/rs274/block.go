package rs274

import (
	"math"
	"strings"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r3"
)

// groups are the modal groups of the codes taken, in tenths (§3.4, Table 4).
// A line may hold one of each.
var groups = map[byte]map[int]int{
	'G': {
		0: 1, 10: 1, 20: 1, 30: 1, 800: 1, 40: 0, 530: 0,
		170: 2, 900: 3, 940: 5, 200: 6, 210: 6, 400: 7, 430: 8, 490: 8, 610: 13, 640: 13,
		540: 12, 550: 12, 560: 12, 570: 12, 580: 12, 590: 12,
	},
	'M': {0: 4, 20: 4, 300: 4, 60: 6, 30: 7, 50: 7, 70: 8, 80: 8, 90: 8},
}

// needed are the modes that have to be stated before the first move, by modal
// group, and how to state them. G49 is not where the controller applies lengths.
var needed = []struct {
	group int
	code  string
}{{2, "G17"}, {6, "G20 or G21"}, {7, "G40"}, {8, "G49"}, {12, "G54"}, {3, "G90"}, {5, "G94"}, {13, "G61 or G64"}}

// A block is a line sorted by letter; G and M by code, in tenths.
type block struct {
	g, m   map[int]word
	letter map[byte]word
	any    word
}

// block does what a line says.
func (m *machine) block(line string) error {
	s := strings.TrimSpace(line)
	if s == "%" {
		if m.percent {
			m.ended = true
			return &SyntaxError{m.line, 1, "%", "M2 or M30 before the closing %", ErrModal}
		}
		m.percent = true
		return nil
	}
	ws, err := words(line, m.line, m.o.Comment)
	if err == nil {
		ws, err = m.skip(ws)
	}
	if err != nil || len(ws) == 0 {
		return err
	}
	b, err := m.sort(ws)
	if err != nil {
		return err
	}
	return m.run(b)
}

// sort refuses repeated letters, codes not taken and two codes of a group.
func (m *machine) sort(ws []word) (block, error) {
	b := block{g: map[int]word{}, m: map[int]word{}, letter: map[byte]word{}, any: ws[0]}
	seen := map[[2]int]bool{}
	for i, w := range ws {
		switch w.letter {
		case 'G', 'M':
			code := int(math.Round(w.value * 10))
			group, ok := groups[w.letter][code]
			if !ok || w.value*10 != float64(code) {
				return b, m.fault(w, "a code of this reader: G0 G1 G2 G3 G4 G17 G20 G21 G40 G43 G49 G53 G54 to G59 G61 G64 G80 G90 G94, M0 M2 M3 M5 M6 M7 M8 M9 M30", ErrCode)
			}
			if need := m.dialect(w.letter, code); need != "" {
				return b, m.fault(w, need, ErrCode)
			}
			key := [2]int{int(w.letter), group}
			if seen[key] {
				return b, m.fault(w, "one code of a modal group in a line", ErrModal)
			}
			seen[key] = true
			if w.letter == 'G' {
				b.g[code] = w
			} else {
				b.m[code] = w
			}
		case 'N':
			if i > 0 || w.value < 0 || w.value > 99999 || w.value != math.Trunc(w.value) {
				return b, m.fault(w, "a line number of at most five digits, first in its line", ErrSyntax)
			}
		case 'E', 'F', 'H', 'I', 'J', 'L', 'P', 'Q', 'R', 'S', 'T', 'X', 'Y', 'Z':
			if _, ok := b.letter[w.letter]; ok {
				return b, m.fault(w, "each letter once in a line", ErrSyntax)
			}
			b.letter[w.letter] = w
		default:
			return b, m.fault(w, "one of F G H I J M N P S T X Y Z", ErrCode)
		}
	}
	return b, m.belongs(b)
}

// run does the words of a line in the sequence of §3.8, Table 8: feed, speed,
// tool, change, spindle, modes, motion, end.
func (m *machine) run(b block) error {
	for _, f := range []func(block) error{m.setFeed, m.setSpindle, m.stop, m.setModes, m.setLength, m.go_} {
		if err := f(b); err != nil {
			return err
		}
	}
	for _, code := range [2]int{20, 300} {
		if _, ok := b.m[code]; ok {
			m.ended = true
		}
	}
	return nil
}

func (m *machine) setFeed(b block) error {
	w, ok := b.letter['F']
	if !ok {
		return nil
	}
	if m.unit == 0 {
		return m.fault(w, "G20 or G21 in an earlier line", ErrModal)
	}
	if w.value <= 0 {
		return m.fault(w, "a feed > 0", ErrModal)
	}
	m.feed = w.value * m.unit
	return nil
}

func (m *machine) setSpindle(b block) error {
	if w, ok := b.letter['S']; ok {
		if w.value < 0 {
			return m.fault(w, "a speed >= 0", ErrModal)
		}
		m.speed = w.value
	}
	if w, ok := b.letter['T']; ok {
		if w.value < 0 || w.value > 99999 || w.value != math.Trunc(w.value) {
			return m.fault(w, "a tool number", ErrModal)
		}
		m.chosen = int(w.value)
	}
	if w, ok := b.m[60]; ok {
		if m.chosen == 0 {
			return m.fault(w, "T before M6", ErrModal)
		}
		if m.running {
			return m.fault(w, "M5 before M6", ErrModal)
		}
		m.put(m.chosen)
	}
	if w, ok := b.m[30]; ok {
		if m.tool == 0 || m.speed == 0 {
			return m.fault(w, "a tool changed and a speed S above 0 before M3", ErrModal)
		}
		if !m.running {
			m.wait, m.pause = 0, 0
		}
		m.running = true
	}
	if _, ok := b.m[50]; ok {
		m.running = false
	}
	return nil
}

func (m *machine) setModes(b block) error {
	if m.modes == nil {
		m.modes = map[int]bool{}
	}
	for code := range b.g {
		m.modes[groups['G'][code]] = true
	}
	for code, unit := range map[int]float64{200: arc.Inch, 210: 1} {
		w, ok := b.g[code]
		if !ok {
			continue
		}
		if m.unit != 0 && m.unit != unit {
			return m.fault(w, "one unit for the whole program", ErrModal)
		}
		m.unit = unit
	}
	if _, ok := b.g[800]; ok {
		m.motion = -1
	}
	return nil
}

// go_ makes the motion of a line.
func (m *machine) go_(b block) error {
	stated := false
	for code := 0; code <= 3; code++ {
		if _, ok := b.g[code*10]; ok {
			m.motion, stated = code, true
		}
	}
	axes := false
	for _, c := range []byte("XYZIJ") {
		_, ok := b.letter[c]
		axes = axes || ok
	}
	if !axes {
		if stated {
			return m.fault(b.any, "an axis to move", ErrModal)
		}
		return nil
	}
	if m.motion < 0 {
		return m.fault(b.any, "G0, G1, G2 or G3", ErrModal)
	}
	if _, ok := b.g[530]; ok {
		return m.lift(b)
	}
	for _, n := range needed {
		if !m.modes[n.group] && (n.group != 8 || m.o.Length != ByController) {
			return m.fault(b.any, n.code+" before the first move", ErrModal)
		}
	}
	return m.moveTo(b)
}

func (m *machine) moveTo(b block) error {
	to, known := m.at, m.known
	for i, p := range []*float64{&to.X, &to.Y, &to.Z} {
		if w, ok := b.letter["XYZ"[i]]; ok {
			*p, known[i] = w.value*m.unit, true
		}
	}
	if w, ok := b.letter['Z']; ok {
		if err := m.measured(w); err != nil {
			return err
		}
		to.Z += m.o.Measured
	}
	all := known == [3]bool{true, true, true}
	if m.motion > 0 && m.known != [3]bool{true, true, true} {
		return m.fault(b.any, "G0 to a known X, Y and Z first", ErrModal)
	}
	if known[0] != m.known[0] || known[1] != m.known[1] {
		if !m.known[2] {
			return m.fault(b.any, "G0 Z before X and Y", ErrModal)
		}
	}
	if m.motion > 0 && m.feed == 0 {
		return m.fault(b.any, "a feed F before G1, G2 or G3", ErrModal)
	}
	wi, hasI := b.letter['I']
	wj, hasJ := b.letter['J']
	if m.motion >= 2 {
		return m.arcTo(b, to, wi, wj, hasI || hasJ)
	}
	if hasI || hasJ {
		return m.fault(b.any, "I and J with G2 and G3 only", ErrModal)
	}
	was, placed := m.known, m.placed
	m.known, m.placed = known, placed || all
	if !placed || was != known && to == m.at {
		// The place before was never known in full, or is only stated again.
		m.at = to
		return nil
	}
	return m.emit(to, 0, m.motion == 0)
}

func (m *machine) arcTo(b block, to r3.Vec, wi, wj word, center bool) error {
	_, hasX := b.letter['X']
	_, hasY := b.letter['Y']
	if !hasX && !hasY || !center {
		return m.fault(b.any, "X or Y, and I or J, for an arc", ErrArc)
	}
	return m.arc(b.any, to, wi.value*m.unit, wj.value*m.unit, m.motion == 3)
}
