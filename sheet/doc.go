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
// All types are values, and the same input gives the same result: the order
// of maps, the clock and the number of cores do not enter where the budget is
// one of iterations.
//
// # Legal layouts
//
// Touching is legal. A layout is legal where, to within [Options.Eps], no part
// comes nearer than the gap to another part or a forbidden region, nor nearer
// than the margin to the edge of its sheet; where each copy of a part is placed
// once or listed as unplaced; where grain, turns, mirroring, material,
// thickness and the counts of stock are kept, and parts of one set share a
// sheet. [Check] decides it from the true lines and arcs.
package sheet
