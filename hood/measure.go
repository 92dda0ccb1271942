package hood

import "example.com/sagitta/hood/curve"

// corner returns the corner joint by name.
func (s Spec) corner() string {
	if s.Corner == "" {
		return "miter"
	}
	return s.Corner
}

// neckWidth returns the width of the neck.
func (s Spec) neckWidth() float64 {
	if s.Neck.Width == 0 {
		return s.Width
	}
	return s.Neck.Width
}

// plumb reports whether neither side is flared.
func (s Spec) plumb() bool { return !s.rightEnds().Flared() && !s.leftEnds().Flared() }

// curved reports whether any panel has to be bent.
func (s Spec) curved() bool {
	right := s.rightEnds().Flared() && s.SideSweep.Curved()
	left, _ := s.leftSweep()
	return s.Sweep.Curved() || right || s.leftEnds().Flared() && left.Curved()
}

// leftSweep returns the sweep of the left side and the JSON path it is set at.
func (s Spec) leftSweep() (Sweep, string) {
	if s.LeftSweep.Shape == "" {
		return s.SideSweep, "side_sweep"
	}
	return s.LeftSweep, "left_sweep"
}

func (s Spec) frontEnds() curve.Ends {
	return curve.Ends{Bottom: s.Depth, Top: s.Neck.Depth, Skirt: s.Skirt, Height: s.Height}
}

// rightEnds and leftEnds measure outward from the middle plane of the hood.
func (s Spec) rightEnds() curve.Ends {
	return curve.Ends{Bottom: s.Width / 2, Top: s.neckWidth()/2 + s.Neck.Offset, Skirt: s.Skirt, Height: s.Height}
}

func (s Spec) leftEnds() curve.Ends {
	return curve.Ends{Bottom: s.Width / 2, Top: s.neckWidth()/2 - s.Neck.Offset, Skirt: s.Skirt, Height: s.Height}
}

func (s Spec) clone() Spec {
	s.Back.Openings = append([]Opening(nil), s.Back.Openings...)
	s.Board.Sheets = append([]Sheet(nil), s.Board.Sheets...)
	s.Back.Sheets = append([]Sheet(nil), s.Back.Sheets...)
	s.Bend.Ply.Sheets = append([]Sheet(nil), s.Bend.Ply.Sheets...)
	s.Sweep.Points = append([][2]float64(nil), s.Sweep.Points...)
	s.SideSweep.Points = append([][2]float64(nil), s.SideSweep.Points...)
	s.LeftSweep.Points = append([][2]float64(nil), s.LeftSweep.Points...)
	return s
}

// frontName returns the name of the front's sweep.
func (s Spec) frontName() string {
	if s.plumb() {
		return "sweep"
	}
	return "sweep-front"
}

// premium is the largest gap of shaped wood to wood in premium grade, mm:
// Architectural Woodwork Standards, 1st ed. 2009, section 6, 4.4.1.8.
const premium = 0.65

// joint returns the limit of a seam of bent panels.
func (s Spec) joint() float64 {
	if s.Joint == 0 {
		return premium
	}
	return s.Joint
}
