package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// foot returns the length along s of its point nearest to p, the distance
// there, and that distance signed, positive on the left of travel, as long as
// the foot is not an end that p lies beyond.
func foot(s arc.Segment, p r2.Vec) (l, dist, left float64) {
	c := r2.Sub(s.B, s.A)
	chord := r2.Norm(c)
	if chord == 0 {
		return 0, r2.Norm(r2.Sub(p, s.A)), 0
	}
	if s.K == 0 {
		u := r2.Scale(1/chord, c)
		v := r2.Sub(p, s.A)
		l, left = r2.Dot(v, u), r2.Cross(u, v)
		if l < 0 || l > chord {
			l = math.Max(0, math.Min(chord, l))
			return l, r2.Norm(r2.Sub(p, r2.Add(s.A, r2.Scale(l, u)))), left
		}
		return l, math.Abs(left), left
	}
	o, r := s.Center(), s.Radius()
	turn := float64(s.Angle())
	a, v := r2.Sub(s.A, o), r2.Sub(p, o)
	// The angle from the start to p, in the sense of the arc, from 0 to 2π.
	x := math.Atan2(r2.Cross(a, v), r2.Dot(a, v))
	if turn < 0 {
		x = -x
	}
	if x < 0 {
		x += 2 * math.Pi
	}
	left = r - r2.Norm(v)
	if turn < 0 {
		left = -left
	}
	sweep := math.Abs(turn)
	if x <= sweep {
		return x * r, math.Abs(left), left
	}
	dA, dB := r2.Norm(r2.Sub(p, s.A)), r2.Norm(r2.Sub(p, s.B))
	if dA <= dB {
		return 0, dA, left
	}
	return sweep * r, dB, left
}

// nearest returns the length along a track of its point nearest to p, and how
// far it is.
func (t track) nearest(p r2.Vec) (l, dist float64) {
	dist = math.Inf(1)
	for i, s := range t.seg {
		if at, d, _ := foot(s, p); d < dist {
			l, dist = t.start(i)+at, d
		}
	}
	return l, dist
}

// distance returns how far p is from a path.
func distance(p r2.Vec, path arc.Path) float64 {
	d := math.Inf(1)
	for i := range path.NumSegments() {
		_, x, _ := foot(path.Segment(i), p)
		d = math.Min(d, x)
	}
	return d
}

// longest returns the length at the middle of the longest segment of a track.
func (t track) longest() float64 {
	best, at := -1.0, 0.0
	for i := range t.seg {
		if l := t.end[i] - t.start(i); l > best+joint {
			best, at = l, t.start(i)+l/2
		}
	}
	return at
}

// from returns the closed track begun at a length.
func (t track) from(l float64) track {
	out := track{closed: true}
	sum := 0.0
	for _, s := range t.pieces(l, l+t.length()) {
		sum += s.Length()
		out.seg = append(out.seg, s)
		out.end = append(out.end, sum)
	}
	return out
}
