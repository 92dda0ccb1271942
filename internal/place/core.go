package place

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
)

// A core is what alone of an item has to stay off obstacles. Its form turns
// and moves with the shape that it belongs to.

// facing returns two shapes as they meet each other: an obstacle meets the
// core of an item, where it has one.
func (p *problem) facing(a, b *shape) (_, _ *shape) {
	switch {
	case a.item >= p.fixed:
		b = b.cored()
	case b.item >= p.fixed:
		a = a.cored()
	}
	return a, b
}

func (s *shape) cored() *shape {
	if s.core == nil {
		return s
	}
	c := *s
	c.form = s.core
	return &c
}

// addCore brings the core of an item to the grid in the turn of its shape. The
// circles of the whole item do for it, as they measure overlaps and decide none.
func (p *problem) addCore(s *shape, turn Placement) {
	var r region
	for k, l := range p.cores[s.item] {
		if g := p.loop(applyAll(turn, l)); len(g) >= 3 && (area2(g) > 0) == (k == 0) {
			r = append(r, g)
		} else if k == 0 {
			return // smaller than the grid shows: the whole item stays off
		}
	}
	if len(r) > 0 {
		s.core = p.coreForm(r, s.solid())
	}
}

// coreForm is formOf for a core within a shape. Its box is the shape's, as it is
// asked about wherever the shape's box meets an obstacle.
func (p *problem) coreForm(r region, whole *solid) *form {
	key := fmt.Sprint("core", r, whole.box)
	f := p.forms[key]
	if f == nil {
		f = newForm(r, p.first+int32(len(p.forms)), whole.poles)
		for q := range f.turns {
			f.turns[q].box = whole.turn(q).box
			f.turns[q].sure = nil // they lie in the whole
		}
		p.forms[key] = f
	}
	return f
}

// coreOf returns the loops of an item's core relative to the item's origin.
func coreOf(it Item, origin r2.Vec) [][]r2.Vec {
	if len(it.Core) == 0 {
		return nil
	}
	return outlines(Item{Outer: it.Core[0], Holes: it.Core[1:]}, origin)
}

// sameCore reports whether two shapes of one form have equal cores without
// holes, or none.
func sameCore(a, b *shape) bool {
	if a.core == nil || b.core == nil {
		return a.core == b.core
	}
	p, q := a.core.turns[a.quarter].region, b.core.turns[b.quarter].region
	return len(p) == 1 && len(q) == 1 && sameLoop(p[0], q[0])
}
