package bend

import (
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
)

// A Method is a way to get a board onto a curve.
type Method uint8

const (
	AsIs      Method = iota // one sheet, bent as it is
	Kerfed                  // kerfs across the back
	Laminated               // plies glued up on a form
)

// String returns the method in a word or two.
func (m Method) String() string {
	switch m {
	case AsIs:
		return "bent as it is"
	case Kerfed:
		return "kerfed"
	case Laminated:
		return "laminated"
	}
	return fmt.Sprintf("Method(%d)", uint8(m))
}

// A Job is a curve and a board, to be brought together one way or another.
type Job struct {
	Profile arc.Path // as for KerfPlan
	Board   Board
	Width   float64 // of the panel along the kerfs, mm, > 0
	Limits  Limits  // Strain is taken for plies and for the board as it is, too

	// Material gives Limits.Strain where that is zero, with Factor; see
	// Material.StrainLimit.
	Material Material
	Factor   float64

	// Table gives the least radius of the board bent as it is. Zero goes by
	// strain.
	Table RadiusTable
	Grain Grain

	// ThinPly, SawKerf and Planing are those of Pack.
	ThinPly, SawKerf, Planing float64
}

// A Way is one method for a job: how it comes out, or why it does not.
type Way struct {
	Method Method
	Err    error // nil where the way works; else what is in the way and what would have to change

	Use         float64 // fraction used of the strain or radius the material stands, at the tightest place; 0 where not known
	Pieces      int     // sheets or plies to cut
	CutLength   float64 // of all kerfs, mm
	GlueArea    float64 // mm²
	LeastRadius float64 // that the board stands bent as it is, inside face, mm
	Plan        Plan    // where kerfed
	Lamination  Lamination
	Cautions    []string
}

// Ways returns all methods for a job. Those that work come first, by least
// labor: as it is before kerfed before laminated; the others follow in the
// same order. The error is a fault of the job itself; a way that does not work
// is no error.
func Ways(j Job) ([]Way, error) {
	const fn = "bend.Ways"
	err := first(checkProfile(fn, j.Profile), j.Board.check(fn), j.Limits.check(fn), needPositive(fn, "Job.Width", j.Width, "mm"))
	if err != nil {
		return nil, err
	}
	if _, err := elements(fn, j.Profile, j.Limits.corner()); err != nil {
		return nil, err
	}
	if j.Limits.Strain == 0 {
		if j.Limits.Strain, err = j.Material.StrainLimit(j.Factor); err != nil {
			return nil, err
		}
	}
	inside, at := insideRadius(j.Profile, j.Board.Thickness)
	ways := []Way{j.asIs(inside, at), j.kerfed(), j.laminated(inside, at)}
	slices.SortStableFunc(ways, func(a, b Way) int { return rank(a) - rank(b) })
	return ways, nil
}

func rank(w Way) int {
	if w.Err != nil {
		return 1
	}
	return 0
}

func (j Job) asIs(inside float64, at int) Way {
	w := Way{Method: AsIs, Pieces: 1}
	if len(j.Table.Rows) > 0 {
		w.LeastRadius, w.Err = j.Table.Radius(j.Board.Thickness, j.Grain)
	} else {
		// The faces of a board bent to R at its middle strain by t/(2R).
		w.LeastRadius = j.Board.Thickness / 2 * (1/j.Limits.strain() - 1)
	}
	if w.Err != nil {
		return w
	}
	w.Use = w.LeastRadius / inside
	if inside <= 0 {
		w.Use = math.Inf(1)
	}
	if w.Use > 1 {
		w.Use = 0
		w.Err = tooTight(at, inside, w.LeastRadius)
		return w
	}
	w.Cautions = []string{"a board bent as it is pushes back: it needs ribs or a frame to hold the curve", scrapFirst}
	return w
}

func tooTight(at int, inside, least float64) error {
	return fault("bend.Ways", fmt.Sprintf("inside radius of segment %d", at), inside, "mm",
		fmt.Sprintf("at least %.6g mm for this board bent as it is, or a thinner board", least), ErrTooTight)
}

const scrapFirst = "try it on scrap of the same board first"

func (j Job) kerfed() Way {
	w := Way{Method: Kerfed, Pieces: 1}
	if w.Plan, w.Err = KerfPlan(j.Profile, j.Board, j.Limits); w.Err != nil {
		return w
	}
	w.CutLength = float64(len(w.Plan.Kerfs)) * j.Width
	w.Use = w.Plan.Strain / j.Limits.strain()
	w.Cautions = []string{"cut and close a test strip first; webs break where kerfs are a little too deep"}
	if j.Board.Web < leastWeb {
		w.Cautions = append(w.Cautions, "a web below 1.6 mm (1/16 in) is not advised (Woodworker's Journal 8-4, 1984, p. 21)")
	}
	if slices.ContainsFunc(w.Plan.Kerfs, func(k Kerf) bool { return k.Turn < 0 }) {
		w.Cautions = append(w.Cautions, "open kerfs leave the webs to carry the panel: fill them, back them or hold them with ribs")
	}
	return w
}

// leastWeb is 1/16 in.
const leastWeb = 1.5875

// radii counts changes of curvature along the arcs of a profile, from one.
func radii(p arc.Path) int {
	n, prev := 0, 0.0
	for i := range p.NumSegments() {
		c := p.Segment(i).Curvature()
		if c != 0 && math.Abs(c-prev) > 1e-6*math.Abs(c) {
			n++
			prev = c
		}
	}
	return n
}

func (j Job) laminated(inside float64, at int) Way {
	w := Way{Method: Laminated}
	if at < 0 {
		w.Err = fault("bend.Ways", "profile", "straight", "", "a curve: there is nothing to laminate to", ErrRange)
		return w
	}
	if inside <= 0 {
		w.Err = tooTight(at, inside, 0)
		return w
	}
	w.Lamination, w.Err = Laminate(inside, Pack{
		Thickness: j.Board.Thickness, Strain: j.Limits.strain(), ThinPly: j.ThinPly,
		Width: j.Width, Length: j.Profile.Length(), SawKerf: j.SawKerf, Planing: j.Planing,
	})
	if w.Err != nil {
		return w
	}
	w.Pieces, w.GlueArea = w.Lamination.Plies, w.Lamination.GlueArea
	w.Use = w.Lamination.Strain / j.Limits.strain()
	w.Cautions = []string{
		"springback is by elastic theory: glue up one trial on the form before the part",
		"wear what the glue's maker asks for; solvents and hardeners harm lungs and skin",
	}
	if radii(j.Profile) > 1 {
		w.Cautions = append(w.Cautions, "the form radius is that of the tightest arc; see FormRadius for the others")
	}
	return w
}
