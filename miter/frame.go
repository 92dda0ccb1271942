package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// A frame holds a corner's sines and cosines: of half the exterior plan angle,
// which is cos(C/2) and sin(C/2), and of the tilts. Its x axis is outward along
// the bisector and z is up.
type frame struct {
	s, c       float64    // sine and cosine of half the turn on plan; c > 0
	sinP, cosP [2]float64 // of the tilts; sinP >= 0
}

func (c Corner) frame() frame {
	var f frame
	// Through C/2, exact where the sides of a box are in line.
	f.c, f.s = sincos(c.Plan / 2)
	f.sinP[0], f.cosP[0] = sincos(c.First.Tilt)
	f.sinP[1], f.cosP[1] = sincos(c.Second.Tilt)
	return f
}

// sincos returns the sine and cosine, exact at the quarter turns.
func sincos(a arc.Angle) (sin, cos float64) {
	switch a {
	case 0:
		return 0, 1
	case math.Pi / 2:
		return 1, 0
	case math.Pi:
		return 0, -1
	}
	return math.Sincos(float64(a))
}

// out returns board i's level outward direction, along the way it runs with
// the outside on the right, and up the way its face rises.
func (f frame) out(i int) r3.Vec {
	return r3.Vec{X: f.c, Y: float64(2*i-1) * f.s}
}

func (f frame) along(i int) r3.Vec {
	o := f.out(i)
	return r3.Vec{X: -o.Y, Y: o.X}
}

func (f frame) up(i int) r3.Vec {
	u := r3.Scale(-f.cosP[i], f.out(i))
	u.Z = f.sinP[i]
	return u
}

// normal returns board i's outward unit normal.
func (f frame) normal(i int) r3.Vec {
	n := r3.Scale(f.sinP[i], f.out(i))
	n.Z = f.cosP[i]
	return n
}

// seam returns the unit direction of the corner line, upward: the normals'
// cross product, whose common factor is taken out where the tilts are equal,
// so that boards in line and level boards keep their miter.
func (f frame) seam() (r3.Vec, bool) {
	s1, s2, c1, c2 := f.sinP[0], f.sinP[1], f.cosP[0], f.cosP[1]
	if s1 == s2 && c1 == c2 {
		return r3.Unit(r3.Vec{X: -c1, Z: f.c * s1}), f.c > 0
	}
	v := r3.Vec{X: -f.s * (s1*c2 + c1*s2), Y: f.c * (s2*c1 - c2*s1), Z: 2 * f.s * f.c * s1 * s2}
	if v.Z < 0 {
		v = r3.Scale(-1, v)
	}
	if v.Z == 0 {
		return r3.Vec{}, false
	}
	return r3.Unit(v), true
}

// turn returns the angle between the normals, negative at an inside corner.
func (f frame) turn() arc.Angle {
	n1, n2 := f.normal(0), f.normal(1)
	t := math.Atan2(r3.Norm(r3.Cross(n1, n2)), r3.Dot(n1, n2))
	return arc.Angle(math.Copysign(t, f.s))
}
