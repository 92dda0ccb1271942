package arc

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
)

// Moments are the area of a shape and how it is spread about its centroid.
type Moments struct {
	Area     float64 // mm², signed as the loop runs
	Centroid r2.Vec
	// The integrals of x², y² and xy over the area, in mm⁴, with x and y
	// measured from the centroid: XX is the second moment about the vertical
	// axis, YY that about the level one.
	XX, YY, XY float64
}

// Moments returns the moments of the area a closed path encloses. It is an
// error if the path is open or the area is zero.
func (p Path) Moments() (Moments, error) { return moments("arc.Path.Moments", p) }

// Moments returns the moments of the region: those of its outer loop less
// those of its holes.
func (r Region) Moments() (Moments, error) { return moments("arc.Region.Moments", r.Loops()...) }

func moments(fn string, loops ...Path) (Moments, error) {
	for i, p := range loops {
		if err := p.Usable(); err != nil {
			return Moments{}, err
		}
		if !p.Closed {
			return Moments{}, &ParamError{fn, "loop", i, "", "closed loops", ErrOpen}
		}
	}
	// Twice: the second time about the centroid, so that nothing cancels.
	o := loops[0].V[0].P
	for range 2 {
		m := aboutPoint(o, loops)
		if m.Area == 0 || m.Area-m.Area != 0 {
			return Moments{}, &ParamError{fn, "area", m.Area, "mm²", "an area that is not zero", ErrZeroArea}
		}
		o = r2.Add(o, r2.Scale(1/m.Area, m.Centroid))
	}
	m := aboutPoint(o, loops)
	m.Centroid = o
	return m, nil
}

// aboutPoint returns moments about o, Centroid standing for the first moments.
func aboutPoint(o r2.Vec, loops []Path) Moments {
	var m Moments
	for _, p := range loops {
		for i := range p.V {
			s := p.Segment(i)
			s.A, s.B = r2.Sub(s.A, o), r2.Sub(s.B, o)
			m.addTriangle(s.A, s.B)
			if s.K != 0 && s.A != s.B {
				m.addCap(s)
			}
		}
	}
	return m
}

// addTriangle adds the triangle of the origin, a and b.
func (m *Moments) addTriangle(a, b r2.Vec) {
	area := r2.Cross(a, b) / 2
	m.Area += area
	m.Centroid = r2.Add(m.Centroid, r2.Scale(area/3, r2.Add(a, b)))
	m.XX += area / 6 * (a.X*a.X + a.X*b.X + b.X*b.X)
	m.YY += area / 6 * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y)
	m.XY += area / 12 * (2*a.X*a.Y + a.X*b.Y + b.X*a.Y + 2*b.X*b.Y)
}

// addCap adds what lies between an arc and its chord. By the closed forms,
// with the circle's center in them, the moments of flat arcs would cancel; in
// the frame of the chord, x along it from its middle and h the height of the
// arc over it, they are integrals of products of x and h over the sweep.
func (m *Moments) addCap(s Segment) {
	if math.Abs(s.K) > quarterTurn {
		mid, k := s.Mid(), halfTurn(s.K)
		m.addTriangleOf(s.A, mid, s.B)
		m.addCap(Segment{s.A, mid, k})
		m.addCap(Segment{mid, s.B, k})
		return
	}
	c := s.Chord()
	area, sh, xx, hh := segmentArea(c, s.K), 0.0, 0.0, 0.0
	for i, z := range sweepNode {
		x, h, dx := capAt(c, s.K, z)
		w := sweepWeight[i] * dx
		sh += w * h * h / 2
		xx += w * x * x * h
		hh += w * h * h * h / 3
	}
	u := r2.Scale(1/c, r2.Sub(s.B, s.A))
	n := r2.Vec{X: u.Y, Y: -u.X} // the way h grows
	o := r2.Scale(0.5, r2.Add(s.A, s.B))
	m.Area += area
	m.Centroid = r2.Add(m.Centroid, r2.Add(r2.Scale(area, o), r2.Scale(sh, n)))
	m.XX += o.X*o.X*area + 2*o.X*n.X*sh + u.X*u.X*xx + n.X*n.X*hh
	m.YY += o.Y*o.Y*area + 2*o.Y*n.Y*sh + u.Y*u.Y*xx + n.Y*n.Y*hh
	m.XY += o.X*o.Y*area + (o.X*n.Y+o.Y*n.X)*sh + u.X*u.Y*xx + n.X*n.Y*hh
}

// addTriangleOf adds the triangle a, b, c, counter-clockwise positive.
func (m *Moments) addTriangleOf(a, b, c r2.Vec) {
	m.addTriangle(a, b)
	m.addTriangle(b, c)
	m.addTriangle(c, a)
}

// capAt returns, at z from -1 to 1 along the sweep, the place along the chord,
// the height over it and dx/dz. With a half the turn and φ = az,
// x = R·sin φ and h = 2R·sin((a+φ)/2)·sin((a−φ)/2).
func capAt(c, k, z float64) (x, h, dx float64) {
	if math.Abs(k) < 1e-8 { // a parabola, to a relative k²
		return c / 2 * z, c * k / 2 * (1 - z*z), c / 2
	}
	a, r := 2*math.Atan(k), c*(1+k*k)/(4*k)
	sin, cos := math.Sincos(a * z)
	return r * sin, 2 * r * math.Sin(a*(1+z)/2) * math.Sin(a*(1-z)/2), r * cos * a
}

// quarterTurn is the K of a quarter circle, tan 22.5°.
const quarterTurn = math.Sqrt2 - 1

// The nodes and weights of Gauss and Legendre on [-1, 1]. Twelve leave less
// than 1e-16 of the integrals of addCap up to a quarter turn.
var sweepNode, sweepWeight = func() (x, w [12]float64) {
	quad.Legendre{}.FixedLocations(x[:], w[:], -1, 1)
	return x, w
}()
