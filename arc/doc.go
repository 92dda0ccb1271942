// Package arc is line-and-arc plane geometry for people who make curved
// things: arcs from the sizes a maker can measure (chord and sag), and paths
// and regions whose arcs stay arcs.
//
// It promises that arcs stay arcs in offsets and operations on regions, and that
// what these return has been checked, or is an error. Operations on regions take
// copies of their input from nothing to 1e-3 mm off it, as the tests sweep. What
// is illegal is refused by name: see [Region.Check]. No value passed panics,
// hangs or takes memory without bound, and equal input gives equal bits. Time
// grows nearly as n log n with the number of segments: BenchmarkGrowth prints
// the exponents.
//
// It does not promise results finer than a tolerance, which every such function
// takes and states, nor to mend input that crosses itself; it has no curves but
// lines and arcs, and no space but the plane. Distances of paths that run side by
// side at nearly the same distance all along, and loops within one another that
// touch by the thousand, take more time than n log n.
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
// vertices; the field K of a vertex is the k of the segment that leaves it,
// zero for a line, positive where the path turns left.
//
// # What is here
//
// An [Arc] is made from any two of chord, sag, radius, turn and length
// ([FromChordSag] and its like); [ThreePoints] and [Tangent] give an arc in its
// place. Ordinates, even divisions, the concentric arc and facets lay it out.
// Curves of the trade come as paths from the sizes a maker has: [SegmentalArch],
// [BasketArch], [FourCenteredArch], [EllipticalArch], [Ellipse], [Catenary],
// [Ogee], [SmoothThrough]; those that are not circular are tangent arcs within
// a tolerance ([Approximate]). [ParseLength] and [FormatLength] read and write
// lengths as people do, [ParsePath] and [Path.String] paths.
//
// A [Path] and a [Region] know their length, area, [Moments] and exact bounds,
// what they contain, how near a point is, how near they come to each other
// ([Path.Gap]) and where they meet ([Contact]). They can be trimmed, split,
// joined ([Connect], [Regions]), cleaned, turned about ([Motion]), flattened to
// one side, put in a hull or the smallest [Frame]. Corners are rounded, chamfered
// or relieved for a cutter; [TangentLines], [Fillets] and [Extend] stand between
// two elements. Offsets are true parallels whose every result is checked;
// [Union], [Difference], [Intersection] and [SymmetricDifference] stand on the
// same machinery. The packages dxf and svg beside this one read and write files.
//
// What goes over its input more than once, or looks for arcs along a curve, has a
// variant whose name ends in Context: it stops with the context's error when that
// is done. The plain one runs under [context.Background].
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
