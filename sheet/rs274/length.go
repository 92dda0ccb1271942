package rs274

import (
	"fmt"
	"math"
)

// dialect returns what a dialect needs instead of a code that it does not
// have.
func (m *machine) dialect(letter byte, code int) string {
	o := m.o
	switch {
	case letter == 'G' && groups['G'][code] == 12 && code != o.workOffset():
		return codeName('G', o.workOffset()) + ", the work offset of the dialect"
	case letter == 'G' && code == 640 && o.Path != Blend:
		return "G61: the dialect says that every point is passed"
	case letter == 'G' && code == 530 && o.Retract == nil:
		return "a height of retraction in the dialect, for G53"
	case letter == 'G' && code == 430 && o.Length != Table, letter == 'G' && code == 490 && o.Length == ByController:
		return "no such code: the length of a cutter is applied " + o.Length.String()
	case letter == 'M' && code == 0 && o.Length != TouchOff && o.Change != ByHand:
		return "no stop: the dialect neither touches off nor changes by hand"
	case letter == 'M' && code == 60 && o.Change == ByHand:
		return "M0, as the dialect changes by hand"
	}
	return ""
}

// skip takes out of a line what the caller says to ignore, with the words that
// belong to it, and lists it. An axis beside it would be a guess.
func (m *machine) skip(ws []word) ([]word, error) {
	if len(m.o.Ignore) == 0 {
		return ws, nil
	}
	var left, out []word
	coded := false
	for _, w := range ws {
		switch {
		case m.ignored(w):
			out = append(out, w)
			coded = coded || w.letter == 'G' || w.letter == 'M'
		default:
			left = append(left, w)
		}
	}
	if coded {
		kept := left[:0]
		for _, w := range left {
			switch w.letter {
			case 'X', 'Y', 'Z', 'A', 'B', 'C', 'U', 'V', 'W', 'I', 'J', 'K':
				return nil, m.fault(w, "no axis in a line with "+out[0].text+", which is ignored", ErrCode)
			case 'G', 'M', 'N', 'F', 'S', 'T':
				kept = append(kept, w)
			default:
				out = append(out, w)
			}
		}
		left = kept
	}
	if len(m.skipped)+len(out) > maxMoves {
		return nil, &SyntaxError{m.line, 0, "", "at most 4 million words to ignore", ErrLimit}
	}
	for _, w := range out {
		m.skipped = append(m.skipped, Skipped{m.line, w.column, w.text})
	}
	return left, nil
}

func (m *machine) ignored(w word) bool {
	name := string(w.letter)
	if w.letter == 'G' || w.letter == 'M' {
		code := int(math.Round(math.Min(w.value, 1e5) * 10))
		if w.value*10 != float64(code) {
			return false
		}
		name = codeName(w.letter, code)
	}
	for _, c := range m.o.Ignore {
		if c == name {
			return true
		}
	}
	return false
}

// belongs refuses words that stand beside no code of theirs.
func (m *machine) belongs(b block) error {
	_, length := b.g[430]
	_, wait := b.g[40]
	_, blend := b.g[640]
	for _, c := range []byte("EHLPQR") {
		w, ok := b.letter[c]
		if !ok {
			continue
		}
		switch {
		case c == 'H' && length, c == 'P' && wait:
		case blend && string(c) == m.o.PathWord:
			if unit := m.unitOf(b); !(w.value > 0 && w.value*unit <= m.o.PathWithin+1e-3*unit/2) {
				return m.fault(w, fmt.Sprintf("a tolerance of at most %g mm, as the dialect says", m.o.PathWithin), ErrModal)
			}
		default:
			return m.fault(w, "H with G43, P with G4, the dialect's letter with G64, and no others", ErrCode)
		}
	}
	if w, ok := b.g[640]; ok && m.o.PathWithin > 0 {
		if _, ok := b.letter[m.o.PathWord[0]]; !ok {
			return m.fault(w, m.o.PathWord+" behind G64, as the dialect says", ErrModal)
		}
	}
	return nil
}

// unitOf returns the unit that holds in a line, mm.
func (m *machine) unitOf(b block) float64 {
	if _, ok := b.g[200]; ok {
		return 25.4
	}
	if m.unit > 0 {
		return m.unit
	}
	return 1
}

// put puts a cutter into the spindle. Where its tip is, no one knows yet.
func (m *machine) put(tool int) {
	m.tool, m.length, m.touched, m.known[2] = tool, 0, 0, false
}

// stop is M0, and G4 with what it waits.
func (m *machine) stop(b block) error {
	if w, ok := b.g[40]; ok {
		p, has := b.letter['P']
		if !has || p.value < 0 || m.axes(b) {
			return m.fault(w, "P >= 0 with G4, and no axis", ErrModal)
		}
		if m.o.DwellForm == Milliseconds {
			p.value /= 1000
		}
		if m.running {
			m.wait += p.value
			m.pause += p.value
		}
	}
	w, ok := b.m[0]
	if !ok {
		return nil
	}
	if m.running || m.axes(b) {
		return m.fault(w, "M5 before M0, and no axis in its line", ErrModal)
	}
	if m.o.Change == ByHand && m.chosen != m.tool {
		m.put(m.chosen)
	}
	if m.tool == 0 {
		return m.fault(w, "a cutter before M0", ErrModal)
	}
	if m.o.Length == TouchOff {
		m.touched = m.tool
	}
	return nil
}

func (m *machine) axes(b block) bool {
	for _, c := range []byte("XYZIJ") {
		if _, ok := b.letter[c]; ok {
			return true
		}
	}
	return false
}

// setLength is G43, which has to share the line of the rapid to a height, and
// G49.
func (m *machine) setLength(b block) error {
	if _, ok := b.g[490]; ok {
		m.length, m.known[2] = 0, false
	}
	w, ok := b.g[430]
	if !ok {
		return nil
	}
	_, x := b.letter['X']
	_, y := b.letter['Y']
	_, z := b.letter['Z']
	_, rapid := b.g[0]
	if x || y || !z || !rapid {
		return m.fault(w, "G0 and Z in the line of G43, without X and Y", ErrLength)
	}
	if h, ok := b.letter['H']; !ok || m.tool == 0 || h.value != float64(m.tool) {
		return m.fault(w, fmt.Sprintf("H%d, the length of the cutter in the spindle", m.tool), ErrLength)
	}
	m.length = m.tool
	return nil
}

// measured refuses a Z in the coordinates of the work as long as the length of
// the cutter is not in it: it would send the gauge line there (§3.5.11).
func (m *machine) measured(w word) error {
	switch m.o.Length {
	case Table:
		if m.tool == 0 || m.length != m.tool {
			return m.fault(w, fmt.Sprintf("G43 H%d in the line of the first Z, after the change", m.tool), ErrLength)
		}
	case TouchOff:
		if m.tool == 0 || m.touched != m.tool {
			return m.fault(w, "M0 to touch off after the change, before Z", ErrLength)
		}
	default:
		if m.tool == 0 {
			return m.fault(w, "a cutter changed in before Z", ErrLength)
		}
	}
	return nil
}

// lift is G53 to the height of retraction, in the coordinates of the machine.
func (m *machine) lift(b block) error {
	_, rapid := b.g[0]
	z, ok := b.letter['Z']
	_, x := b.letter['X']
	_, y := b.letter['Y']
	if !rapid || !ok || x || y || m.unit == 0 {
		return m.fault(b.any, "G53 with G0 and Z alone", ErrModal)
	}
	if math.Abs(z.value*m.unit-*m.o.Retract) > 0.001*m.unit {
		return m.fault(z, fmt.Sprintf("%g mm, the dialect's height of retraction", *m.o.Retract), ErrModal)
	}
	m.known[2] = false
	return nil
}
