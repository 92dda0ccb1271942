package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Biarc returns two arcs, tangent where they meet, that leave a along dirA and
// arrive at b along dirB. Of all such pairs it is the one whose three tangents
// have the two outer ones of equal length, which keeps both arcs alike.
func Biarc(a, dirA, b, dirB r2.Vec) ([2]Segment, error) {
	const fn = "arc.Biarc"
	if err := needPoints(fn, a, dirA, b, dirB); err != nil {
		return [2]Segment{}, err
	}
	if a == b || dirA == (r2.Vec{}) || dirB == (r2.Vec{}) {
		return [2]Segment{}, &ParamError{fn, "b", b, "mm", "two points and two directions", ErrRange}
	}
	s, ok := biarc(a, unitOf(dirA), b, unitOf(dirB))
	if !ok {
		return [2]Segment{}, &ParamError{fn, "dirB", dirB, "", "directions that two arcs can join", ErrRange}
	}
	return s, nil
}

// unitOf returns v at length 1.
func unitOf(v r2.Vec) r2.Vec {
	v = unitSize(v)
	return r2.Scale(1/math.Hypot(v.X, v.Y), v)
}

// biarc joins a and b by two arcs; ta and tb have length 1. With the tangent
// lengths d at both ends the middle tangent runs from a + d·ta to b − d·tb and
// is 2d long, so that with v = b − a and t = ta + tb
//
//	d = v²/(v·t + √((v·t)² + 2(1 − ta·tb)v²)).
func biarc(a, ta, b, tb r2.Vec) ([2]Segment, bool) {
	v := r2.Sub(b, a)
	vt, vv := r2.Dot(v, r2.Add(ta, tb)), r2.Norm2(v)
	d := vv / (vt + math.Sqrt(vt*vt+r2.Norm2(r2.Sub(ta, tb))*vv))
	if !(d > 0) || math.IsInf(d, 0) {
		return [2]Segment{}, false
	}
	j := r2.Scale(0.5, r2.Add(r2.Add(a, b), r2.Scale(d, r2.Sub(ta, tb))))
	if j == a || j == b {
		return [2]Segment{}, false
	}
	s := [2]Segment{
		{a, j, quarterTan(ta, r2.Sub(j, a))},
		{j, b, quarterTan(r2.Sub(b, j), tb)},
	}
	for _, s := range s {
		if math.IsNaN(s.K) || math.IsInf(s.K, 0) {
			return [2]Segment{}, false
		}
	}
	return s, true
}
