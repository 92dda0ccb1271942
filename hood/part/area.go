package part

import (
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/sheet/cut"
)

// Levels returns the heights of the lower and the upper edge at a depth.
//
// This and the next three are of parts with four edges, bottom, right, top and
// left; a part of another number is as high and wide as its outline.
func (p Part) Levels(depth float64) (low, high float64) {
	if !p.framed() {
		b := p.Outline.Bounds()
		return b.Min.Y, b.Max.Y
	}
	f := depth / p.Thickness
	at := func(e Edge) float64 { return e.Show.V[0].P.Y + f*(e.Back.V[0].P.Y-e.Show.V[0].P.Y) }
	return at(p.Edges[0]), at(p.Edges[2])
}

// AreaAt returns the area at a depth of a part between a left and a right
// edge, by Simpson's rule over its height.
func (p Part) AreaAt(depth float64) float64 {
	low, high := p.Levels(depth)
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
		sum += w * (p.Across(1, y, depth) - p.Across(3, y, depth))
	}
	return sum * (high - low) / n / 3
}

// Across returns how far right an edge stands at a height and a depth: 1 for
// the right edge, 3 for the left.
func (p Part) Across(edge int, y, depth float64) float64 {
	if !p.framed() || edge < 0 || edge > 3 {
		if b := p.Outline.Bounds(); edge == 3 {
			return b.Min.X
		} else {
			return b.Max.X
		}
	}
	show, back := rise.OutAt(p.Edges[edge].Show, y), rise.OutAt(p.Edges[edge].Back, y)
	return show + depth/p.Thickness*(back-show)
}

// framed reports whether the part has four edges.
func (p Part) framed() bool {
	if len(p.Edges) != 4 {
		return false
	}
	for _, e := range p.Edges {
		if len(e.Show.V) < 2 || len(e.Back.V) < 2 {
			return false
		}
	}
	return true
}

// SlotDepth returns the depth of a slot as far as no bevel has taken the wood
// above it.
func (p Part) SlotDepth(s cut.Slot) float64 {
	low, high := p.Levels(p.Thickness)
	top := p.Thickness
	switch y := s.From.Y; {
	case low > y:
		top *= y / low
	case y > high:
		length := p.Outline.Bounds().Max.Y
		top *= (length - y) / (length - high)
	}
	return max(0, top-(p.Thickness-s.Depth))
}
