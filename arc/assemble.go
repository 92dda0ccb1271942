package arc

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// assemble makes regions of loops that do not cross: every clockwise loop
// becomes a hole of the smallest counter-clockwise one around it.
func assemble(loops []Path) []Region {
	var out []Region
	var area []float64
	for _, p := range loops {
		if p.Area() > 0 {
			out = append(out, Region{Outer: p})
			area = append(area, p.Area())
		}
	}
	boxes := make([]r2.Box, len(out))
	for i := range out {
		boxes[i] = out[i].Outer.Bounds()
	}
	x := newIndex(boxes)
	for _, h := range loops {
		if h.Area() > 0 {
			continue
		}
		var around []int
		b := h.Bounds()
		x.search(b, func(i int) bool { around = append(around, i); return true })
		slices.SortFunc(around, func(i, j int) int { return cmp.Or(cmp.Compare(area[i], area[j]), i-j) })
		for _, i := range around {
			if area[i] > -h.Area() && encloses(out[i].Outer, h) {
				out[i].Holes = append(out[i].Holes, h)
				break
			}
		}
	}
	return out
}

// encloses reports whether loop p is around loop q, which does not cross it;
// they may touch.
func encloses(p, q Path) bool {
	for i := range q.V {
		if side := p.Locate(q.Segment(i).Mid()); side != OnBoundary {
			return side == Inside
		}
	}
	return true
}
