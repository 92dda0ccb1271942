package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Motion moves the plane without bending it: a mirroring, then a turn and a
// uniform scale about the origin, then a shift. The zero Motion moves nothing.
type Motion struct {
	re, im float64 // scale times cosine and sine of the turn; both 0 stand for 1, 0
	flip   bool    // x is negated first
	shift  r2.Vec
}

// Shift returns the motion by v.
func Shift(v r2.Vec) Motion { return Motion{re: 1, shift: v} }

// Rotate returns the turn by a to the left about the origin. Multiples of
// 90 degrees are exact.
func Rotate(a Angle) Motion {
	sin, cos := a.sincos()
	return Motion{re: cos, im: sin}
}

// MirrorX returns the mirroring that negates x.
func MirrorX() Motion { return Motion{re: 1, flip: true} }

// MirrorY returns the mirroring that negates y.
func MirrorY() Motion { return Motion{re: -1, flip: true} }

// Scale returns the uniform scaling by f about the origin; f must not be 0,
// which stands for no scaling.
func Scale(f float64) Motion { return Motion{re: f} }

// About returns the motion done about the point c instead of the origin.
func (m Motion) About(c r2.Vec) Motion {
	return Shift(r2.Scale(-1, c)).Then(m).Then(Shift(c))
}

func (m Motion) parts() (re, im float64) {
	if m.re == 0 && m.im == 0 {
		return 1, 0
	}
	return m.re, m.im
}

// linear applies the motion without its shift.
func (m Motion) linear(p r2.Vec) r2.Vec {
	if m.flip {
		p.X = -p.X
	}
	re, im := m.parts()
	return r2.Vec{X: re*p.X - im*p.Y, Y: im*p.X + re*p.Y}
}

// Apply returns where p goes.
func (m Motion) Apply(p r2.Vec) r2.Vec { return r2.Add(m.linear(p), m.shift) }

// Then returns the motion m followed by n.
func (m Motion) Then(n Motion) Motion {
	re, im := m.parts()
	if n.flip {
		// Mirroring after a turn is the opposite turn after mirroring.
		im = -im
	}
	nre, nim := n.parts()
	return Motion{
		re:    nre*re - nim*im,
		im:    nim*re + nre*im,
		flip:  m.flip != n.flip,
		shift: n.Apply(m.shift),
	}
}

// Inverse returns the motion that undoes m.
func (m Motion) Inverse() Motion {
	re, im := m.parts()
	d := re*re + im*im
	inv := Motion{re: re / d, im: -im / d, flip: m.flip}
	if m.flip {
		inv.im = im / d
	}
	inv.shift = r2.Scale(-1, inv.linear(m.shift))
	return inv
}

// Mirrors reports whether the motion turns left into right.
func (m Motion) Mirrors() bool { return m.flip }

// Factor returns the scale of lengths.
func (m Motion) Factor() float64 { return math.Hypot(m.parts()) }

// Transform returns the path moved by m, run in the same sequence: mirroring
// turns a counter-clockwise loop into a clockwise one.
func (p Path) Transform(m Motion) Path {
	q := p.Clone()
	for i := range q.V {
		q.V[i].P = m.Apply(q.V[i].P)
		if m.flip {
			q.V[i].K = -q.V[i].K
		}
	}
	return q
}
