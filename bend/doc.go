// Package bend plans how to get a board onto a curve: kerfed, laminated, or
// bent as it is.
//
// Lengths are millimetres, angles arc.Angle.
package bend
