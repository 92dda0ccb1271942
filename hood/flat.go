package hood

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// flat is how far a curve has to leave its chord, a neck has to be narrower or
// a bevel has to fall back, mm, to be told from a straight line, a plumb side or
// a square edge: a tenth of what a fitted curve may leave its points, and a
// hundredth of what a saw or a router keeps. Below, they are straight, plumb
// and square, everywhere and from the start.
const flat = fitTol / 10

// settled returns the spec with what is too flat to be told from straight made
// straight. What cannot be used it leaves as it is, to be refused by name.
func (s Spec) settled() Spec {
	if math.Abs(s.Depth-s.Neck.Depth) < flat {
		s.Neck.Depth = s.Depth
	}
	if math.Abs(s.Width-s.neckWidth()) < 2*flat && math.Abs(s.Neck.Offset) < 2*flat {
		s.Neck.Width, s.Neck.Offset = s.Width, 0 // both sides
	}
	// One side that is plumb makes the offset just what it needs.
	if half := (s.Width - s.neckWidth()) / 2; math.Abs(math.Abs(s.Neck.Offset)-half) < flat {
		s.Neck.Offset = math.Copysign(half, s.Neck.Offset)
	}
	s.Sweep = s.Sweep.settled(s.frontEnds())
	left, at := s.leftSweep()
	if at == "left_sweep" {
		s.LeftSweep = left.settled(s.leftEnds())
	}
	e := s.rightEnds()
	if !e.flared() {
		e = s.leftEnds()
	}
	s.SideSweep = s.SideSweep.settled(e)
	return s
}

// settled returns a sweep between its ends, straight where it leaves their
// chord nowhere by flat or more.
func (w Sweep) settled(e ends) Sweep {
	n := len(w.Points)
	straight := w.takesSag() && n == 0 && w.Sag >= 0 && w.Sag < flat
	if w.name() == "points" && w.Sag == 0 && n > 0 && n <= maxPoints {
		from, to := e.show()
		p, err := w.path(from, to)
		straight = err == nil && rises(p) && leaves(p, from, to) < flat
	}
	if !straight {
		return w
	}
	return Sweep{Shape: "straight", Method: w.Method}
}

// leaves returns how far a path of minor arcs leaves a line at most. On the way
// from end to end of an arc that is no more than at the ends, and its sag.
func leaves(p arc.Path, from, to r2.Vec) float64 {
	line := arc.Segment{A: from, B: to}
	most := 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		most = math.Max(most, math.Max(line.Distance(s.A), line.Distance(s.B))+s.Sag())
	}
	return most
}
