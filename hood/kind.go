package hood

// A Kind says what a part is for.
type Kind string

// The kinds of part. Skirts and sweeps are the front where they have no hand.
// A form is a rib of a bending form and no part of the hood: it has no place in
// the model, and its mass is not in that of the hood. Forms come last.
const (
	KindSkirt        Kind = "skirt"
	KindSweep        Kind = "sweep"
	KindCheek        Kind = "cheek"
	KindBack         Kind = "back"
	KindDeck         Kind = "deck"
	KindShelf        Kind = "liner-shelf"
	KindRib          Kind = "rib"
	KindCleat        Kind = "cleat"
	KindWallCleat    Kind = "cleat-wall" // the mate of the cleat, which stays on the wall
	KindBlock        Kind = "corner-block"
	KindChimneySide  Kind = "chimney-side"
	KindChimneyFront Kind = "chimney-front"
	KindForm         Kind = "form-rib"
)

// A Hand tells the parts of a pair apart, as one faces the hood; a part that
// has no fellow has none.
type Hand string

// The hands.
const (
	Left  Hand = "left"
	Right Hand = "right"
)

// other returns the hand across.
func (h Hand) other() Hand {
	switch h {
	case Left:
		return Right
	case Right:
		return Left
	}
	return h
}

// outside reports whether a part is, or is a ply, of a skirt or a sweep.
func (p Part) outside() bool { return p.Kind == KindSkirt || p.Kind == KindSweep }

// rabbeted reports whether a part has a rabbet for the back.
func (p Part) rabbeted() bool {
	return (p.Kind == KindCheek || p.outside()) && len(p.Work.Pockets) > 0
}
