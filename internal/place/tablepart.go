package place

// A mixed cell has parts by parts parts, most of which are free or blocked as
// a whole. Their states are worked out when the cell is first asked for.
const parts = 4

const (
	partMixed = iota + 1
	partFree
	partBlocked
)

// partState returns the state of the part of mixed cell k that holds the
// point (fx, fy) from its corner, in cells.
func (t *table) partState(k int32, r, c int, fx, fy float64) uint32 {
	m := &t.mixed[k]
	all := m.parts.Load()
	if all == 0 {
		all = t.findParts(m, r, c)
		m.parts.Store(all)
	}
	return all >> (2 * (parts*int(fy*parts) + int(fx*parts))) & 3
}

// findParts returns the states of all parts of a cell, two bits each.
func (t *table) findParts(m *mixedCell, r, c int) uint32 {
	var all uint32
	for i := range parts * parts {
		x := t.x0 + (float64(c)+float64(i%parts)/parts)*t.size
		y := t.y0 + (float64(r)+float64(i/parts)/parts)*t.size
		all |= t.findPart(m, r, c, x, y, t.size/parts) << (2 * i)
	}
	return all
}

// findPart decides the closed square of side h at (x, y) in a cell. Its corners and center are
// multiples of 1/8, so that all sides are exact. If no edge meets it, the
// winding number of its center is that of all of it. Else the winding number
// of its points differs from that of the reference point by no more than the
// edges that part the two, so that it may still be positive everywhere, or
// nowhere. Points on edges are no exception: a point overlaps if it does so
// after the shapes have shrunk a little, which moves every edge off it.
func (t *table) findPart(m *mixedCell, r, c int, x, y, h float64) uint32 {
	px, py := t.ref(r, c)
	met := false
	at, lo, hi := m.winding, m.winding, m.winding
	for i := m.first; i < m.end; i++ {
		l := &t.lines[i]
		met = met || l.meets(x, y, h)
		at += l.passed(px, py, x+h/2, y+h/2, l.side(x+h/2, y+h/2))
		left, right := l.sides(x, y, h)
		switch refLeft := l.side(px, py) > 0; {
		case refLeft && right:
			lo--
		case !refLeft && left:
			hi++
		}
	}
	switch {
	case !met && at > 0 || lo > 0:
		return partBlocked
	case !met || hi <= 0:
		return partFree
	}
	return partMixed
}

// sides tells whether a point of the square at (x, y) is left of the line or
// on it, and right of it or on it.
func (l *line) sides(x, y, h float64) (left, right bool) {
	for _, s := range [4]float64{l.side(x, y), l.side(x+h, y), l.side(x, y+h), l.side(x+h, y+h)} {
		left, right = left || s >= 0, right || s <= 0
	}
	return left, right
}

// meets tells whether the edge meets the closed square at (x, y).
func (l *line) meets(x, y, h float64) bool {
	if max(l.ax, l.bx) < x || min(l.ax, l.bx) > x+h || max(l.ay, l.by) < y || min(l.ay, l.by) > y+h {
		return false
	}
	left, right := l.sides(x, y, h)
	return left && right
}
