package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A rim is a line or a circle run in one direction: a point and the direction
// there of a line, or a center and a radius, below zero where it turns right.
type rim struct {
	p, u r2.Vec
	r    float64 // 0 for a line
}

// flatRim is K below which an arc is a line to a rim: its center is lost.
const flatRim = 1e-9

func rimOf(s Segment) (rim, bool) {
	if s.A == s.B || s.Path().Usable() != nil {
		return rim{}, false
	}
	if math.Abs(s.K) < flatRim {
		u, _ := Segment{A: s.A, B: s.B}.Tangents()
		return rim{p: s.A, u: u}, !math.IsInf(s.Chord(), 0)
	}
	r := rim{p: s.Center(), r: math.Copysign(s.Radius(), s.K)}
	return r, finite(r.p) && math.Abs(r.r) < maxExtent
}

// shifted returns the rim d to its left, where d is at most the radius of a
// circle that turns left: the places of what is d to the left of it, or around
// it.
func (x rim) shifted(d float64) rim {
	if x.r == 0 {
		x.p = r2.Sub(x.p, r2.Scale(d, rightOf(x.u)))
		return x
	}
	x.r -= d
	return x
}

// left returns the unit vector to the left of a rim at the foot of c, where c
// is d to the left of it.
func (x rim) left(c r2.Vec, d float64) r2.Vec {
	if x.r == 0 {
		return r2.Scale(-1, rightOf(x.u))
	}
	return r2.Scale(1/(d-x.r), r2.Sub(c, x.p))
}

// meetRims returns the common points of two rims, none where they are the same;
// two circles, or a line and a circle, that touch to within rounding have one.
func meetRims(x, y rim) []r2.Vec {
	switch {
	case x.r == 0 && y.r == 0:
		cross := r2.Cross(x.u, y.u)
		l := r2.Cross(r2.Sub(y.p, x.p), y.u) / cross
		if q := r2.Add(x.p, r2.Scale(l, x.u)); math.Abs(cross) > 1e-15 && finite(q) {
			return []r2.Vec{q}
		}
		return nil
	case x.r == 0:
		foot := r2.Add(x.p, r2.Scale(r2.Dot(r2.Sub(y.p, x.p), x.u), x.u))
		return beside(foot, x.u, math.Abs(y.r), r2.Norm(r2.Sub(y.p, foot)))
	case y.r == 0:
		return meetRims(y, x)
	}
	v := r2.Sub(y.p, x.p)
	d := r2.Norm(v)
	if !(d > 1e-14*(math.Abs(x.r)+math.Abs(y.r))) {
		return nil
	}
	// The radical line stands a from the first center.
	rx, ry := math.Abs(x.r), math.Abs(y.r)
	a := (d + (rx-ry)*((rx+ry)/d)) / 2
	u := r2.Scale(1/d, v)
	return beside(r2.Add(x.p, r2.Scale(a, u)), rightOf(u), rx, math.Abs(a))
}

// beside returns the points √(r² − d²) along u to either side of p.
func beside(p, u r2.Vec, r, d float64) []r2.Vec {
	const touch = 1e-14
	h := (r - d) * (r + d)
	switch {
	case math.Abs(h) <= touch*r*r:
		return []r2.Vec{p}
	case !(h > 0):
		return nil
	}
	l := math.Sqrt(h)
	return []r2.Vec{r2.Sub(p, r2.Scale(l, u)), r2.Add(p, r2.Scale(l, u))}
}

// Fillets returns the arcs of a radius > 0 mm that lead from a to b: each leaves
// a in the direction in which a runs, and goes over into b in the direction of
// b. Arcs that turn left come first, of each kind at most two. Where they touch
// may lie beyond the ends of a and b, on the line or circle that these are
// pieces of: [Segment.Project] tells. For the arcs of other directions reverse a
// or b. There are none where the two are parallel, or one is a circle of the
// same radius; [Path.Round] rounds the corners of a path.
func Fillets(a, b Segment, radius float64) ([]Segment, error) {
	const fn = "arc.Fillets"
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return nil, err
	}
	x, y, err := needRims(fn, a, b)
	if err != nil {
		return nil, err
	}
	if !(radius < maxExtent) {
		return nil, &ParamError{fn, "radius", radius, "mm", "below 1e140", ErrRange}
	}
	var out []Segment
	for _, d := range [2]float64{radius, -radius} {
		if math.Abs(x.r-d) <= 1e-12*radius || math.Abs(y.r-d) <= 1e-12*radius {
			continue
		}
		for _, c := range meetRims(x.shifted(d), y.shifted(d)) {
			n, m := x.left(c, d), y.left(c, d)
			s := Segment{A: r2.Sub(c, r2.Scale(d, n)), B: r2.Sub(c, r2.Scale(d, m))}
			turn := math.Atan2(r2.Cross(n, m), r2.Dot(n, m))
			if turn*d < 0 {
				turn += math.Copysign(2*math.Pi, d)
			}
			if s.K = math.Tan(turn / 4); s.A != s.B && s.Path().Usable() == nil {
				out = append(out, s)
			}
		}
	}
	return out, nil
}

func needRims(fn string, a, b Segment) (x, y rim, err error) {
	x, ok := rimOf(a)
	if !ok {
		return x, y, &ParamError{fn, "a", a.A, "mm", "a segment of a length", ErrRange}
	}
	y, ok = rimOf(b)
	if !ok {
		return x, y, &ParamError{fn, "b", b.A, "mm", "a segment of a length", ErrRange}
	}
	return x, y, nil
}

// TangentLines returns the lines that touch the circles of two arcs, each from
// the first to the second: at most four, first those that have both circles on
// the left, then on the right, then the first on the left and the second on the
// right, then the other way. A segment of no length stands for its point; a
// line is touched by none and an error. Where a line touches may lie beyond the
// ends of the arcs: [Segment.Project] tells.
func TangentLines(a, b Segment) ([]Segment, error) {
	const fn = "arc.TangentLines"
	var c [2]rim
	for i, s := range [2]Segment{a, b} {
		name := [2]string{"a", "b"}[i]
		if s.A == s.B && finite(s.A) {
			c[i] = rim{p: s.A}
			continue
		}
		r, ok := rimOf(s)
		if !ok || r.r == 0 {
			return nil, &ParamError{fn, name, s.A, "mm", "an arc, or a point", ErrRange}
		}
		c[i] = rim{p: r.p, r: math.Abs(r.r)}
	}
	v := r2.Sub(c[1].p, c[0].p)
	d := r2.Norm(v)
	var out []Segment
	for _, side := range [4][2]float64{{1, 1}, {-1, -1}, {1, -1}, {-1, 1}} {
		// With n the normal to the left, the centers stand side·r along it:
		// v = l·u + (s1·r1 − s0·r0)·n.
		h := side[1]*c[1].r - side[0]*c[0].r
		if c[0].r == 0 && side[0] < 0 || c[1].r == 0 && side[1] < 0 {
			continue // as before
		}
		l := (d - h) * (d + h)
		if !(l > 1e-24*d*d) {
			continue
		}
		along := math.Sqrt(l)
		u := r2.Scale(1/d/d, r2.Vec{X: along*v.X + h*v.Y, Y: along*v.Y - h*v.X})
		n := r2.Scale(-1, rightOf(u))
		s := Segment{A: r2.Sub(c[0].p, r2.Scale(side[0]*c[0].r, n)), B: r2.Sub(c[1].p, r2.Scale(side[1]*c[1].r, n))}
		if s.A != s.B && s.Path().Usable() == nil {
			out = append(out, s)
		}
	}
	return out, nil
}

// Extend returns a and b run on along their lines or circles, or trimmed, to
// where these meet: a ends and b starts there. Of two such places it is the one
// for which the end of a and the start of b move less in sum, along the
// segments. It is an error if they meet nowhere, or nothing of a segment would
// be left. A circle runs on by less than what is left of it.
func Extend(a, b Segment) (Segment, Segment, error) {
	const fn = "arc.Extend"
	x, y, err := needRims(fn, a, b)
	if err != nil {
		return a, b, err
	}
	la, lb := a.Length(), b.Length()
	best := math.Inf(1)
	outA, outB := a, b
	back := b.Reverse()
	z, _ := rimOf(back)
	for _, q := range meetRims(x, y) {
		toA := runTo(a, x, q)
		toB := lb - runTo(back, z, q)
		if !(toA > 0 && toB < lb) {
			continue
		}
		if move := math.Abs(toA-la) + math.Abs(toB); move < best {
			best = move
			outA, outB = a.Part(0, toA), b.Part(toB, lb)
			outA.B, outB.A = q, q
		}
	}
	if math.IsInf(best, 1) || outA.Path().Usable() != nil || outB.Path().Usable() != nil {
		return a, b, &ParamError{fn, "b", b.A, "mm", "segments that meet when run on", ErrEmpty}
	}
	return outA, outB, nil
}

// runTo returns the length along s, at least 0 on a circle, at which it comes to
// the point q of its rim.
func runTo(s Segment, x rim, q r2.Vec) float64 {
	if x.r == 0 {
		return r2.Dot(r2.Sub(q, s.A), x.u)
	}
	u, v := r2.Sub(s.A, x.p), r2.Sub(q, x.p)
	turn := math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
	if turn*s.K < 0 {
		turn += math.Copysign(2*math.Pi, s.K)
	}
	return math.Abs(turn * x.r)
}
