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
	l, left = s.Project(p)
	end := s.B
	switch length := s.Length(); {
	case l < 0:
		l, end = 0, s.A
	case l > length:
		l = length
	default:
		return l, math.Abs(left), left
	}
	return l, r2.Norm(r2.Sub(p, end)), left
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
