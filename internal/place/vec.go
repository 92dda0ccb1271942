package place

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

func bounds(p []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = p[0], p[0]
	for _, v := range p[1:] {
		lo.X, lo.Y = math.Min(lo.X, v.X), math.Min(lo.Y, v.Y)
		hi.X, hi.Y = math.Max(hi.X, v.X), math.Max(hi.Y, v.Y)
	}
	return lo, hi
}

// area returns the signed area of a polygon, taken about its first vertex.
func area(p []r2.Vec) float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += crossOf(r2.Sub(p[i-1], p[0]), r2.Sub(p[i], p[0]))
	}
	return sum / 2
}

// cosSin is exact at right angles.
func cosSin(a float64) (c, s float64) {
	q := a / (math.Pi / 2)
	if r := math.Round(q); math.Abs(q-r) < 1e-12 {
		switch int64(r) & 3 {
		case 0:
			return 1, 0
		case 1:
			return 0, 1
		case 2:
			return -1, 0
		default:
			return 0, -1
		}
	}
	s, c = math.Sincos(a)
	return c, s
}

// crossesItself reports whether two edges cross by clearly more than the
// rounding of their coordinates.
func crossesItself(p []r2.Vec) bool {
	lo, hi := bounds(p)
	tol := 1e-12 * norm2(r2.Sub(hi, lo))
	side := func(a, b, c r2.Vec) float64 {
		v := crossOf(r2.Sub(b, a), r2.Sub(c, a))
		if math.Abs(v) <= tol {
			return 0
		}
		return v
	}
	for i := range p {
		a, b := p[i], at(p, i+1)
		for j := i + 2; j < len(p); j++ {
			c, d := p[j], at(p, j+1)
			if max(c.X, d.X) < min(a.X, b.X) || min(c.X, d.X) > max(a.X, b.X) {
				continue
			}
			if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
				return true
			}
		}
	}
	return false
}

// What decides must be the same on every processor, also on those that multiply
// and add in one rounding. A conversion rounds by itself, and no product or
// quotient of this package is added without one.

func crossOf(a, b r2.Vec) float64 { return float64(a.X*b.Y) - float64(a.Y*b.X) }

func dotOf(a, b r2.Vec) float64 { return float64(a.X*b.X) + float64(a.Y*b.Y) }

func scaled(f float64, v r2.Vec) r2.Vec { return r2.Vec{X: float64(f * v.X), Y: float64(f * v.Y)} }

func norm2(v r2.Vec) float64 { return dotOf(v, v) }

func norm(v r2.Vec) float64 { return math.Sqrt(dotOf(v, v)) }

func unitOf(v r2.Vec) r2.Vec { return scaled(1/norm(v), v) }
