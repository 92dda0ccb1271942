// Package plate draws a flat part before it is one: sides with their bevels,
// kerfs, grooves and pockets, in whatever coordinates are handy. Finish moves
// the drawing to its corner and works out the other faces, the blank and the
// mass. It knows of no hood.
package plate
