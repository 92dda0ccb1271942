// Package arc is line-and-arc plane geometry for people who make curved
// things: arcs from the sizes a maker can measure (chord and sag), and paths
// and regions whose arcs stay arcs.
//
// # Conventions
//
// Lengths are float64 millimetres; [Inch] and [Foot] convert on input, as in
// 36*arc.Inch. Angles are [Angle], radians, with [Degree] for input.
// The plane has x to the right and y up; counter-clockwise is positive, so an
// outer loop runs counter-clockwise and a hole clockwise.
//
// An arc is kept as its chord and the number k = tan(turn/4) = 2·sag/chord,
// never as a center and two angles: from k nothing is lost for flat arcs, and
// a minor arc cannot be mistaken for a major one. A path is a list of
// vertices; the field Turn of a vertex is the k of the segment that leaves it,
// zero for a line, positive where the path turns left.
//
// All types are values. Nothing here keeps state, so everything is safe for
// concurrent use as long as slices handed in are not being written to.
//
// # Errors
//
// A value that cannot be used comes back as a [*ParamError], which names the
// function, the parameter, the value and what is needed, and wraps one of the
// sentinels of this package.
package arc
