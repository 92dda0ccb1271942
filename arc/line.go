package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Tangents returns the unit tangents at both ends, along the way the segment
// runs. They stand half the turn off the chord: from k = tan(turn/4),
// cos(turn/2) = (1−k²)/(1+k²) and sin(turn/2) = 2k/(1+k²). A segment of no
// length gives zero.
func (s Segment) Tangents() (start, end r2.Vec) {
	c := s.Chord()
	if c == 0 {
		return r2.Vec{}, r2.Vec{}
	}
	u := r2.Scale(1/c, r2.Sub(s.B, s.A))
	if s.K == 0 {
		return u, u
	}
	w := s.halfTurn()
	return conjMul(u, w), mulVec(u, w)
}

// halfTurn returns the cosine and sine of half the turn.
func (s Segment) halfTurn() r2.Vec {
	q := 1 + s.K*s.K
	return r2.Vec{X: (1 - s.K) * (1 + s.K) / q, Y: 2 * s.K / q}
}

// Part returns the piece of the segment from one length along it to another,
// from < to. Lengths below 0 and above the segment's own run on along its line
// or circle; together the piece must turn by less than a full circle. An end
// of the segment that is an end of the piece stays as it is.
func (s Segment) Part(from, to float64) Segment {
	l := s.Length()
	out := s
	if from != 0 {
		out.A, _ = s.At(from)
	}
	if to != l {
		out.B, _ = s.At(to)
	}
	if s.K != 0 && (from != 0 || to != l) {
		out.K = tangent(math.Atan(s.K) * ((to - from) / l))
	}
	return out
}

// Crossings returns the lengths along the segment at which it crosses the line
// through at along dir, in rising order, and how many there are. A point on
// the line counts as one to the right of it: so a touch is no crossing, or two
// at the same place, the ends need no care, and a closed path has an even
// number of crossings with any line.
//
// With ω = e^(i·turn/2) and z as complex numbers the segment is
// z(t) = (b·t + a·ω·(1−t)) / (t + (1−t)·ω), which makes the distance from the
// line a quadratic in t for arcs however flat, and for lines.
func (s Segment) Crossings(at, dir r2.Vec) (l [2]float64, n int) {
	if s.A == s.B {
		return l, 0
	}
	a, b := r2.Sub(s.A, at), r2.Sub(s.B, at)
	w := s.halfTurn()
	f0, f2 := r2.Cross(dir, a), r2.Cross(dir, b)
	f1 := r2.Cross(dir, r2.Add(mulVec(a, w), conjMul(b, w))) / 2
	var x [2]float64 // t/(1−t)
	x, n = risingRoots(f0, f1, f2)
	for i := range n {
		l[i] = s.lengthTo(x[i], w)
	}
	return l, n
}

// risingRoots returns where f0 + 2·f1·x + f2·x² changes between > 0 and not, for
// x from 0 to infinity, in rising order.
func risingRoots(f0, f1, f2 float64) (x [2]float64, n int) {
	// The discriminant, of numbers scaled so that no product is lost.
	_, e := math.Frexp(math.Max(math.Abs(f0), math.Max(math.Abs(f1), math.Abs(f2))))
	f0, f1, f2 = math.Ldexp(f0, -e), math.Ldexp(f1, -e), math.Ldexp(f2, -e)
	d := float64(f1*f1) - float64(f0*f2)
	if (f0 > 0) != (f2 > 0) {
		// One root is not negative: −(f1 + r)/f2 = f0/(r − f1) with r = ±√d, of
		// which one form cancels nothing.
		r := math.Sqrt(math.Max(0, d))
		if f2 > 0 {
			r = -r
		}
		switch {
		case (r < 0) != (f1 < 0):
			x[0] = math.Abs(f0 / (r - f1))
		case f2 != 0:
			x[0] = math.Abs((f1 + r) / f2)
		default:
			x[0] = math.Inf(1)
		}
		return x, 1
	}
	up := f0 > 0
	if !(d > 0) || up && f1 >= 0 || !up && f1 <= 0 {
		return x, 0
	}
	m := math.Abs(f1) + math.Sqrt(d)
	return [2]float64{math.Abs(f0) / m, m / math.Abs(f2)}, 2
}

// lengthTo returns the length along the segment at t/(1−t) = x. The argument of
// the denominator t + (1−t)·ω falls from half the turn to zero.
func (s Segment) lengthTo(x float64, w r2.Vec) float64 {
	t := 1.0
	if !math.IsInf(x, 1) {
		t = x / (1 + x)
	}
	l := s.Length()
	if math.Abs(s.K) < 1e-9 {
		return l * t // the argument is half the turn times 1 − t, to the last bit
	}
	x = math.Atan2((1-t)*w.Y, t+(1-t)*w.X) / (2 * math.Atan(s.K))
	return l * math.Max(0, math.Min(1, 1-x))
}
