package place

import (
	"math"
	"sort"
	"sync/atomic"
)

// A table answers, for two shapes a and b and any displacement v of b from a,
// whether they overlap, exactly, and how badly. It lays a raster over the
// box of the no-fit region. A cell that no edge of the convolution crosses is
// either free or blocked as a whole. Each other cell keeps its edges and the
// winding number of one point of it: the winding number of v differs by the
// edges between the two.
type table struct {
	x0, y0 float64 // corner of the raster
	inv    float64 // cells per grid unit, a power of two
	size   float64 // grid units per cell
	nx, ny int
	cells  []int32 // 0 free, -1 blocked, else index in mixed
	mixed  []mixedCell
	lines  []line
	val    []atomic.Uint32 // severity at the (nx+1)(ny+1) nodes as float32 bits, 0 where not known
	a, b   *solid
}

type mixedCell struct {
	first, end int32 // its edges in lines
	winding    int32 // about its reference point
}

type line struct{ ax, ay, bx, by float64 }

// The reference point of a cell is off all grid points, but its coordinates
// are multiples of 1/16: an edge spans at most 2^24 units and starts at most
// 2^25 away, so that products stay within 53 bits and are exact.
const refX, refY = 7.0 / 16, 5.0 / 16

// newTable builds the table with about res cells along the longer side.
func newTable(a, b *solid, res int) *table {
	es := convolution(a.tour, b.tour)
	bx := box{a.box.x0 - b.box.x1, a.box.y0 - b.box.y1, a.box.x1 - b.box.x0, a.box.y1 - b.box.y0}
	t := &table{a: a, b: b}
	long := max(bx.x1-bx.x0, bx.y1-bx.y0)
	t.size = math.Max(1, math.Exp2(math.Ceil(math.Log2(float64(long)/float64(res)))))
	t.inv = 1 / t.size
	t.x0, t.y0 = math.Floor(float64(bx.x0)*t.inv)*t.size, math.Floor(float64(bx.y0)*t.inv)*t.size
	t.nx = int((float64(bx.x1)-t.x0)*t.inv) + 1
	t.ny = int((float64(bx.y1)-t.y0)*t.inv) + 1
	t.cells = make([]int32, t.nx*t.ny)
	t.fill(es, t.bin(es))
	t.val = make([]atomic.Uint32, (t.nx+1)*(t.ny+1))
	return t
}

// bytes is about the memory taken.
func (t *table) bytes() int { return 8*len(t.cells) + 12*cap(t.mixed) + 32*cap(t.lines) + 200 }

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
		y := t.y0 + float64(r)*t.size + refY
		cross := crossings(es, y)
		w := int32(0)
		for c := 0; c < t.nx; c++ {
			x := t.x0 + float64(c)*t.size + refX
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
func (l line) side(x, y float64) float64 {
	return (l.bx-l.ax)*(y-l.ay) - (l.by-l.ay)*(x-l.ax)
}

func (t *table) fillCell(cell int, w int32, es []edge, keys []uint64) []uint64 {
	first := int32(len(t.lines))
	for len(keys) > 0 && keys[0]>>32 == uint64(cell) {
		e := es[uint32(keys[0])]
		t.lines = append(t.lines, toLine(e))
		keys = keys[1:]
	}
	switch {
	case first != int32(len(t.lines)):
		t.cells[cell] = int32(len(t.mixed))
		t.mixed = append(t.mixed, mixedCell{first, int32(len(t.lines)), w})
	case w > 0:
		t.cells[cell] = -1
	}
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

// node returns the severity at a node of the raster, worked out when first
// asked for. Goroutines that meet here store the same value.
func (t *table) node(i int) float64 {
	if b := t.val[i].Load(); b != 0 {
		return float64(math.Float32frombits(b))
	}
	w := t.nx + 1
	v := float32(severity(t.a, t.b, t.x0+float64(i%w)*t.size, t.y0+float64(i/w)*t.size))
	t.val[i].Store(math.Float32bits(v))
	return float64(v)
}

// at returns the severity of the overlap at raster coordinates in a cell that
// is not free, and 0 exactly if there is none.
func (t *table) at(fx, fy float64, c, r int) float64 {
	if k := t.cells[r*t.nx+c]; k > 0 && !t.blocked(k, r, c, fx*t.size+t.x0, fy*t.size+t.y0) {
		return 0
	}
	fx -= float64(c)
	fy -= float64(r)
	i := r*(t.nx+1) + c
	v0, v1 := t.node(i), t.node(i+t.nx+1)
	v0 += fx * (t.node(i+1) - v0)
	v1 += fx * (t.node(i+t.nx+2) - v1)
	return v0 + fy*(v1-v0)
}

// blocked decides a point of mixed cell k: the winding number of the
// reference point plus the turns of the edges crossed on the way. A point on
// an edge is decided on the shapes themselves.
func (t *table) blocked(k int32, r, c int, x, y float64) bool {
	m := t.mixed[k]
	w := m.winding
	px := t.x0 + float64(c)*t.size + refX
	py := t.y0 + float64(r)*t.size + refY
	dx, dy := x-px, y-py
	for _, l := range t.lines[m.first:m.end] {
		sv := l.side(x, y)
		if sv == 0 {
			if l.holds(x, y) {
				return overlaps(t.a.region, t.b.region, pt{int64(x), int64(y)})
			}
			continue
		}
		if (sv > 0) == (l.side(px, py) > 0) {
			continue
		}
		sa := dx*(l.ay-py) - dy*(l.ax-px)
		sb := dx*(l.by-py) - dy*(l.bx-px)
		if (sa > 0) != (sb > 0) {
			if sv > 0 {
				w++
			} else {
				w--
			}
		}
	}
	return w > 0
}

func (l line) holds(x, y float64) bool {
	return math.Min(l.ax, l.bx) <= x && x <= math.Max(l.ax, l.bx) &&
		math.Min(l.ay, l.by) <= y && y <= math.Max(l.ay, l.by)
}
