package place

import (
	"math"
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
	rim    []int32 // the mixed cells
	lines  []line
	val    []atomic.Uint32 // severity at the (nx+1)(ny+1) nodes as float32 bits, 0 where not known
	a, b   *solid
	asked  atomic.Int32 // before it was built
}

type mixedCell struct {
	first, end int32         // its edges in lines
	winding    int32         // about its reference point
	parts      atomic.Uint32 // see partState; 0 where not known yet
}

type line struct{ ax, ay, bx, by float64 }

// The reference point of a cell is off all grid points, but its coordinates
// are multiples of 1/16: an edge spans at most 2^24 units and starts at most
// 2^25 away, so that products stay within 53 bits and are exact.
const refX, refY = 7.0 / 16, 5.0 / 16

// newTable builds the table with about res cells along the longer side.
func newTable(a, b *solid, res int) *table {
	t := layTable(a, b, res)
	t.build()
	return t
}

// layTable is newTable without what takes time: its raster is laid, but the
// shapes have to be asked.
func layTable(a, b *solid, res int) *table {
	bx := box{a.box.x0 - b.box.x1, a.box.y0 - b.box.y1, a.box.x1 - b.box.x0, a.box.y1 - b.box.y0}
	t := &table{a: a, b: b}
	long := max(bx.x1-bx.x0, bx.y1-bx.y0)
	t.size = math.Max(1, math.Exp2(math.Ceil(math.Log2(float64(long)/float64(res)))))
	t.inv = 1 / t.size
	t.x0, t.y0 = math.Floor(float64(bx.x0)*t.inv)*t.size, math.Floor(float64(bx.y0)*t.inv)*t.size
	t.nx = int((float64(bx.x1)-t.x0)*t.inv) + 1
	t.ny = int((float64(bx.y1)-t.y0)*t.inv) + 1
	return t
}

func (t *table) build() {
	es := convolution(t.a.tour, t.b.tour)
	t.cells = make([]int32, t.nx*t.ny)
	t.fill(es, t.bin(es))
	t.val = make([]atomic.Uint32, (t.nx+1)*(t.ny+1))
}

// bytes is about the memory taken.
func (t *table) bytes() int {
	return 8*len(t.cells) + 4*cap(t.rim) + 16*cap(t.mixed) + 32*cap(t.lines) + 200
}

// node returns the severity at a node of the raster, worked out when first
// asked for. Goroutines that meet here store the same value.
func (t *table) node(i int) float64 {
	if b := t.val[i].Load(); b != 0 {
		return float64(math.Float32frombits(b))
	}
	w := t.nx + 1
	v := t.severity(i%w, i/w)
	t.val[i].Store(math.Float32bits(v))
	return float64(v)
}

func (t *table) severity(c, r int) float32 {
	return float32(severity(t.a, t.b, t.x0+float64(float64(c)*t.size), t.y0+float64(float64(r)*t.size)))
}

// direct is at for a table that is not built, and directHits is hits.
func (t *table) direct(fx, fy float64, c, r int) float64 {
	if !t.directHits(fx, fy) {
		return 0
	}
	return blend(fx-float64(c), fy-float64(r), float64(t.severity(c, r)), float64(t.severity(c+1, r)),
		float64(t.severity(c, r+1)), float64(t.severity(c+1, r+1)))
}

func (t *table) directHits(fx, fy float64) bool {
	return t.surely(float64(fx*t.size)+t.x0, float64(fy*t.size)+t.y0) ||
		overlaps(t.a.region, t.b.region, pt{int64(float64(fx*t.size) + t.x0), int64(float64(fy*t.size) + t.y0)})
}

const (
	sureCircles = 4 // of each shape that are held against each other
	sureDepth   = 8 // grid units: more than rounding puts circles beyond outlines
)

// surely reports whether circles inside the two shapes overlap, which is quick to
// tell; if they do not, the shapes may.
func (t *table) surely(x, y float64) bool {
	for _, p := range t.a.sure {
		for _, q := range t.b.sure {
			dx, dy, r := x+q.x-p.x, y+q.y-p.y, p.r+q.r-sureDepth
			if r > 0 && float64(dx*dx)+float64(dy*dy) < float64(r*r) {
				return true
			}
		}
	}
	return false
}

// blend interpolates between the corners of a cell.
func blend(fx, fy, v00, v10, v01, v11 float64) float64 {
	v00 += float64(fx * (v10 - v00))
	v01 += float64(fx * (v11 - v01))
	return v00 + float64(fy*(v01-v00))
}

// at returns the severity of the overlap at raster coordinates in a cell that
// is not free, and 0 exactly if there is none.
func (t *table) at(fx, fy float64, c, r int) float64 {
	if !t.hits(fx, fy, c, r) {
		return 0
	}
	i := r*(t.nx+1) + c
	return blend(fx-float64(c), fy-float64(r), t.node(i), t.node(i+1), t.node(i+t.nx+1), t.node(i+t.nx+2))
}

// hits reports whether there is an overlap.
func (t *table) hits(fx, fy float64, c, r int) bool {
	k := t.cells[r*t.nx+c]
	if k <= 0 {
		return k < 0
	}
	switch t.partState(k, r, c, fx-float64(c), fy-float64(r)) {
	case partFree:
		return false
	case partMixed:
		return t.blocked(k, r, c, float64(fx*t.size)+t.x0, float64(fy*t.size)+t.y0)
	}
	return true
}

// blocked decides a point of mixed cell k: the winding number of the
// reference point plus the turns of the edges crossed on the way. A point on
// an edge is decided on the shapes themselves.
func (t *table) blocked(k int32, r, c int, x, y float64) bool {
	m := &t.mixed[k]
	px, py := t.ref(r, c)
	w := m.winding
	for i := range t.lines[m.first:m.end] {
		l := &t.lines[int(m.first)+i]
		sv := l.side(x, y)
		if sv == 0 {
			if l.holds(x, y) {
				return overlaps(t.a.region, t.b.region, pt{int64(x), int64(y)})
			}
			continue
		}
		w += l.passed(px, py, x, y, sv)
	}
	return w > 0
}

// ref returns the reference point of a cell.
func (t *table) ref(r, c int) (x, y float64) {
	return t.x0 + float64(float64(c)*t.size) + refX, t.y0 + float64(float64(r)*t.size) + refY
}

// passed returns what the edge adds to the winding number on the way from p to
// (x, y), which is to the left of the edge's line where side is positive.
func (l *line) passed(px, py, x, y, side float64) int32 {
	if (side > 0) == (l.side(px, py) > 0) {
		return 0
	}
	dx, dy := x-px, y-py
	sa := float64(dx*(l.ay-py)) - float64(dy*(l.ax-px))
	sb := float64(dx*(l.by-py)) - float64(dy*(l.bx-px))
	switch {
	case (sa > 0) == (sb > 0):
		return 0
	case side > 0:
		return 1
	}
	return -1
}

func (l *line) holds(x, y float64) bool {
	return math.Min(l.ax, l.bx) <= x && x <= math.Max(l.ax, l.bx) &&
		math.Min(l.ay, l.by) <= y && y <= math.Max(l.ay, l.by)
}

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
		x := t.x0 + float64((float64(c)+float64(i%parts)/parts)*t.size)
		y := t.y0 + float64((float64(r)+float64(i/parts)/parts)*t.size)
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
