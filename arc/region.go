package arc

import "gonum.org/v1/gonum/spatial/r2"

// A Region is a piece of the plane: inside a counter-clockwise outer loop and
// outside its clockwise holes.
type Region struct {
	Outer Path
	Holes []Path
}

// Loops returns the outer loop and then the holes.
func (r Region) Loops() []Path {
	return append([]Path{r.Outer}, r.Holes...)
}

// Area returns the area of the region in mm².
func (r Region) Area() float64 {
	sum := r.Outer.Area()
	for _, h := range r.Holes {
		sum += h.Area()
	}
	return sum
}

// Bounds returns the extent of the outer loop.
func (r Region) Bounds() r2.Box { return r.Outer.Bounds() }

// Transform returns the region moved by m. Loops keep their orientation: a
// mirrored loop is also run the other way.
func (r Region) Transform(m Motion) Region {
	move := func(p Path) Path {
		p = p.Transform(m)
		if m.Mirrors() {
			p = p.Reverse()
		}
		return p
	}
	out := Region{Outer: move(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, move(h))
	}
	return out
}
