package place

import (
	"math"
	"sort"
)

// bin returns the edges that meet each closed cell, as sorted keys of cell
// and edge.
func (t *table) bin(es []edge) []uint64 {
	var keys []uint64
	for k, e := range es {
		ax, ay := (float64(e.a.x)-t.x0)*t.inv, (float64(e.a.y)-t.y0)*t.inv
		bx, by := (float64(e.b.x)-t.x0)*t.inv, (float64(e.b.y)-t.y0)*t.inv
		if ay > by {
			ax, ay, bx, by = bx, by, ax, ay
		}
		for r := max(0, int(math.Ceil(ay))-1); r <= min(t.ny-1, int(by)); r++ {
			lo, hi := clipRow(ax, ay, bx, by, float64(r))
			for c := max(0, int(math.Ceil(lo-1e-6))-1); c <= min(t.nx-1, int(hi+1e-6)); c++ {
				keys = append(keys, uint64(r*t.nx+c)<<32|uint64(k))
			}
		}
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i] < keys[j] })
	return keys
}

// clipRow returns the range of x of the segment, ay ≤ by, within the row of
// cells from y = r to r+1.
func clipRow(ax, ay, bx, by, r float64) (lo, hi float64) {
	p, q := ax, bx
	if ay < r {
		p = ax + (bx-ax)*(r-ay)/(by-ay)
	}
	if by > r+1 {
		q = ax + (bx-ax)*(r+1-ay)/(by-ay)
	}
	return math.Min(p, q), math.Max(p, q)
}

// fill sets the cells from the sorted keys, row by row with the crossings of
// the row's reference line.
func (t *table) fill(es []edge, keys []uint64) {
	t.mixed = append(t.mixed, mixedCell{})
	for r := 0; r < t.ny; r++ {
		y := t.y0 + float64(float64(r)*t.size) + refY
		cross := crossings(es, y)
		w := int32(0)
		for c := 0; c < t.nx; c++ {
			x := t.x0 + float64(float64(c)*t.size) + refX
			for len(cross) > 0 && cross[0].x < x-1e-3 {
				w += cross[0].turn
				cross = cross[1:]
			}
			keys = t.fillCell(r*t.nx+c, w+near(cross, x, y), es, keys)
		}
	}
}

// near sums the turns of the crossings too close to x to be told by their
// rounded coordinate. A point on an edge counts as right of it, as in blocked.
func near(cross []crossing, x, y float64) (w int32) {
	for _, c := range cross {
		if c.x > x+1e-3 {
			break
		}
		if left := c.e.side(x, y) > 0; left == (c.turn > 0) {
			w += c.turn
		}
	}
	return w
}

// side is positive where (x, y) is to the left of the line's direction.
func (l *line) side(x, y float64) float64 {
	return float64((l.bx-l.ax)*(y-l.ay)) - float64((l.by-l.ay)*(x-l.ax))
}

func (t *table) fillCell(cell int, w int32, es []edge, keys []uint64) []uint64 {
	first := int32(len(t.lines))
	for len(keys) > 0 && keys[0]>>32 == uint64(cell) {
		e := es[uint32(keys[0])]
		t.lines = append(t.lines, toLine(e))
		keys = keys[1:]
	}
	m := mixedCell{first: first, end: int32(len(t.lines)), winding: w}
	r, c := cell/t.nx, cell%t.nx
	switch t.findPart(&m, r, c, t.x0+float64(float64(c)*t.size), t.y0+float64(float64(r)*t.size), t.size) {
	case partMixed:
		t.cells[cell] = int32(len(t.mixed))
		t.rim = append(t.rim, int32(cell))
		t.mixed = append(t.mixed, mixedCell{first: first, end: m.end, winding: w})
		return keys
	case partBlocked:
		t.cells[cell] = -1
	}
	t.lines = t.lines[:first]
	return keys
}

// A crossing is where an edge crosses a row's reference line: turn is what it
// adds to the winding number of the points east of it.
type crossing struct {
	x    float64
	turn int32
	e    line
}

// crossings returns where edges cross the horizontal line at y, from the left.
// No edge ends on it.
func crossings(es []edge, y float64) []crossing {
	var out []crossing
	for _, e := range es {
		l := toLine(e)
		if (l.ay > y) == (l.by > y) {
			continue
		}
		turn := int32(1)
		if l.by > l.ay {
			turn = -1
		}
		out = append(out, crossing{l.ax + (y-l.ay)*(l.bx-l.ax)/(l.by-l.ay), turn, l})
	}
	sort.Slice(out, func(i, j int) bool { return out[i].x < out[j].x })
	return out
}

func toLine(e edge) line {
	return line{float64(e.a.x), float64(e.a.y), float64(e.b.x), float64(e.b.y)}
}
