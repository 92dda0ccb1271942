// Package miter computes how boards meet at a corner: flat boards at any plan
// angle and slope, crown and hoppers, and curved panels whose seam and bevel
// change along the edge.
//
// # Conventions
//
// Lengths are millimetres, angles [arc.Angle]. A plan angle is the interior
// one, on the side of the material: 90° at the outside corner of a box, 270°
// where the work turns inward, as crown does in the corner of a room. Seen from
// outside, the first board of a corner lies to the left of the second; on plan
// the work is run counter-clockwise.
//
// A board's tilt is measured from level: 90° stands plumb, less leans in over
// the work as it rises (the sweep of a hood), more leans out (crown, a feed
// hopper). Only 0° and 180° lie flat, as the sides of a picture frame do.
//
// The miter of an end is drawn on the show face, off a line square to the
// board's level edges; it is positive where the board grows narrower toward
// its upper edge. The bevel is off a cut square to the face; it is positive
// where the back is shorter than the show face, as at every outside corner.
//
// # Curved panels
//
// A profile is an open [arc.Path] in the section of the panel, x outward and y
// up, run from its lower end to its upper end along the show face; the board
// lies on the left of travel. See [Seam].
//
// # Caution
//
// Compound cuts bring the hand near a tilted blade and leave narrow, sharp
// offcuts: clamp the work, keep to the limits in the saw's own manual and prove
// each setting in scrap (common practice).
package miter
