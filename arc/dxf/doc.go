// Package dxf writes drawings in the drawing interchange format, ASCII, as its
// published reference describes it: the release of 2000 (AC1015), which states
// that its unit is the millimetre, or release 12 (AC1009) for older readers,
// which cannot state a unit; there a comment says so.
//
// Paths and the loops of regions are polylines whose arcs stay arcs: group
// code 42 of a vertex is tan(turn/4) of the segment that starts there, which
// is [arc.Vertex.K]. Labels are text, arrowheads solids, dimensions are
// written as what they look like. Colors are not written: every layer has the
// number that stands for black on white.
package dxf
