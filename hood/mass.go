package hood

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// cutAway returns the volume of pockets and slots, without run-out. A slot is
// as long as the part is wide halfway down it, for the edges are straight.
func (p plate) cutAway(made Part) float64 {
	sum := 0.0
	for _, k := range p.pockets {
		area := k.area.Area()
		if p.cells { // its upright length follows the bevels of the level edges
			low, high := made.Levels(p.thickness - k.depth/2)
			box := k.area.Bounds()
			area = (box.Max.X - box.Min.X) * (high - low)
		}
		sum += area * k.depth
	}
	for _, s := range slices.Concat(p.slots, p.grooves) {
		long := r2.Norm(r2.Sub(s.To, s.From))
		s.Depth = made.SlotDepth(s)
		if p.cells {
			long = made.Across(1, s.From.Y, p.thickness-s.Depth/2) - made.Across(3, s.From.Y, p.thickness-s.Depth/2)
		}
		sum += long * s.Width * s.Depth
		for _, k := range p.pockets { // where they cross it is cut once
			box := k.area.Bounds()
			if s.From.Y > box.Min.Y && s.From.Y < box.Max.Y {
				sum -= (box.Max.X - box.Min.X) * s.Width * min(k.depth, s.Depth)
			}
		}
	}
	return sum
}
