// Package hood turns the sizes of a wooden surround for a kitchen exhaust hood
// into flat parts that close: panels with their true sizes, kerfs, rabbets,
// bevels and openings, the weight to hang, and the cautions to mind.
//
// # Words
//
// The skirt is the plumb band at the bottom, the sweep the curved part above
// it, the neck the top where the sweep ends, a cheek a plumb side panel, the
// deck the board that closes the neck, the chimney the plumb box above it.
//
// # Conventions
//
// Lengths are millimetres, angles arc.Angle, masses kilograms. In space x runs
// to the right as one faces the hood, with 0 in its middle, y up from the bottom
// edge, and z out of the wall. That is right-handed, and the frame of glTF.
//
// A part is drawn as the machine sees it: show face down, back face up, so
// that every kerf, rabbet and bevel is cut from above. Its outline is that of
// the show face, its origin the lower left corner of the outline's extent. A
// bevel above 0 makes the back face smaller; one below 0 undercuts the show
// face, which a cutter from above cannot do, and is listed as finished by saw.
//
// What a part is in space, and its mesh, is package [example.com/sagitta/hood/part],
// which knows of no hood.
//
// # Ways to bend
//
// A curved panel is kerfed across its back; laminated of plies, each cut to the
// length of its own middle, over size, and trimmed after glue-up on a form that
// allows for springback; or bent as it is, in one sheet that ribs hold. A spec
// says which for all panels (bend.method) and for each (sweep.method,
// side_sweep.method, left_sweep.method). Kerfed panels get a form too where
// bend.form asks for one. The ribs of a form are parts to cut, but not parts of
// the hood.
//
// # Registration
//
// Boards find their places by rabbets and dadoes, and where the spec asks for
// them by tabs in slots ([Tabs]) and pins in matching holes ([Pins]). An edge
// named tab goes into a slot of another part: an opening of the back, an edge
// named slot where it is open, or a pocket. A round cutter cannot cut a square
// inside corner, so all of these have half circles beside their corners.
//
// # The proof
//
// Build folds every flat part back from its blank, kerfs and bevels alone,
// sets it in its place and measures the joints. The result is in Checks; a
// design of which a joint does not close within its limit is an error.
//
// # Caution
//
// A surround is combustible wood hung over a cooktop. The cautions of a
// design name their sources; they do not replace local codes, the
// instructions of the appliance's maker, or licensed practice.
package hood
