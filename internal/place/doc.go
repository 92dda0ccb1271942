// Package place nests polygons with holes in a strip of least length (Strip)
// or in given sheets (Fit).
//
// # Method
//
// The length of the strip is fixed and the items may overlap; a search drives
// the overlaps out; then the length is cut a little and the search goes on. A
// dense layout hardly has a legal move that improves it, so the search passes
// through overlap.
//
// The search is a guided local search: each pair of items has a weight, which
// grows while the pair overlaps and fades when it does not. In a sweep every
// overlapping item, in random order, looks for a place of least weighted
// overlap: samples over the whole strip, at the rims of no-fit regions, in the
// holes of others and around its present place, the best few of them improved
// by a descent along axes and diagonals with shrinking steps. A failed length is
// tried again from one of the nearly legal layouts met, after two large items
// changed places. The last fifth of the budget squeezes the best layout in ever
// smaller steps.
//
// Fit first fills the containers one by one, in the order given. Then it sets
// some of them side by side, as a strip with walls, and shortens that strip:
// the search moves copies from one container to another as it does within one,
// and so the last of them is emptied or leaves a larger rectangle. Where that
// sticks and there are few copies, it also draws short last containers of boxes
// that fit beside each other and drives all other copies into the rest.
//
// The badness of an overlap is the summed penetration of inscribed circles of
// the two items, with a tail beyond contact, times their sizes.
//
// # What makes it quick and exact
//
// All decisions are made on an integer grid (see grid). Coordinates that share
// a step, such as whole or tenth millimetres, are held exactly, so that parts
// that fit exactly do fit; others are grown outward by about 2e-7 of the
// largest item. Outlines of more than 120 vertices are simplified outward, by
// at most 0.1 % of their area.
//
// For each pair of shapes a raster is laid over the no-fit region, which is
// the set of displacements that make them overlap. Cells that the convolution
// of the two outlines does not cross are free or blocked as a whole; in the
// others the winding number decides, with the few edges of that cell, in exact
// arithmetic; on an edge the shapes themselves are compared. Most of such a cell
// is free or blocked too, which is worked out for its sixteen parts when it is
// first met. So a pair is decided in some ten nanoseconds, whatever its number
// of vertices, and a result needs no correction after the search. Where tables
// would take too much memory, the shapes are compared each time.
//
// A result is exact on the grid; its coordinates are floats and rounded as
// such. With whole-number input they are exact too.
//
// # Repeatable
//
// Two searches with their own random numbers always run, on one worker or two.
// Eight times on the way the one that lags takes over the layout of the other.
// With a budget in Iterations the result depends on the input and the seed
// only, with one in Time on the machine too. On one worker with a Time budget
// the second search gets no time.
//
// # Limits
//
// An item that may take any turn is first tried at many angles (steps of 15
// degrees, those that lay its longest edges along an axis, and one at which it
// fits a container that it fits at no other). The last quarter of the budget
// then turns such items about their places, by random small angles and by
// those that lay an edge along an axis or along an edge of a neighbor, down to
// 1e-4 radians. Fit does that in the last container, or in
// all where there are few copies, and never moves copies to a container that it
// did not fill at first.
//
// # Papers
//
//   - Gardeyn, Vanden Berghe, Wauters 2025, arXiv:2509.13329: separation with
//     inscribed circles, sampling and coordinate descent; exploration and
//     compression.
//   - Umetani, Murakami 2022:
//     coordinate descent for irregular strip packing.
//   - Elkeran 2013: guided cuckoo search.
//   - Imamichi, Yagiura, Nagamochi 2009: separation by penetration depth.
//   - Egeblad, Nielsen, Odgaard 2007: guided local search with weighted pairs.
//   - Guibas, Ramshaw, Stolfi 1983: convolution of outlines and its winding
//     numbers.
package place
