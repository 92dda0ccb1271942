package miter

import (
	"math"

	"example.com/sagitta/arc"
)

// A Saw is what a miter saw can reach. A zero field means what a common saw
// reaches: 50° of miter and 45° of tilt either way (common practice).
type Saw struct {
	Miter, Tilt arc.Angle
}

// A Way is how a cut can be made.
type Way int

const (
	// Direct: the saw reaches both angles.
	Direct Way = iota
	// SquareFence: clamp the board along a second fence square to the saw's
	// own, and set 90° less the miter, to the other side.
	SquareFence
	// TallFence: at the table saw, stand the board on its end against a tall
	// fence, clamped to a carriage, and tilt the blade by 90° less the tilt.
	TallFence
	// BothFences: as TallFence, with the board at its miter in a jig.
	BothFences
)

// String says the way in a maker's words.
func (w Way) String() string {
	switch w {
	case Direct:
		return "direct"
	case SquareFence:
		return "along a fence square to the saw's, miter at its complement"
	case TallFence:
		return "at the table saw, on end against a tall fence, tilt at its complement"
	}
	return "at the table saw, on end in a jig, both angles at their complements"
}

// Angles returns the miter and tilt to set when a cut is made this way: the
// setting's own or their complements to 90°.
func (w Way) Angles(set Setting) (miter, tilt arc.Angle) {
	miter, tilt = set.Miter, set.Tilt
	if w == SquareFence || w == BothFences {
		miter = math.Pi/2 - miter
	}
	if w == TallFence || w == BothFences {
		tilt = math.Pi/2 - tilt
	}
	return miter, tilt
}

// limits returns the reach with the zero fields filled in.
func (s Saw) limits() (miter, tilt arc.Angle) {
	miter, tilt = s.Miter, s.Tilt
	if miter == 0 {
		miter = 50 * arc.Degree
	}
	if tilt == 0 {
		tilt = 45 * arc.Degree
	}
	// A detent at 45° takes a 45° cut, whatever the last bit says.
	return miter + 1e-9, tilt + 1e-9
}

// Way returns how the saw can make the setting.
func (s Saw) Way(set Setting) Way {
	miter, tilt := s.limits()
	switch m, t := set.Miter > miter, set.Tilt > tilt; {
	case m && t:
		return BothFences
	case m:
		return SquareFence
	case t:
		return TallFence
	}
	return Direct
}

// Best returns the first stand in which the saw reaches the end's cut: flat
// with the show face up, then on edge with the show face toward the operator,
// each first on the lower edge. Where none is reached it returns the setting
// flat with the way round.
func (s Saw) Best(e End) (Setting, Way) {
	for _, stand := range [4]Stand{{}, {UpperEdge: true}, {OnEdge: true}, {OnEdge: true, UpperEdge: true}} {
		if set := e.Setting(stand); s.Way(set) == Direct {
			return set, Direct
		}
	}
	set := e.Setting(Stand{})
	return set, s.Way(set)
}
