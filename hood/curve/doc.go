// Package curve works out the section of a bent panel: it sketches the curve
// between two ends, finds the faces at any depth of the board, where they end,
// and every developed length. It has no word of parts.
//
// A [Sweep] is what is asked: a shape and how strongly it is bent. [Ends] are
// where it begins and ends; [Ends.Sketch] draws the show face between them, with
// the plumb band of a skirt below where there is one, and [Section.Fold] finds
// the back. [Section.PlanKerfs] plans the blank of a kerfed panel; plies keep
// the length of their own middles ([Section.Along]).
//
// In a section x runs out and y up, both from the ends given; the board lies to
// the left of the show face as one goes up. Lengths are mm. A lean is off plumb,
// positive where the face falls back as one goes up. What leaves its chord by
// less than [Flat] is straight.
package curve
