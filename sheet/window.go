package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/rects"
)

// windows keeps the windows of kinds of sheets; empty boxes stand for none.
type windows map[int]r2.Box

func (w windows) of(i int, s Stock, opt Options, stop func() bool) (r2.Box, bool) {
	b, ok := w[i]
	if !ok {
		b, _ = s.window(opt.Margin, opt.Gap, opt.tolerance(), stop)
		w[i] = b
	}
	return b, area(b) > 0
}

func (r *run) window(i int) (r2.Box, bool) { return r.windows.of(i, r.stock[i], r.opt, r.late) }

// window returns the largest rectangle along the axes of a sheet that keeps the
// margin from its edge and the gap from what is forbidden, or the largest found
// until stop. It is exact where all edges run along the axes, and no other is
// larger by more than 0.1 % where they do not.
func (s Stock) window(margin, gap, tol float64, stop func() bool) (r2.Box, bool) {
	if s.whole() {
		b := box(margin, margin, s.Length-margin, s.Width-margin)
		return b, area(b) > 0
	}
	c, ok := s.clearing(margin, gap, tol)
	if !ok {
		return r2.Box{}, false
	}
	b := c.Largest(stop)
	return b, area(b) > 0
}

// clearing returns the room of a sheet. Holes in what is forbidden are room too.
func (s Stock) clearing(margin, gap, tol float64) (c rects.Clearing, ok bool) {
	edge, ok := grownLoop(s.Shape().Outer.Reverse(), margin, tol)
	if !ok {
		return c, false
	}
	c.Sheet = [][]r2.Vec{edge}
	for _, h := range s.Outline.Holes {
		c.Solids = append(c.Solids, solidLoops(arc.Region{Outer: h.Reverse()}, margin, tol))
	}
	for _, f := range s.Forbidden {
		c.Solids = append(c.Solids, solidLoops(f, gap, tol))
	}
	return c, true
}

// solidLoops returns the loops of a region grown by d.
func solidLoops(g arc.Region, d, tol float64) [][]r2.Vec {
	outer, holes := grown(g, d, tol)
	return append([][]r2.Vec{outer}, holes...)
}

// framing looks for offcuts within the windows.
func (w windows) framing(opt Options) framing {
	return func(i int, s Stock) r2.Box {
		b, _ := w.of(i, s, opt, unstopped)
		return b
	}
}

func unstopped() bool { return false }
