package arc

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/exact"
)

// A Side says where a point lies.
type Side int

// The sides of a boundary.
const (
	Outside Side = iota - 1
	OnBoundary
	Inside
)

// Locate tells on which side of a closed path p lies, without rounding: the
// answer is that of the path as its numbers describe it. Inside is where the
// path winds around p, either way. A path that is open or not finite has no
// inside.
func (p Path) Locate(q r2.Vec) Side {
	w, on := p.winding(q)
	switch {
	case on:
		return OnBoundary
	case w != 0:
		return Inside
	}
	return Outside
}

// Contains reports whether q lies inside a closed path or on it, decided
// without rounding.
func (p Path) Contains(q r2.Vec) bool { return p.Locate(q) != Outside }

// winding returns how often a closed path runs around q counter-clockwise, or
// that q is on the path.
func (p Path) winding(q r2.Vec) (w int, on bool) {
	if !p.Closed || p.Usable() != nil || !finite(q) {
		return 0, false
	}
	for i := range p.V {
		s := p.Segment(i)
		if s.A == s.B {
			continue
		}
		if onSegment(s, q) {
			return 0, true
		}
		w += count(s, q)
	}
	return w, false
}

func finite(q r2.Vec) bool {
	return q.X-q.X == 0 && q.Y-q.Y == 0
}

// onSegment reports whether q is exactly on s.
func onSegment(s Segment, q r2.Vec) bool {
	if q == s.A || q == s.B {
		return true
	}
	if s.K == 0 {
		return inBox(s, q) && exact.Orient(s.A, s.B, q) == 0
	}
	// An arc lies on the outer side of its chord.
	side := exact.Orient(s.A, s.B, q)
	return (s.K > 0) == (side < 0) && side != 0 && exact.ArcSide(s.A, s.B, s.K, q) == 0
}

// inBox reports whether q lies in the box around the ends of s.
func inBox(s Segment, q r2.Vec) bool {
	return min(s.A.X, s.B.X) <= q.X && q.X <= max(s.A.X, s.B.X) &&
		min(s.A.Y, s.B.Y) <= q.Y && q.Y <= max(s.A.Y, s.B.Y)
}

// Locate tells on which side of the region's boundary p lies, without
// rounding.
func (r Region) Locate(q r2.Vec) Side {
	side := r.Outer.Locate(q)
	for _, h := range r.Holes {
		if side != Inside {
			return side
		}
		side = -h.Locate(q)
	}
	return side
}

// Contains reports whether q lies in the region or on its boundary, decided
// without rounding.
func (r Region) Contains(q r2.Vec) bool { return r.Locate(q) != Outside }
