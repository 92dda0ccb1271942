package place

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A site is a container on the grid: a rectangle with obstacles.
type site struct {
	corner    r2.Vec
	w, h      float64 // grid units
	length    float64 // of the true box
	height    float64
	area      float64 // with the forbidden regions, which may overlap
	obstacles []int32 // items of the problem
}

// frame returns the box of a container.
func (c Container) frame() (lo, hi r2.Vec) {
	if c.Outer != nil {
		lo, hi = bounds(c.Outer)
		d := r2.Vec{X: c.Beyond, Y: c.Beyond}
		return r2.Sub(lo, d), r2.Add(hi, d)
	}
	return r2.Vec{}, r2.Vec{X: c.Width, Y: c.Height}
}

// obstacles returns what items may not overlap, relative to the box: the
// forbidden regions, and all outside Outer as a ring.
func (c Container) obstacles() []Item {
	lo, hi := c.frame()
	var out []Item
	for _, f := range c.Forbidden {
		it := Item{Outer: moved(f.Outer, r2.Scale(-1, lo))}
		for _, h := range f.Holes {
			it.Holes = append(it.Holes, moved(h, r2.Scale(-1, lo)))
		}
		out = append(out, it)
	}
	if c.Outer == nil {
		return out
	}
	m := math.Ldexp(1, math.Ilogb(math.Max(hi.X-lo.X, hi.Y-lo.Y))-4)
	x, y := hi.X-lo.X+m, hi.Y-lo.Y+m
	ring := []r2.Vec{{X: -m, Y: -m}, {X: x, Y: -m}, {X: x, Y: y}, {X: -m, Y: y}}
	return append(out, Item{Outer: ring, Holes: [][]r2.Vec{moved(c.Outer, r2.Scale(-1, lo))}})
}

func (s *site) measure(p *problem, c Container) {
	lo, hi := c.frame()
	s.corner, s.length, s.height = lo, hi.X-lo.X, hi.Y-lo.Y
	s.w, s.h = p.floor(s.length), p.floor(s.height)
	s.area = s.length * s.height
	if c.Outer != nil {
		s.area = math.Abs(area(c.Outer)) + c.rim()
	}
}

// rim returns at least the area beyond Outer that items with a core may take:
// a corner that is mitered reaches at most 1.5 times as far as an edge.
func (c Container) rim() float64 {
	d, sum := 1.5*c.Beyond, 0.0
	for i, v := range c.Outer {
		sum += r2.Norm(r2.Sub(at(c.Outer, i+1), v))
	}
	return d * (sum + math.Pi*d)
}
