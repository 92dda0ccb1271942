// Package cut turns a sheet with parts on it into a cut program for a
// three-axis router, and proves a program by cutting the sheet with it in the
// machine's stead.
//
// # Conventions
//
// A part lies show face down, as the machine sees it. The program's x and y
// are those of the sheet; z = 0 is the face the sheet lies on, the top of the
// spoilboard, so the show face of every part is at z = 0 and what is left under
// a kerf does not depend on how thick the sheet turned out. z is positive
// upward and is that of the cutter's tip; x and y are those of its axis. Turns of
// a path are as in package arc. Lengths are mm, feeds mm/min, speeds rev/min.
//
// # What is cut
//
// [Work] says what is cut into a part beside its outline and its openings. In
// the order of the program: slots (kerfs and dados), pockets, openings,
// waste that no tab would hold,
// bevels, and outlines last, in depth passes, entered by a ramp, with tabs to
// hold what is cut free. Bevels come before outlines so that they are cut in
// a board that is whole, and the feather edge breaks out into waste.
//
// A bevel that leans in is cut with the V cutter of twice its angle, or in steps
// by the cutter of the outlines, from the top down, no step farther off the face
// than Options say; [Ways] says which and why. A bevel that undercuts is
// listed in [Program.Saw]; an inside corner sharper than the cutter in
// [Program.Rest]. Nothing asked is dropped in silence.
//
// Pockets come after slots, not before: the slots' cutter is in first, and the
// cutter of pockets stays in for openings, waste and outlines. The other way
// round costs one more change of cutter.
//
// # What holds
//
// [Options.Hold] says what holds a part while it is cut free and after: tabs, a
// skin, or vacuum. [Clearance] and [Overhang] are enough for each: where parts lie
// one cutter apart, the tabs of both meet in a bridge, and a chain of parts leads
// to the frame. A skin is cut through where a bevel's show edge is, so a part
// beveled all around takes tabs.
//
// # Proof
//
// [Replay] takes the moves of a program, best as read back from its text, and
// the parts on the sheet, and reports every place where a part was cut that
// should not have been, or was not that should. It shares no geometry with
// [Plan].
//
// # Caution
//
// A router can maim, dust harms and can explode, and a sheet is heavy. Run
// every program in air above the sheet first, with a hand on the stop; check
// zeros, cutters, clamps and hold-down. The machine maker's and the cutter
// maker's instructions and the rules of the workplace come before anything
// printed here.
package cut
