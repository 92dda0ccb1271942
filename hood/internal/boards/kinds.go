package boards

import (
	"example.com/sagitta/hood/part"
)

// The kinds of part. Skirts and sweeps are the front where they have no hand.
// A form is a rib of a bending form and no part of the hood: it has no place in
// the model, and its mass is not in that of the hood. Forms come last.
const (
	KindSkirt        part.Kind = "skirt"
	KindSweep        part.Kind = "sweep"
	KindCheek        part.Kind = "cheek"
	KindBack         part.Kind = "back"
	KindDeck         part.Kind = "deck"
	KindShelf        part.Kind = "liner-shelf"
	KindRib          part.Kind = "rib"
	KindCleat        part.Kind = "cleat"
	KindWallCleat    part.Kind = "cleat-wall" // the mate of the cleat, which stays on the wall
	KindBlock        part.Kind = "corner-block"
	KindChimneySide  part.Kind = "chimney-side"
	KindChimneyFront part.Kind = "chimney-front"
	KindForm         part.Kind = "form-rib"
)
