package boards

import (
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
)

// A Hood is the boards of a hood, and what should meet in it.
type Hood struct {
	Front       curve.Section
	Left, Right Side
	Parts       []part.Part
	Claims      []proof.Claim
}

// A Side is a flared side, outward from the middle plane; the zero Side is a
// plumb one.
type Side struct {
	curve.Section
	Seam     miter.Seam
	Stations []Station // of the seam, upward
}

// A Station is a place of a seam at a height.
type Station struct {
	Y float64
	miter.Station
}

// Make cuts the boards of a hood whose spec is valid. The error is spec.Faults.
func Make(s spec.Sizes) (Hood, error) {
	b := builder{Sizes: s, t: s.Board.Thickness, faults: spec.Checker{Func: "hood.Build", In: s.Format()}}
	b.sections()
	if b.faults.Count() == 0 {
		b.shell()
	}
	if err := b.faults.Err(); err != nil {
		return Hood{}, err
	}
	return Hood{Front: b.front, Left: b.left.told(), Right: b.right.told(), Parts: b.parts, Claims: b.claims()}, nil
}
