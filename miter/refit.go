package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
)

// A Blank is a flat board with one mitered edge, to be bent over its profile.
type Blank struct {
	Panel
	Edges []Edge // a run of the profile each, upward
}

// A Deviation is how far two cut faces are from touching along a line, in mm:
// the largest gap left between them and the largest overlap, where wood would
// have to go into wood.
type Deviation struct {
	Gap, Overlap float64
}

// Max returns the larger of the two.
func (d Deviation) Max() float64 { return math.Max(d.Gap, d.Overlap) }

// A Fit is how a joint closes: along the show edges, along the back edges, and
// within the cut faces at a quarter, a half and three quarters of their depth.
type Fit struct {
	Show, Face, Back Deviation
}

// refitSag is how far in mm the chords that stand for the bent edges in Refit
// may leave them.
const refitSag = 1e-4

// Refit bends both blanks over their profiles, sets them at the plan angle and
// measures the joint where both have an edge. It knows nothing of how the
// edges were found: it uses the edges and the profiles alone, takes the cut
// face straight through the board at each developed length, and measures to
// about 2e-4 mm.
func Refit(first, second Blank, plan arc.Angle) (Fit, error) {
	const fn = "miter.Refit"
	if err := needBetween(fn, "plan", plan, 0, 2*math.Pi); err != nil {
		return Fit{}, err
	}
	var bent [2]bender
	for i, b := range [2]Blank{first, second} {
		var err error
		if bent[i], err = newBender(b, fn, [2]string{"first", "second"}[i]); err != nil {
			return Fit{}, err
		}
	}
	// Seen from above, the boards run from the corner at the plan angle.
	sin, cos := math.Sincos(float64(plan))
	bent[0].along, bent[0].out = r3.Vec{X: 1}, r3.Vec{Y: 1}
	bent[1].along, bent[1].out = r3.Vec{X: cos, Y: sin}, r3.Vec{X: sin, Y: -cos}
	var f Fit
	for i, d := range [5]*Deviation{&f.Show, &f.Face, &f.Face, &f.Face, &f.Back} {
		depth := float64(i) / 4
		a, b := bent[0].lines(depth), bent[1].lines(depth)
		n := measure(a, b, bent[0].along, d) + measure(b, a, bent[1].along, d)
		if n == 0 {
			return Fit{}, fault(fn, "second", depth, "of the depth", "edges with a height in common", ErrNoSeam)
		}
	}
	return f, nil
}

// A bender bends one blank into its place.
type bender struct {
	runs       []flatRun
	t          float64
	along, out r3.Vec
}

// A flatRun is a smooth run of a profile with its edges as chords.
type flatRun struct {
	profile    arc.Path
	u, n       float64 // developed length at its lower end, and its own
	show, back []r2.Vec
}

func newBender(b Blank, fn, name string) (bender, error) {
	if !finite(b.Thickness) || b.Thickness <= 0 {
		return bender{}, fault(fn, name+".Thickness", b.Thickness, "mm", "> 0", arc.ErrRange)
	}
	if err := b.Profile.Check(); err != nil {
		return bender{}, fault(fn, name+".Profile", len(b.Profile.V), "vertices", "a finite path", arc.ErrEmpty)
	}
	runs := splitRuns(b.Profile)
	if len(runs) != len(b.Edges) {
		return bender{}, fault(fn, name+".Edges", len(b.Edges), "", "an edge for every run of the profile", arc.ErrRange)
	}
	for i, e := range b.Edges {
		step := chordStep(runs[i].profile)
		var err error
		if runs[i].show, err = chords(e.Show, step); err == nil {
			runs[i].back, err = chords(e.Back, step)
		}
		if err != nil {
			return bender{}, fault(fn, name+".Edges", i, "", "finite paths that do not go down", arc.ErrRange)
		}
	}
	return bender{runs: runs, t: b.Thickness}, nil
}

// splitRuns cuts a profile where its tangent jumps.
func splitRuns(p arc.Path) []flatRun {
	var runs []flatRun
	u := 0.0
	var last r2.Vec
	for i := range p.NumSegments() {
		s := p.Segment(i)
		n := s.Length()
		_, tangent := s.At(0)
		if i == 0 || math.Abs(r2.Cross(last, tangent)) > fold {
			runs = append(runs, flatRun{u: u, profile: arc.Path{V: []arc.Vertex{p.V[i]}}})
		}
		r := &runs[len(runs)-1]
		r.profile.V[len(r.profile.V)-1].Turn = s.Turn
		r.profile.V = append(r.profile.V, arc.Vertex{P: s.B})
		r.n += n
		u += n
		_, last = s.At(n)
	}
	return runs
}

// chordStep returns a chord that leaves the run's sharpest arc by refitSag.
func chordStep(p arc.Path) float64 {
	least := 1e4
	for i := range p.NumSegments() {
		least = math.Min(least, p.Segment(i).Radius())
	}
	return math.Sqrt(8 * refitSag * least)
}

// chords returns points along a path no more than about step apart. Their y
// must not go down.
func chords(p arc.Path, step float64) ([]r2.Vec, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	var out []r2.Vec
	for i := range p.NumSegments() {
		s := p.Segment(i)
		l := s.Length()
		n := int(math.Min(1e5, math.Ceil(l/step))) + 1
		for j := range n {
			q, _ := s.At(l * float64(j) / float64(n))
			out = append(out, q)
		}
	}
	out = append(out, p.V[len(p.V)-1].P)
	for i := 1; i < len(out); i++ {
		if out[i].Y < out[i-1].Y-slack {
			return nil, ErrNotRising
		}
	}
	return out, nil
}
