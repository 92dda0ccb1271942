package rects

import (
	"cmp"
	"slices"
)

// A Cut is one edge-to-edge cut of a rectangle that is lying free: parallel to
// the width at a height At, or parallel to the height at an At from the left,
// from From to To along it.
type Cut struct {
	Stage    int // from 1
	AlongW   bool
	At       float64
	From, To float64
	Room     Placed // the piece that the cuts of this stage divide
}

// Cuts returns the edge-to-edge cuts that free every piece of a layout, each
// stage's before the next within one part of the bin, and the number of
// stages; ok is false where some piece cannot be freed by straight cuts. The
// first stage runs along the width where alongW is set. Every cut possible at
// a stage is made in it, so the number of stages is the least for that start.
func Cuts(placed []Placed, bin Size, alongW bool) (cuts []Cut, stages int, ok bool) {
	c := &cutter{eps: slack(bin)}
	ok = c.part(placed, Placed{W: bin.W, H: bin.H}, alongW, 1, false)
	return c.cuts, c.stages, ok
}

type cutter struct {
	eps    float64
	cuts   []Cut
	stages int
}

// interval returns a piece's extent across the cuts.
func interval(p Placed, alongW bool) (lo, hi float64) {
	if alongW {
		return p.Y, p.Y + p.H
	}
	return p.X, p.X + p.W
}

func (c *cutter) part(pieces []Placed, room Placed, alongW bool, stage int, stuck bool) bool {
	if len(pieces) == 0 {
		return true
	}
	groups := c.groups(pieces, alongW)
	lo, hi := interval(room, alongW)
	made, ok, from := false, true, lo
	for i, g := range groups {
		if g.lo > from+c.eps && i == 0 {
			c.cut(room, alongW, g.lo, stage)
			made = true
		}
		end := g.hi
		if end < hi-c.eps {
			c.cut(room, alongW, end, stage)
			made = true
			if i+1 < len(groups) && groups[i+1].lo > end+c.eps {
				c.cut(room, alongW, groups[i+1].lo, stage)
			}
		}
		from = end
	}
	if !made && stuck {
		return len(pieces) == 1
	}
	next := stage
	if made {
		c.stages = max(c.stages, stage)
		next++
	}
	for _, g := range groups {
		ok = c.part(g.pieces, within(room, alongW, g), !alongW, next, !made) && ok
	}
	return ok
}

func (c *cutter) cut(room Placed, alongW bool, at float64, stage int) {
	from, to := interval(room, !alongW)
	c.cuts = append(c.cuts, Cut{stage, alongW, at, from, to, room})
}

func within(room Placed, alongW bool, g group) Placed {
	if alongW {
		room.Y, room.H = g.lo, g.hi-g.lo
	} else {
		room.X, room.W = g.lo, g.hi-g.lo
	}
	return room
}

// A group is pieces that no cut can part.
type group struct {
	lo, hi float64
	pieces []Placed
}

func (c *cutter) groups(pieces []Placed, alongW bool) []group {
	sorted := slices.Clone(pieces)
	slices.SortStableFunc(sorted, func(a, b Placed) int {
		la, _ := interval(a, alongW)
		lb, _ := interval(b, alongW)
		return cmp.Compare(la, lb)
	})
	var out []group
	for _, p := range sorted {
		lo, hi := interval(p, alongW)
		if n := len(out); n > 0 && lo < out[n-1].hi-c.eps {
			out[n-1].hi = max(out[n-1].hi, hi)
			out[n-1].pieces = append(out[n-1].pieces, p)
			continue
		}
		out = append(out, group{lo, hi, []Placed{p}})
	}
	return out
}
