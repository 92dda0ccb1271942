package hood

import (
	"slices"

	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// levels returns the heights of the lower and the upper edge at a depth.
func (p Part) levels(depth float64) (low, high float64) {
	f := depth / p.Thickness
	at := func(e Edge) float64 { return e.Show.V[0].P.Y + f*(e.Back.V[0].P.Y-e.Show.V[0].P.Y) }
	return at(p.Edges[0]), at(p.Edges[2])
}

// areaAt returns the area at a depth of a part between a left and a right
// edge, by Simpson's rule over its height.
func (p Part) areaAt(depth float64) float64 {
	low, high := p.levels(depth)
	const n = 64
	sum := 0.0
	for i := range n + 1 {
		y := low + (high-low)*float64(i)/n
		w := 2.0
		switch {
		case i == 0 || i == n:
			w = 1
		case i%2 == 1:
			w = 4
		}
		sum += w * (p.across(1, y, depth) - p.across(3, y, depth))
	}
	return sum * (high - low) / n / 3
}

// cutAway returns the volume of pockets and slots, without run-out. A slot is
// as long as the part is wide halfway down it, for the edges are straight.
func (p plate) cutAway(made Part) float64 {
	sum := 0.0
	for _, k := range p.pockets {
		area := k.area.Area()
		if p.cells { // its upright length follows the bevels of the level edges
			low, high := made.levels(p.thickness - k.depth/2)
			box := k.area.Bounds()
			area = (box.Max.X - box.Min.X) * (high - low)
		}
		sum += area * k.depth
	}
	for _, s := range slices.Concat(p.slots, p.grooves) {
		long := r2.Norm(r2.Sub(s.To, s.From))
		s.Depth = made.slotDepth(s)
		if p.cells {
			long = made.across(1, s.From.Y, p.thickness-s.Depth/2) - made.across(3, s.From.Y, p.thickness-s.Depth/2)
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

// slotDepth returns the depth of a slot as far as no bevel has taken the wood
// above it.
func (p Part) slotDepth(s cut.Slot) float64 {
	low, high := p.levels(p.Thickness)
	top := p.Thickness
	if length := p.Outline.Bounds().Max.Y; low > s.From.Y {
		top *= s.From.Y / low
	} else if length-high > length-s.From.Y {
		top *= (length - s.From.Y) / (length - high)
	}
	return max(0, top-(p.Thickness-s.Depth))
}
