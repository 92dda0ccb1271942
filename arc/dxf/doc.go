// Package dxf writes and reads drawings in the drawing interchange format, ASCII, as its
// published reference describes it: the release of 2000 (AC1015), which states
// that its unit is the millimetre, or release 12 (AC1009) for older readers,
// which cannot state a unit; there a comment says so.
//
// Paths and the loops of regions are polylines whose arcs stay arcs: group
// code 42 of a vertex is tan(turn/4) of the segment that starts there, which
// is [arc.Vertex.K]. Labels are text, arrowheads solids, dimensions are
// written as what they look like. Colors are not written: every layer has the
// number that stands for black on white.
//
// [Decode] reads paths from files of others, release 12 or later, with their
// layers and unit, and lists what it did not read. It does not read the binary
// form, text, dimensions, hatch or anything in space.
package dxf
