package arc

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

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

// Length returns the length of all loops in mm.
func (r Region) Length() float64 {
	sum := 0.0
	for _, p := range r.Loops() {
		sum += p.Length()
	}
	return sum
}

// Closest returns the loop that comes nearest to q, numbered as in
// [Region.Loops], the length along it and the point there; of equals the first.
// An empty region gives NaN.
func (r Region) Closest(q r2.Vec) (loop int, l float64, pt r2.Vec) {
	l, pt = r.Outer.Closest(q)
	for i, h := range r.Holes {
		at, foot := h.Closest(q)
		if r2.Norm2(r2.Sub(q, foot)) < r2.Norm2(r2.Sub(q, pt)) {
			loop, l, pt = i+1, at, foot
		}
	}
	return loop, l, pt
}

// Flatten returns the region with every loop flattened: see [Path.Flatten].
func (r Region) Flatten(tol float64) (Region, error) {
	var out Region
	for i, p := range r.Loops() {
		f, err := p.Flatten(tol)
		if err != nil {
			return Region{}, err
		}
		if i == 0 {
			out.Outer = f
		} else {
			out.Holes = append(out.Holes, f)
		}
	}
	return out, nil
}

// String returns the text forms of the loops, a line for each: see
// [Path.String].
func (r Region) String() string {
	var b strings.Builder
	for i, p := range r.Loops() {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.String())
	}
	return b.String()
}
