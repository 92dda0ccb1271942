// Package part puts flat parts into space: it folds a blank at its kerfs, or
// bends it evenly, sets it in its place and meshes it. It knows of no product;
// a hood is made of such parts, and so is a curved island front or a barrel
// ceiling.
//
// A [Part] is drawn as the machine sees it, show face down: outline, back face,
// kerfs, grooves and rabbets, and the [Edge]s with their bevels. A [Pose] says
// where it stands. [Fold] works out how it lies in space from the flat part
// alone, so that what was meant and what will be made can be compared:
// [Folded.Point] says where any point of the blank comes to lie,
// [Folded.SetAt] sets the part on another, and [Folded.Solid] gives a closed
// mesh with its volume and centroid.
//
// Lengths are mm, angles radians. Space is right-handed; whoever makes the
// parts says which way x, y and z run.
//
// Ways to bend are kerfs, each of which turns the web under it as package bend
// has it, and stretches that bend evenly, the middle of the thickness keeping
// its length.
package part
