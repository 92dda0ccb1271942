package place

import (
	"math"
	"slices"
)

// started returns the outcome that Options.Start describes, or nil where it is
// none that is legal on the grid.
func (r *fitRun) started(items []int32) *outcome {
	if len(r.opt.Start) == 0 {
		return nil
	}
	first := map[int32]int32{}
	for c, it := range items {
		if _, ok := first[it]; !ok {
			first[it] = int32(c)
		}
	}
	in := make([]bool, len(items))
	by := make([]filled, len(r.sites))
	for _, pl := range r.opt.Start {
		if pl.Item < 0 || pl.Item >= r.p.fixed || pl.Container < 0 || pl.Container >= len(r.sites) ||
			pl.Copy < 0 || pl.Copy >= r.p.items[pl.Item].demand() {
			return nil
		}
		c := first[int32(pl.Item)] + int32(pl.Copy)
		o, ok := r.p.shapeOf(pl)
		if !ok || in[c] || !r.p.allowed(int32(pl.Item), pl.Container) {
			return nil
		}
		in[c] = true
		s, sh := &r.sites[pl.Container], r.p.shapes[o]
		f := &by[pl.Container]
		f.p, f.site = r.p, pl.Container
		f.copies, f.item = append(f.copies, c), append(f.item, int32(pl.Item))
		f.layout.add(o, math.Round((pl.At.X-s.corner.X-sh.shift.X)/r.p.unit), math.Round((pl.At.Y-s.corner.Y-sh.shift.Y)/r.p.unit))
	}
	out := &outcome{}
	for _, f := range by {
		if len(f.copies) == 0 {
			continue
		}
		if !r.legal(&f) {
			return nil
		}
		out.placed = append(out.placed, f)
		out.length = f.length
	}
	for _, c := range r.order(items) {
		if !in[c] {
			out.left = append(out.left, c)
		}
	}
	out.missing = r.missing(out.left, items)
	return out
}

func (p *problem) shapeOf(pl Placement) (int32, bool) {
	for _, o := range p.turns[pl.Item] {
		if s := p.shapes[o]; s.angle == pl.Rotation && s.mirrored == pl.Mirrored {
			return o, true
		}
	}
	return 0, false
}

// legal reports whether the copies lie within their container and overlap
// nothing, and notes the used length.
func (r *fitRun) legal(f *filled) bool {
	m := &improver{run: r}
	l := m.newRow([]filled{*f})
	f.length = l.length
	for i := range f.copies {
		if x, y, ok := l.inside(l.o[i], l.x[i], l.y[i]); !ok || x != l.x[i] || y != l.y[i] {
			return false
		}
	}
	return l.total() == 0
}

// withTurns returns the items with the turns of a layout among those to try:
// where an item may take any turn, and first where not all of its turns are
// tried.
func withTurns(items []Item, start []Placement) []Item {
	items = slices.Clone(items)
	for _, pl := range start {
		if pl.Item < 0 || pl.Item >= len(items) || !(math.Abs(pl.Rotation) <= math.MaxFloat64) {
			continue
		}
		it := &items[pl.Item]
		turns := it.angles()
		switch k := slices.Index(turns, pl.Rotation); {
		case k > 0 && len(turns)*(1+b2i(it.Mirror)) > mostTurns(len(items)):
			it.Rotations = slices.Concat(turns[k:k+1], turns[:k], turns[k+1:])
		case k < 0 && it.AnyRotation:
			it.Rotations = append(turns[:len(turns):len(turns)], pl.Rotation)
		}
	}
	return items
}
