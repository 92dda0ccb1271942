package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// RoundedRect returns the counter-clockwise rectangle with opposite corners at
// x0, y0 and x1, y1, its corners rounded by a radius from 0 to half the shorter
// side, in mm.
func RoundedRect(x0, y0, x1, y1, radius float64) (Path, error) {
	const fn = "arc.RoundedRect"
	if err := needPoints(fn, r2.Vec{X: x0, Y: y0}, r2.Vec{X: x1, Y: y1}); err != nil {
		return Path{}, err
	}
	x0, x1 = min(x0, x1), max(x0, x1)
	y0, y1 = min(y0, y1), max(y0, y1)
	if !(x1 > x0 && y1 > y0) {
		return Path{}, &ParamError{fn, "sides", min(x1-x0, y1-y0), "mm", "> 0", ErrRange}
	}
	wide, high := x1-x0, y1-y0
	if err := needFinite(fn, "sides", wide+high, "mm"); err != nil {
		return Path{}, err
	}
	if !(radius >= 0 && radius <= min(wide, high)/2) {
		return Path{}, &ParamError{fn, "radius", radius, "mm", ">= 0 and at most half the shorter side", ErrRange}
	}
	if radius == 0 {
		return Rect(x0, y0, x1, y1), nil
	}
	k, r := math.Sqrt2-1, radius // tan(90°/4)
	out := Path{Closed: true}
	add := func(x, y, k float64) {
		out.V = append(out.V, V(x, y, k))
	}
	side := func(x0, y0, x1, y1 float64) {
		if x0 != x1 || y0 != y1 {
			add(x0, y0, 0)
		}
		add(x1, y1, k)
	}
	side(x0+r, y0, x1-r, y0)
	side(x1, y0+r, x1, y1-r)
	side(x1-r, y1, x0+r, y1)
	side(x0, y1-r, x0, y0+r)
	return out, nil
}

// Slot returns the counter-clockwise outline of the way of a disc of the given
// width > 0, in mm, from a to b: two lines and two half circles.
func Slot(a, b r2.Vec, width float64) (Path, error) {
	const fn = "arc.Slot"
	if err := needPoints(fn, a, b); err != nil {
		return Path{}, err
	}
	if err := needPositive(fn, "width", width, "mm"); err != nil {
		return Path{}, err
	}
	u, _ := Segment{A: a, B: b}.Tangents()
	if !(math.Abs(r2.Norm(u)-1) < 1e-9) {
		return Path{}, &ParamError{fn, "b", b, "mm", "a point apart from a", ErrRange}
	}
	n := r2.Scale(width/2, r2.Vec{X: u.Y, Y: -u.X})
	p := Path{V: []Vertex{{r2.Add(a, n), 0}, {r2.Add(b, n), 1}, {r2.Sub(b, n), 0}, {r2.Sub(a, n), 1}}, Closed: true}
	return p, p.Usable()
}

// RegularPolygon returns the counter-clockwise polygon of n equal sides, from 3
// to 100,000, with its corners on the circle of a radius > 0 mm about c, the
// first at the angle start from x. Across flats it measures 2·radius·cos(π/n).
func RegularPolygon(c r2.Vec, n int, radius float64, start Angle) (Path, error) {
	const fn = "arc.RegularPolygon"
	if err := needPoints(fn, c); err != nil {
		return Path{}, err
	}
	if n < 3 || n > 100000 {
		return Path{}, &ParamError{fn, "n", n, "", "3 to 100000", ErrRange}
	}
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "start", float64(start), "rad"); err != nil {
		return Path{}, err
	}
	p := Path{Closed: true}
	for i := range n {
		sin, cos := math.Sincos(float64(start) + 2*math.Pi*float64(i)/float64(n))
		p.V = append(p.V, V(c.X+radius*cos, c.Y+radius*sin, 0))
	}
	return p, p.Usable()
}

// Path returns the arc as an open path from the origin along x to its chord,
// turning left.
func (a Arc) Path() Path { return Path{V: []Vertex{{K: a.k}, V(a.chord, 0, 0)}} }

// Path returns the segment as an open path.
func (s Segment) Path() Path { return Path{V: []Vertex{{s.A, s.K}, {P: s.B}}} }
