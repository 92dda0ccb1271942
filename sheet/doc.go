// Package sheet lays parts out on sheets: parts, stock, nesting by true
// outline, layouts that a panel saw can cut, offcuts and the cut list, and a
// checker that says whether a layout is legal.
//
// # Conventions
//
// Lengths are millimetres, angles [arc.Angle]. A part is drawn as the machine
// sees it. A sheet's origin is its lower left corner, x along its length, y
// along its width, and its grain runs along x unless the stock says otherwise.
// A [Placement] turns the part about the part's own origin and then moves it.
//
// All types are values, and the same input gives the same result: the order of
// maps, the clock and the number of cores do not enter where the budget is one
// of iterations. The order in which parts are listed does not matter either.
//
// # Legal layouts
//
// Touching is legal. A layout is legal where, to within [Options.Eps], no part
// comes nearer than the gap to another part or a forbidden region, nor nearer
// than the margin to the edge of its sheet; where each copy of a part is placed
// once or listed as unplaced; where grain, turns, mirroring, material,
// thickness and the counts of stock are kept, and parts of one set share a
// sheet. A part may lie in an opening of another. [Check] decides it from the
// true lines and arcs, and nothing that it refuses is ever returned.
//
// # Method
//
// The search works on polygons that hold the true outlines, arcs by tangents
// outside the material, grown by half the gap. Overlap is allowed on the way
// and driven out by guided local search, first sheet by sheet, then over several
// sheets at once, between which parts are exchanged to empty the last one or to
// leave a whole rectangle of it:
//
//   - J. Egeblad, B. K. Nielsen, A. Odgaard, Fast neighborhood search for two-
//     and three-dimensional nesting problems, European Journal of Operational
//     Research 183, 2007;
//   - T. Imamichi, M. Yagiura, H. Nagamochi, An iterated local search algorithm
//     based on nonlinear programming for the irregular strip packing problem,
//     Discrete Optimization 6, 2009;
//   - A. Elkeran, A new approach for sheet nesting problem using guided cuckoo
//     search and pairwise clustering, European Journal of Operational Research
//     231, 2013;
//   - J. Gardeyn, G. Vanden Berghe, T. Wauters, arXiv 2509.13329, 2025.
//
// Groups of rectangles are also packed as such, and every group's bounding
// boxes once at the start, so that a search that is stopped at any moment has
// a layout to return; where there are more than 60 copies, then also the boxes
// of two or four that reach into each other. Boxes are laid in the largest
// clear rectangle of a sheet. Parts of any angle are tried at many, and in the
// last quarter of the budget turned a little about their places. The polygons
// stand off the arcs: what is left out, and what lies on the emptiest sheet, is
// also tried where arcs touch exactly, discs against two arcs or edges and arcs
// against others of their own center, for up to 60 copies. Which sheets to open
// is decided by enumeration: the first layout draws on the cheapest stock by
// area; then choices of sheets that cost less and have the area are tried, the
// cheapest first; at last some of the kinds of stock as though there were no
// others, so that more stock on offer makes no layout dearer. That is certain for
// up to six kinds and a budget of iterations.
//
// Where there is no time for any of that, boxes lie on shelves. Clear rectangles,
// for straight cuts on sheets with defects, for parts that were left out and for
// offcuts, are found by branch and bound over their two ends. [Options.Fixed] makes
// a search go on around what stands: to it that is forbidden, on stock that is paid
// for. Should the last check of a layout ever fail, the best before it is returned.
//
// At the end pairs of sheets are dealt anew by the jobs of [Part.Near], and parts of
// one shape change places; where [Options.Share] asks for it, neighbors are moved
// together until their straight edges lie exactly the gap apart, and [SharedCuts]
// lists where one pass of a cutter then cuts both.
//
// # Cautions
//
// Whole sheets are heavy, and cutting them makes dust and off-cuts that move:
// support, extraction, guards and hold-downs are a matter for the machine's
// instructions, local rules and trained people (common practice, no source).
package sheet
