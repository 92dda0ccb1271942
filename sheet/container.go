package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/place"
)

// bare reports whether parts as they are, not as grown by half the gap, are
// held against the outlines of sheets: where the margin is narrower than that
// and a sheet is no rectangle. The outline of a rectangle is simply moved
// outward; a notch moved so would let parts into the notch itself.
func (r *run) bare() bool {
	return r.opt.Margin < r.opt.Gap/2 && slices.ContainsFunc(r.group.stock, func(i int) bool { return r.stock[i].irregular() })
}

// core returns the outlines of a part, and none where the grown ones do.
func (r *run) core(p Part) [][]r2.Vec {
	if !r.bare() {
		return nil
	}
	o, h := grown(p.Outline, 0, r.opt.tolerance())
	return append([][]r2.Vec{o}, h...)
}

// containers returns what the engine's items have to stay in, and how far each
// container has been shifted. Where the items are held against it as grown by
// half the gap it is the sheet less the margin, plus half the gap. A sheet that
// the margin eats up becomes a speck.
func (r *run) containers(sheets []int) (out []place.Container, shift []r2.Vec) {
	given, around := r.opt.Gap/2, r.opt.Gap/2 // of the gap, by the items and by what they keep off
	if r.bare() {
		given, around = 0, r.opt.Gap
	}
	for _, i := range sheets {
		s := r.stock[i]
		c, at := r.room(s, r.opt.Margin-given)
		for _, h := range s.Outline.Holes {
			c.Forbidden = append(c.Forbidden, r.solid(arc.Region{Outer: h.Reverse()}, math.Max(0, r.opt.Margin-given), at))
		}
		for _, f := range s.Forbidden {
			c.Forbidden = append(c.Forbidden, r.solid(f, around, at))
		}
		out, shift = append(out, c), append(shift, at)
	}
	return out, shift
}

// room returns a sheet without what is forbidden, an irregular one moved inward
// by an inset.
func (r *run) room(s Stock, inset float64) (c place.Container, at r2.Vec) {
	const speck = 1e-6
	if !s.irregular() {
		d := r.opt.Margin - r.opt.Gap/2
		return place.Container{Width: math.Max(speck, s.Length-2*d), Height: math.Max(speck, s.Width-2*d)}, r2.Vec{X: d, Y: d}
	}
	edge, ok := grownLoop(s.Outline.Outer.Reverse(), inset, r.opt.tolerance())
	if !ok {
		return place.Container{Width: speck, Height: speck}, at
	}
	slices.Reverse(edge)
	c.Outer = edge
	if r.bare() {
		c.Beyond = r.opt.Gap / 2
	}
	return c, at
}

// solid returns a region grown by d, seen from at.
func (r *run) solid(g arc.Region, d float64, at r2.Vec) place.Obstacle {
	loops := solidLoops(g, d, r.opt.tolerance())
	for i, l := range loops {
		loops[i] = slices.Clone(l)
		for j := range l {
			loops[i][j] = r2.Sub(l[j], at)
		}
	}
	return place.Obstacle{Outer: loops[0], Holes: loops[1:]}
}
