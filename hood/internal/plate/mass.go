package plate

import (
	"slices"

	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
)

// cutAway returns the volume of pockets and slots, without run-out. A slot is
// as long as the part is wide halfway down it, for the edges are straight.
func (p Plate) cutAway(made part.Part) float64 {
	sum := 0.0
	for _, k := range p.Pockets {
		area := k.Area.Area()
		if p.Cells { // its upright length follows the bevels of the level edges
			low, high := made.Levels(p.Thickness - k.Depth/2)
			box := k.Area.Bounds()
			area = (box.Max.X - box.Min.X) * (high - low)
		}
		sum += area * k.Depth
	}
	for _, s := range slices.Concat(p.Slots, p.Grooves) {
		long := r2.Norm(r2.Sub(s.To, s.From))
		s.Depth = made.SlotDepth(s)
		if p.Cells {
			long = made.Across(1, s.From.Y, p.Thickness-s.Depth/2) - made.Across(3, s.From.Y, p.Thickness-s.Depth/2)
		}
		sum += long * s.Width * s.Depth
		for _, k := range p.Pockets { // where they cross it is cut once
			box := k.Area.Bounds()
			if s.From.Y > box.Min.Y && s.From.Y < box.Max.Y {
				sum -= (box.Max.X - box.Min.X) * s.Width * min(k.Depth, s.Depth)
			}
		}
	}
	return sum
}
