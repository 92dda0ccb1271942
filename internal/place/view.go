package place

import "sync/atomic"

const (
	tableBytes = 120e6 // memory for tables and views
	laidBytes  = 250   // of a view, or of a table that is not built
)

type tableKey struct {
	a, b int32 // forms
	q    int   // turn of b against a
}

// A view is a table seen by a pair of shapes: the displacement is turned by
// right angles and moved before the table is asked.
type view struct {
	cells          []int32 // none where the table is not built
	nx             int
	xx, xy, yx, yy float64 // to raster coordinates
	dx, dy         float64
	t              *table
	p              *problem
	slot           *atomic.Pointer[view]
}

// at is the severity of the overlap of the second shape moved by (x, y) with
// the first, 0 exactly if they do not overlap. Their boxes have to.
func (v *view) at(x, y float64) float64 {
	fx, fy := float64(v.xx*x)+float64(v.xy*y)+v.dx, float64(v.yx*x)+float64(v.yy*y)+v.dy
	c, r := int(fx), int(fy)
	k := r*v.nx + c
	if uint(k) >= uint(len(v.cells)) {
		return v.direct(fx, fy, c, r)
	}
	if v.cells[k] == 0 {
		return 0
	}
	return v.t.at(fx, fy, c, r)
}

// tableAsks is how often the shapes are asked before a table is built. Few
// questions are answered sooner without one, and by the same values.
const tableAsks = 12

func (v *view) direct(fx, fy float64, c, r int) float64 {
	if v.cells != nil {
		return 0
	}
	v.ask()
	return v.t.direct(fx, fy, c, r)
}

func (v *view) ask() {
	if v.t.asked.Add(1)%tableAsks == 0 {
		v.p.buildTable(v)
	}
}

// hits reports whether at is above 0.
func (v *view) hits(x, y float64) bool {
	fx, fy := float64(v.xx*x)+float64(v.xy*y)+v.dx, float64(v.yx*x)+float64(v.yy*y)+v.dy
	c, r := int(fx), int(fy)
	k := r*v.nx + c
	if uint(k) < uint(len(v.cells)) {
		return v.t.hits(fx, fy, c, r)
	}
	if v.cells != nil {
		return false
	}
	v.ask()
	return v.t.directHits(fx, fy)
}

// buildTable replaces a view by one of a table that is built.
func (p *problem) buildTable(v *view) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if v.t.cells == nil {
		if p.bytes > tableBytes && !p.rims {
			return
		}
		v.t.build()
		p.bytes += v.t.bytes()
	}
	w := *v
	w.cells = v.t.cells
	v.slot.Store(&w)
}

// forget drops the tables where they have taken all the memory, so that those of the
// pairs that meet now find room.
func (p *problem) forget() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.bytes <= tableBytes || p.rims {
		return
	}
	p.tables = map[tableKey]*table{}
	p.bytes = 0
	for i := range p.pairs {
		p.pairs[i].Store(nil)
	}
}

// pair returns the view for shape b against shape a.
func (p *problem) pair(a, b int32) *view {
	slot := &p.pairs[int(b)*len(p.shapes)+int(a)]
	if v := slot.Load(); v != nil {
		return v
	}
	return p.makePair(p.shapes[a], p.shapes[b], slot)
}

// makePair reduces a pair of shapes to one of forms: turning both by the same
// angle, and exchanging them while negating the displacement, changes nothing.
func (p *problem) makePair(a, b *shape, slot *atomic.Pointer[view]) *view {
	p.mu.Lock()
	defer p.mu.Unlock()
	a, b = p.facing(a, b)
	sign := 1.0
	if a.id > b.id || a.id == b.id && (b.quarter-a.quarter)&3 == 3 {
		a, b, sign = b, a, -1
	}
	k := tableKey{a.id, b.id, (b.quarter - a.quarter) & 3}
	t := p.tables[k]
	if t == nil {
		t = layTable(a.turns[0], b.turns[k.q], p.res)
		if p.bytes <= tableBytes {
			p.tables[k] = t
			p.bytes += laidBytes
		}
	}
	ex, ey, d := pt{1, 0}.quarter(-a.quarter), pt{0, 1}.quarter(-a.quarter), b.t.sub(a.t).quarter(-a.quarter)
	v := &view{t: t, cells: t.cells, nx: t.nx, p: p, slot: slot}
	v.dx, v.dy = (float64(d.x)-t.x0)*t.inv, (float64(d.y)-t.y0)*t.inv
	v.xx, v.yx = sign*t.inv*float64(ex.x), sign*t.inv*float64(ex.y)
	v.xy, v.yy = sign*t.inv*float64(ey.x), sign*t.inv*float64(ey.y)
	if p.bytes <= tableBytes { // else it is made anew each time
		slot.Store(v)
		p.bytes += laidBytes
	}
	return v
}
