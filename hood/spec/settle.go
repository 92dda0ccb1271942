package spec

import (
	"math"

	"example.com/sagitta/hood/curve"
)

// settled returns the sizes with what is too flat to be told from straight made
// straight. What cannot be used it leaves as it is, to be refused by name.
func (s Sizes) settled() Sizes {
	if math.Abs(s.Depth-s.Neck.Depth) < curve.Flat {
		s.Neck.Depth = s.Depth
	}
	if math.Abs(s.Width-s.NeckWidth()) < 2*curve.Flat && math.Abs(s.Neck.Offset) < 2*curve.Flat {
		s.Neck.Width, s.Neck.Offset = s.Width, 0 // both sides
	}
	// One side that is plumb makes the offset just what it needs.
	if half := (s.Width - s.NeckWidth()) / 2; math.Abs(math.Abs(s.Neck.Offset)-half) < curve.Flat {
		s.Neck.Offset = math.Copysign(half, s.Neck.Offset)
	}
	s.Sweep = s.Sweep.Settled(s.FrontEnds())
	left, at := s.SweepOfLeft()
	if at == "left_sweep" {
		s.LeftSweep = left.Settled(s.LeftEnds())
	}
	e := s.RightEnds()
	if !e.Flared() {
		e = s.LeftEnds()
	}
	s.SideSweep = s.SideSweep.Settled(e)
	return s
}
