package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// maxPoints bounds what one call may allocate.
const maxPoints = 1 << 20

// OnChord returns the arc in place as a maker lays it out: it starts at the
// origin, ends at x = chord and stands above the chord.
func (a Arc) OnChord() Segment {
	return Segment{B: r2.Vec{X: a.chord}, K: -a.k}
}

// Curvature returns 1/radius, 0 for a straight line.
func (a Arc) Curvature() float64 {
	if a.chord == 0 {
		return 0
	}
	return 4 / a.chord * (a.k / (1 + a.k*a.k))
}

// Ordinate returns the height of the arc over its chord at the station x,
// measured along the chord from its start: the number a maker marks a template
// from. A major arc overhangs its chord; there x may be below 0 and above the
// chord, and the upper of its two heights is returned. Where the arc is not
// above x the result is NaN.
//
// A vertical through the station cuts the circle above and below the chord;
// the product of the two parts is p = x(c − x) and the lower less the upper is
// 2H/k, H = c(1−k²)/4. The upper is k·p/(H + √(H² + k²p)), where nothing
// cancels.
func (a Arc) Ordinate(x float64) float64 {
	c, k := a.chord, a.k
	p := x * (c - x)
	if !(p >= 0) && !(k > 1) {
		return math.NaN()
	}
	if k == 0 {
		return 0
	}
	h := c * (1 - k*k) / 4 // k times the center's depth under the chord
	root := math.Sqrt(h*h + k*k*p)
	if h >= 0 {
		return k * p / (h + root)
	}
	return (root - h) / k
}

// Ordinates returns the heights at the stations, measured along the chord from
// its start. A station beyond the arc is an error.
func (a Arc) Ordinates(stations []float64) ([]float64, error) {
	out := make([]float64, len(stations))
	for i, x := range stations {
		out[i] = a.Ordinate(x)
		if math.IsNaN(out[i]) {
			return nil, &ParamError{"arc.Arc.Ordinates", "station", x, "mm", "a station under the arc", ErrRange}
		}
	}
	return out, nil
}

// Divide returns the n+1 points that cut the arc into n equal lengths, ends
// included, as it lies on its chord (see [Arc.OnChord]).
func (a Arc) Divide(n int) ([]r2.Vec, error) {
	if n < 1 || n > maxPoints {
		return nil, &ParamError{"arc.Arc.Divide", "n", n, "", "from 1 to a million", ErrRange}
	}
	s := a.OnChord()
	l := s.Length()
	out := make([]r2.Vec, n+1)
	for i := range out {
		out[i], _ = s.At(l * float64(i) / float64(n))
	}
	out[n] = s.B
	return out, nil
}

// Concentric returns the arc of the same turn at a distance d outside (inside
// where d is negative), as the other face of a bent board. It is an error
// where nothing is left, and for a straight line gives the line.
func (a Arc) Concentric(d float64) (Arc, error) {
	const fn = "arc.Arc.Concentric"
	if err := needFinite(fn, "d", d, "mm"); err != nil {
		return Arc{}, err
	}
	// The chord grows by 2d·sin(turn/2) = 4dk/(1+k²).
	chord := a.chord + 4*d*(a.k/(1+a.k*a.k))
	if !(chord > 0) {
		return Arc{}, &ParamError{fn, "d", d, "mm", "more than the radius inward", ErrRange}
	}
	return newArc(fn, "d", d, "mm", chord, a.k)
}

// momentSeries holds the coefficients of x⁵, x⁷, … in
// ¾·sin x + sin 3x/12 − x·cos x: (−1)ⁿ(9 + 3²ⁿ⁺¹ − 12(2n+1))/(12·(2n+1)!).
var momentSeries = [...]float64{
	192.0 / (12 * 120),
	-2112.0 / (12 * 5040),
	19584.0 / (12 * 362880),
	-177024.0 / (12 * 39916800),
	1594176.0 / (12 * 6227020800),
	-14348736.0 / (12 * 1307674368000),
	129139968.0 / (12 * 355687428096000),
	-1162261248.0 / (12 * 121645100408832000),
	10460352960.0 / (12 * 51090942171709440000),
	-94143178560.0 / (12 * 25852016738884976640000),
	847288609152.0 / (12 * 15511210043330985984000000),
	-7625597484672.0 / (12 * 10888869450418352160768000000),
	68630377364544.0 / (12 * 8841761993739701954543616000000),
	-617673396283584.0 / (12 * 8222838654177922817725562880000000),
}

// Centroid returns the height over the chord of the centroid of the area
// between arc and chord, 0 for a straight line. It is
// c³/(12·area) − (1−k²)c/(4k). With x half the turn that is
// R·(¾·sin x + sin 3x/12 − x·cos x)/(x − sin x·cos x), whose two terms are
// summed as series where x <= 1, since there the differences cancel.
func (a Arc) Centroid() float64 {
	c, k := a.chord, a.k
	if k == 0 {
		return 0
	}
	x := 2 * math.Atan(k)
	if x > 1 {
		return c * (1/(12*segmentArea(1, k)) - (1-k*k)/(4*k))
	}
	q, sum := x*x, 0.0
	for n := len(momentSeries) - 1; n >= 0; n-- {
		sum = sum*q + momentSeries[n]
	}
	// x − sin x·cos x = x·(1 − sin 2x/2x) = ⅔x³·(1 − …), and R = c/(2·sin x).
	return c * x * (x / math.Sin(x)) * sum * 0.75 / sincSeries(2*x)
}

// Facets returns the least number of equal chords that stay within tol of the
// arc.
func (a Arc) Facets(tol float64) (int, error) { return Facets(a.Radius(), a.Turn(), tol) }

// FacetSag returns how far n equal chords stand off the arc at their middles:
// R(1 − cos(turn/2n)) = 2R·sin²(turn/4n).
func (a Arc) FacetSag(n int) (float64, error) {
	if n < 1 {
		return 0, &ParamError{"arc.Arc.FacetSag", "n", n, "", ">= 1", ErrRange}
	}
	if a.k == 0 {
		return 0, nil
	}
	s := math.Sin(math.Atan(a.k) / float64(n))
	return a.chord / 2 * (1/a.k + a.k) * s * s, nil
}
