package hood

import (
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/boards"
	"example.com/sagitta/hood/part"
)

// The curve of a panel and what belongs to it are those of package curve.
type (
	Sweep = curve.Sweep
	Curve = curve.Curve
	Kerfs = curve.Kerfs
	Plies = curve.Plies
)

// The part and what belongs to it are those of package part.
type (
	Part    = part.Part
	Edge    = part.Edge
	Mark    = part.Mark
	Stretch = part.Stretch
	Pose    = part.Pose
	Kind    = part.Kind
	Hand    = part.Hand
	Solid   = part.Solid
)

// The hands of parts.
const (
	Left  = part.Left
	Right = part.Right
)

// The kinds of part. Skirts and sweeps are the front where they have no hand.
// A form is a rib of a bending form and no part of the hood: it has no place in
// the model, and its mass is not in that of the hood. Forms come last.
const (
	KindSkirt        = boards.KindSkirt        // skirt
	KindSweep        = boards.KindSweep        // sweep
	KindCheek        = boards.KindCheek        // cheek
	KindBack         = boards.KindBack         // back
	KindDeck         = boards.KindDeck         // deck
	KindShelf        = boards.KindShelf        // liner-shelf
	KindRib          = boards.KindRib          // rib
	KindCleat        = boards.KindCleat        // cleat
	KindWallCleat    = boards.KindWallCleat    // cleat-wall, the mate of the cleat, which stays on the wall
	KindBlock        = boards.KindBlock        // corner-block
	KindChimneySide  = boards.KindChimneySide  // chimney-side
	KindChimneyFront = boards.KindChimneyFront // chimney-front
	KindForm         = boards.KindForm         // form-rib
)

// outside reports whether a part is, or is a ply, of a skirt or a sweep.
func outside(p Part) bool { return p.Kind == KindSkirt || p.Kind == KindSweep }

// rabbeted reports whether a part has a rabbet for the back.
func rabbeted(p Part) bool {
	return (p.Kind == KindCheek || outside(p)) && len(p.Work.Pockets) > 0
}
