package hood

import (
	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Slot is a kerf or dado: a straight groove cut from the back face, in the
// part's coordinates. Its ends may run out over waste.
type Slot struct {
	From, To     r2.Vec
	Width, Depth float64 // mm
}

// A Pocket is an area cut down to a depth from the back face. It may run out
// over waste.
type Pocket struct {
	Area  arc.Region
	Depth float64 // mm
}

// A Bevel is a sloped edge along a run of the outline.
type Bevel struct {
	Edge  arc.Path  // part of the outline, run as the outline
	Angle arc.Angle // off square: > 0 leans in toward the back face, < 0 undercuts
}

// A Work is what is cut into a part beside its outline and openings.
type Work struct {
	Slots   []Slot
	Pockets []Pocket
	Bevels  []Bevel
}
