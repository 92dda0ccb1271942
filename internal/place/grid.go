package place

import (
	"example.com/sagitta/internal/num"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	fineBits    = 23 // extents of items take up to 2^23 grid units
	latticeBits = 19 // a common lattice may have up to 2^19 steps per extent
)

// A grid is the integer grid of one search. All collision decisions are made
// on it and are exact there.
//
// Where all coordinates are multiples of a common step (drawings in whole or
// tenth millimetres, in 1/32 inch) the grid holds them exactly, so that parts
// that fit exactly do fit. Otherwise outlines are grown by a unit or two,
// about 2e-7 of the largest item, and rounded, so that the grid outline holds
// the true one.
type grid struct {
	unit float64 // length of a grid unit
	step int64   // units per lattice step; 0 where there is no lattice
}

// newGrid chooses the grid for polygons given relative to their own corner.
func newGrid(polys [][]r2.Vec, rightAngles bool) grid {
	ext := 0.0
	for _, p := range polys {
		for _, v := range p {
			ext = math.Max(ext, math.Max(math.Abs(v.X), math.Abs(v.Y)))
		}
	}
	if ext == 0 {
		return grid{unit: 1}
	}
	if g := lattice(polys, ext); g > 0 && rightAngles {
		k := math.Floor(math.Log2(math.Ldexp(1, fineBits) * g / ext))
		return grid{unit: math.Ldexp(g, -int(k)), step: int64(math.Ldexp(1, int(k)))}
	}
	return grid{unit: math.Ldexp(ext, -fineBits)}
}

// lattice returns the largest step of which all coordinates are multiples, or
// 0 if there is none that is coarse enough.
func lattice(polys [][]r2.Vec, ext float64) float64 {
	tol := ext * 1e-10
	limit := math.Ldexp(ext, -latticeBits)
	g := 0.0
	for _, p := range polys {
		for _, v := range p {
			g = gcd(gcd(g, math.Abs(v.X), tol), math.Abs(v.Y), tol)
			if g != 0 && g < limit {
				return 0
			}
			if g != 0 { // ext is a multiple too: rounding must not pile up
				g = ext / math.Round(ext/g)
			}
		}
	}
	if g == 0 {
		return 0
	}
	g = ext / math.Round(ext/g)
	for _, p := range polys {
		for _, v := range p {
			if offLattice(v.X, g) > tol || offLattice(v.Y, g) > tol {
				return 0
			}
		}
	}
	return g
}

func offLattice(v, g float64) float64 { return math.Abs(v - float64(g*math.Round(v/g))) }

// gcd is Euclid's algorithm on lengths, where a remainder within tol of 0 or
// of the divisor is none.
func gcd(a, b, tol float64) float64 {
	for b > tol {
		r := math.Mod(a, b)
		if b-r < tol {
			r = 0
		}
		a, b = b, r
	}
	return a
}

// round returns the grid point nearest to v. Outlines are moved by one unit and a
// half, so that many vertices lie half way but for their last bits.
func (g grid) round(v r2.Vec) pt {
	return pt{int64(num.Round(v.X/g.unit, 1)), int64(num.Round(v.Y/g.unit, 1))}
}

// floor returns a length in whole units. It cuts off far beyond any layout.
func (g grid) floor(v float64) float64 {
	return min(math.Floor(v/g.unit+1e-7), 1<<50)
}

// onGrid reports whether all vertices are grid points but for rounding.
func (g grid) onGrid(p []r2.Vec) bool {
	if g.step == 0 {
		return false
	}
	for _, v := range p {
		if offLattice(v.X, g.unit) > 1e-4*g.unit || offLattice(v.Y, g.unit) > 1e-4*g.unit {
			return false
		}
	}
	return true
}

// loop brings a polygon to the grid: exactly where its vertices are grid
// points, else grown outward (to the right of its direction) and rounded.
func (g grid) loop(p []r2.Vec) []pt {
	if !g.onGrid(p) {
		p = outset(p, 1.5*g.unit)
	}
	out := make([]pt, 0, len(p))
	for _, v := range p {
		out = append(out, g.round(v))
	}
	return tidy(out)
}

// outset moves every edge of p by d to its right. Convex corners are mitered
// up to a right angle of turn and chamfered, outside the arc, beyond that.
func outset(p []r2.Vec, d float64) []r2.Vec {
	var out []r2.Vec
	n := len(p)
	for i, v := range p {
		a, b := r2.Sub(v, p[(i+n-1)%n]), r2.Sub(p[(i+1)%n], v)
		if a == (r2.Vec{}) || b == (r2.Vec{}) {
			continue
		}
		a, b = unitOf(a), unitOf(b)
		turn := math.Atan2(crossOf(a, b), dotOf(a, b))
		na, nb := r2.Vec{X: a.Y, Y: -a.X}, r2.Vec{X: b.Y, Y: -b.X}
		if math.Abs(turn) <= math.Pi/2 || turn < 0 {
			t := d * math.Tan(math.Max(turn, -2*math.Pi/3)/2)
			out = append(out, r2.Add(v, r2.Add(scaled(d, na), scaled(t, a))))
			continue
		}
		t := d * math.Tan(turn/4)
		out = append(out,
			r2.Add(v, r2.Add(scaled(d, na), scaled(t, a))),
			r2.Add(v, r2.Sub(scaled(d, nb), scaled(t, b))))
	}
	return out
}

// tidy drops repeated vertices, vertices on straight runs and spikes.
func tidy(p []pt) []pt {
	for {
		n := len(p)
		p = slices.Compact(p)
		if last := len(p) - 1; last > 0 && p[last] == p[0] {
			p = p[:last] // before straight runs: one of the two has to stay
		}
		var out []pt
		for i, v := range p {
			prev := p[(i+len(p)-1)%len(p)]
			if len(out) > 0 {
				prev = out[len(out)-1]
			}
			if orient(prev, v, p[(i+1)%len(p)]) != 0 {
				out = append(out, v)
			}
		}
		if len(out) == n || len(out) < 3 {
			return out
		}
		p = out
	}
}

// area2 returns twice the signed area.
func area2(p []pt) int64 {
	var s int64
	for i := 2; i < len(p); i++ {
		s += cross(p[i-1].sub(p[0]), p[i].sub(p[0]))
	}
	return s
}
