package place

import "sync/atomic"

const tableBytes = 120e6 // memory for tables

type tableKey struct {
	a, b int32 // forms
	q    int   // turn of b against a
}

// A view is a table seen by a pair of shapes: the displacement is turned by
// right angles and moved before the table is asked.
type view struct {
	cells          []int32
	nx             int
	xx, xy, yx, yy float64 // to raster coordinates
	dx, dy         float64
	t              *table // nil where memory is short:
	a, b           *shape // then the shapes themselves are asked
}

// at is the severity of the overlap of the second shape moved by (x, y) with
// the first, 0 exactly if they do not overlap. Their boxes have to.
func (v *view) at(x, y float64) float64 {
	fx, fy := v.xx*x+v.xy*y+v.dx, v.yx*x+v.yy*y+v.dy
	c, r := int(fx), int(fy)
	k := r*v.nx + c
	if uint(k) >= uint(len(v.cells)) {
		return v.direct(x, y)
	}
	if v.cells[k] == 0 {
		return 0
	}
	return v.t.at(fx, fy, c, r)
}

// direct works without a table.
func (v *view) direct(x, y float64) float64 {
	if v.a == nil {
		return 0
	}
	a, b := v.a.solid(), v.b.solid()
	d := pt{int64(x), int64(y)}.add(v.b.t).sub(v.a.t)
	if !overlaps(a.region, b.region, d) {
		return 0
	}
	return severity(a, b, float64(d.x), float64(d.y))
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
	if p.bytes > tableBytes {
		v := &view{a: a, b: b}
		slot.Store(v)
		return v
	}
	sign := 1.0
	if a.id > b.id || a.id == b.id && (b.quarter-a.quarter)&3 == 3 {
		a, b, sign = b, a, -1
	}
	k := tableKey{a.id, b.id, (b.quarter - a.quarter) & 3}
	t := p.tables[k]
	if t == nil {
		t = newTable(a.turns[0], b.turns[k.q], p.res)
		p.tables[k] = t
		p.bytes += t.bytes()
	}
	ex, ey, d := pt{1, 0}.quarter(-a.quarter), pt{0, 1}.quarter(-a.quarter), b.t.sub(a.t).quarter(-a.quarter)
	v := &view{t: t, cells: t.cells, nx: t.nx}
	v.dx, v.dy = (float64(d.x)-t.x0)*t.inv, (float64(d.y)-t.y0)*t.inv
	v.xx, v.yx = sign*t.inv*float64(ex.x), sign*t.inv*float64(ex.y)
	v.xy, v.yy = sign*t.inv*float64(ey.x), sign*t.inv*float64(ey.y)
	slot.Store(v)
	return v
}
