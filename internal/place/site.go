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
		it := Item{Outer: moved(f.Outer, scaled(-1, lo))}
		for _, h := range f.Holes {
			it.Holes = append(it.Holes, moved(h, scaled(-1, lo)))
		}
		out = append(out, it)
	}
	if c.Outer == nil {
		return out
	}
	m := math.Ldexp(1, math.Ilogb(math.Max(hi.X-lo.X, hi.Y-lo.Y))-4)
	x, y := hi.X-lo.X+m, hi.Y-lo.Y+m
	ring := []r2.Vec{{X: -m, Y: -m}, {X: x, Y: -m}, {X: x, Y: y}, {X: -m, Y: y}}
	return append(out, Item{Outer: ring, Holes: [][]r2.Vec{moved(c.Outer, scaled(-1, lo))}})
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
		sum += norm(r2.Sub(at(c.Outer, i+1), v))
	}
	return d * (sum + float64(math.Pi*d))
}

// A bay is the room of a container in a row of containers side by side. A lane
// with bays keeps every copy within one of them, the last of which ends at the
// width of the lane, and moves copies from one to another as it does within
// one.
type bay struct {
	site    int
	x, w, h float64 // grid units
}

// end returns where bay k ends.
func (l *lane) end(k int) float64 { return min(l.bays[k].x+l.bays[k].w, l.w) }

// bayAt returns the bay that a coordinate belongs to.
func (l *lane) bayAt(x float64) int {
	k := len(l.bays) - 1
	for k > 0 && x < l.bays[k].x {
		k--
	}
	return k
}

// takes reports whether shape o may lie in bay k and fits there.
func (l *lane) takes(o int32, k int) bool {
	s := l.p.shapes[o]
	return float64(s.box.x1-s.box.x0) <= l.end(k)-l.bays[k].x && float64(s.box.y1-s.box.y0) <= l.bays[k].h && l.p.allowed(int32(s.item), l.bays[k].site)
}

// insideBay is inside for the bay that holds the middle of the shape.
func (l *lane) insideBay(o int32, x, y float64) (float64, float64, bool) {
	b := &l.p.shapes[o].box
	k := l.bayAt(x + float64(b.x0+b.x1)/2)
	if !l.takes(o, k) {
		return 0, 0, false
	}
	x0, x1 := l.bays[k].x-float64(b.x0), l.end(k)-float64(b.x1)
	y0, y1 := -float64(b.y0), l.bays[k].h-float64(b.y1)
	return math.Floor(max(x0, min(x1, x))), math.Floor(max(y0, min(y1, y))), true
}

// randBay draws an x over all bays that take shape o.
func (l *lane) randBay(o int32) float64 {
	sum := 0.0
	for k := range l.bays {
		if l.takes(o, k) {
			sum += l.end(k) - l.bays[k].x
		}
	}
	b := &l.p.shapes[o].box
	u := l.rng.Float64() * sum
	for k := range l.bays {
		if !l.takes(o, k) {
			continue
		}
		w := l.end(k) - l.bays[k].x
		if u < w {
			return l.bays[k].x - float64(b.x0) + float64(u/w*(w-float64(b.x1-b.x0)))
		}
		u -= w
	}
	return l.bays[0].x
}

func (p *problem) allowed(item int32, site int) bool {
	list := p.items[item].Containers
	if list == nil {
		return true
	}
	for _, c := range list {
		if c == site {
			return true
		}
	}
	return false
}
