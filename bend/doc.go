// Package bend answers how to get a board onto a curve: kerfed, laminated or
// bent as it is, with numbers that can be cut.
//
// # Kerfing
//
// A panel too thick to bend is made to by cutting kerfs, parallel slots, across
// its back and leaving a thin web of wood under each. The show face stays whole.
//
//	  back face, up on the machine
//	 ________     ____________     ____________     ________
//	|        | w |            | w |            | w |        |
//	|        |   |    land    |   |    land    |   |        | thickness t
//	|        |___|            |___|            |___|        |
//	|_______________________________________________________| web b
//	  show face, down
//	           |<--- pitch ---->|
//	|half pitch|
//
//	        _______        _______
//	    _.-'       \      /       '-._        back: the kerf opens
//	  .'    _.------\____/------._    '.
//	 /    .'                      '.    \     show face concave: a cove
//
//	 \    '._                    _.'    /     back: the kerf closes
//	  '.     '-------|__|-------'     .'
//	    '-._                      _.-'
//	        '--------------------'            show face convex: a bow
//
// What there is to know before the first cut:
//
//   - Which face: kerfs go in the back, the face nobody sees.
//   - Which way: a kerf turns the panel a little; where the show face is convex
//     it closes and must not close before the turn is made, where it is concave
//     it opens and nothing stops it but the web.
//   - How many: enough that no web is strained beyond what the board stands,
//     that none closes early, and that the flats between them stay within the
//     facet limit of the curve. [KerfPlan] finds the fewest and says which of
//     these set the number.
//   - How deep: to the web. Deeper bends easier and breaks sooner; a web below
//     1.6 mm (1/16 in) is not advised (Woodworker's Journal 8-4, 1984, p. 21).
//   - How long: the blank is as long as the middle of its webs after bending,
//     not as long as the curve on its show face.
//
// And first of all a scrap: cut [Plan.TestStrip] from the same board with the
// same setting and bend it over the panel's radius and beyond, in the panel's
// direction. Where it cracks or its kerfs show through, [StripBend.Strain]
// gives the strain it stood, to plan below; where its kerfs close, [Calibrate]
// gives their true width and web. Boards, blades and webs differ more than
// this geometry does.
//
// The model: every web bends as an arc whose mid-surface keeps its length, the
// kerf's width; lands stay flat and touch the curve. With N the radius of the
// web's middle, ρ = w/a its own radius for a turn a per kerf, the land is
// 2(N − ρ)·tan(a/2) and the panel stands at most (N − ρ)(sec(a/2) − 1) off the
// curve, at the kerfs. [Refold] bends a blank back by the model from its kerfs
// alone, as a check of any plan.
//
// How true that is was tried by finite elements (plane stress, an isotropic
// elastic board of 19 mm, kerf 3.2, web 1.6, three meshes; an analysis, not a
// test of boards): the bend reaches beyond the kerf's walls, over about 1.6 of
// its width, and the strain at mid-web is about 0.6 of b·a/(2w), so that the
// formula errs on the safe side there. Within 0.1 mm of a square inner corner
// the strain is about 0.8 of the formula and at the corner itself it grows
// without bound. Where the kerf opens that corner is in tension: a rounded
// tooth or a ball-nosed cutter helps. A panel that is held bent for good stands less than
// a short test says.
//
// # Profiles
//
// A profile is an open [arc.Path] in the section plane: the show face, with the
// board on the left of travel. A segment that turns right (K < 0) has its
// show face concave, one that turns left convex.
//
// # Conventions
//
// Lengths are mm, angles [arc.Angle], strains ratios. Numbers may not exceed
// 1e12, and those that must be positive not fall below 1e-12. Everything is a
// value, nothing is kept, and all of it is safe for concurrent use.
//
// # Cautions
//
// Common practice: kerfed panels snap; hold long ones with a helper, and keep
// hands from the back of a bow while it closes. Guard blades and cutters, and
// lower them to the depth of the kerf. Wear a mask and collect dust: wood and
// panel dust harm the lungs, and panels give off formaldehyde when cut. A bent
// panel carries no load unless it is backed; what holds it up, and what it may
// hold, is for licensed practice and local codes.
package bend
