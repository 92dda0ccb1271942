package spec

import "example.com/sagitta/hood/curve"

// Sizes are a spec as it is worked with: what is too flat to be told from
// straight, plumb or square made so, and what follows from its fields.
type Sizes struct{ Spec }

// Sizes returns the sizes of the spec. They share nothing with it.
func (s Spec) Sizes() Sizes { return Sizes{s.clone()}.settled() }

// corner returns the corner joint by name.
func (s Sizes) CornerJoint() string {
	if s.Corner == "" {
		return "miter"
	}
	return s.Corner
}

// NeckWidth returns the width of the neck.
func (s Sizes) NeckWidth() float64 {
	if s.Neck.Width == 0 {
		return s.Width
	}
	return s.Neck.Width
}

// Plumb reports whether neither side is flared.
func (s Sizes) Plumb() bool { return !s.RightEnds().Flared() && !s.LeftEnds().Flared() }

// SweepOfLeft returns the sweep of the left side and the JSON path it is set at.
func (s Sizes) SweepOfLeft() (curve.Sweep, string) {
	if s.LeftSweep.Shape == "" {
		return s.SideSweep, "side_sweep"
	}
	return s.LeftSweep, "left_sweep"
}

// FrontEnds are where the section of the front begins and ends.
func (s Sizes) FrontEnds() curve.Ends {
	return curve.Ends{Bottom: s.Depth, Top: s.Neck.Depth, Skirt: s.Skirt, Height: s.Height}
}

// RightEnds are those of the right side. RightEnds and LeftEnds measure outward from the middle plane of the hood.
func (s Sizes) RightEnds() curve.Ends {
	return curve.Ends{Bottom: s.Width / 2, Top: s.NeckWidth()/2 + s.Neck.Offset, Skirt: s.Skirt, Height: s.Height}
}

// LeftEnds are those of the left side.
func (s Sizes) LeftEnds() curve.Ends {
	return curve.Ends{Bottom: s.Width / 2, Top: s.NeckWidth()/2 - s.Neck.Offset, Skirt: s.Skirt, Height: s.Height}
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

// premium is the largest gap of shaped wood to wood in premium grade, mm:
// Architectural Woodwork Standards, 1st ed. 2009, section 6, 4.4.1.8.
const premium = 0.65

// joint returns the limit of a seam of bent panels.
func (s Sizes) JointLimit() float64 {
	if s.Joint == 0 {
		return premium
	}
	return s.Joint
}

// BackFace returns how far from the wall the front face of the back stands:
// behind it is the back, and the cleat where there is one.
func (s Sizes) BackFace() float64 {
	if s.Cleat.Height > 0 {
		return s.Back.Thickness + s.Board.Thickness
	}
	return s.Back.Thickness
}

// ChimneySize returns the width and depth of the chimney.
func (s Sizes) ChimneySize() (wide, deep float64) {
	wide, deep = s.Chimney.Width, s.Chimney.Depth
	if wide == 0 {
		wide = s.NeckWidth()
	}
	if deep == 0 {
		deep = s.Neck.Depth
	}
	return wide, deep
}
