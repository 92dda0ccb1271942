// Package spec is what is asked of a hood: a [Spec], which the tags of its
// fields explain, what is wrong with it, and its [Sizes], with which it is
// worked. It makes nothing.
//
// Lengths are millimetres of show faces, angles arc.Angle; x runs to the right
// as one faces the hood, y up from its bottom edge, z out of the wall.
package spec
