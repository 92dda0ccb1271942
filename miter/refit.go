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
// Where a profile turns within a few thicknesses, or stands nearly level, no
// straight cut through the board closes in between, and Face shows by how much.
type Fit struct {
	Show, Face, Back Deviation
}

// refitSag is how far in mm the chords that stand for the bent edges in Refit
// may leave them.
const refitSag = 1e-4

// Refit bends both blanks over their profiles, sets them at the plan angle and
// measures the joint where both have an edge. It knows nothing of how the
// edges were found: it uses the edges and the profiles alone, and takes the cut
// face as a blade leaves it in the flat board, straight from the show edge to
// the back edge and square to the show edge. It measures to about 2e-4 mm.
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
	faces      []cutFace
	t          float64
	along, out r3.Vec
}

// A flatRun is a smooth run of a profile.
type flatRun struct {
	profile arc.Path
	u, n    float64   // developed length at its lower end, and its own
	ends    []float64 // developed length from there at the end of each segment
}

// at returns the point and the tangent at a developed length l within the run.
// It is arc.Path.At with the lengths kept.
func (r flatRun) at(l float64) (p, tangent r2.Vec) {
	i := 0
	for i+1 < len(r.ends) && r.ends[i] <= l {
		i++
	}
	if i > 0 {
		l -= r.ends[i-1]
	}
	return r.profile.Segment(i).At(l)
}

// A cutFace is a smooth piece of a cut, its edges as chords.
type cutFace struct {
	run        flatRun
	show, back []edgePoint
}

// An edgePoint is a point of an edge with its direction there.
type edgePoint struct {
	p, dir r2.Vec
}

func newBender(b Blank, fn, name string) (bender, error) {
	if !length(b.Thickness) || b.Thickness <= 0 {
		return bender{}, fault(fn, name+".Thickness", b.Thickness, "mm", "> 0 up to 1e9", arc.ErrRange)
	}
	if err := b.Profile.Usable(); err != nil || b.Profile.NumSegments() > maxSegments {
		return bender{}, fault(fn, name+".Profile", len(b.Profile.V), "vertices", "a finite path of 1 to 2000 segments", arc.ErrEmpty)
	}
	runs := splitRuns(b.Profile)
	if len(runs) != len(b.Edges) {
		return bender{}, fault(fn, name+".Edges", len(b.Edges), "", "an edge for every run of the profile", arc.ErrRange)
	}
	out := bender{t: b.Thickness}
	for i, e := range b.Edges {
		faces, err := runs[i].faces(e)
		if err != nil {
			return bender{}, fault(fn, item(name+".Edges", i), len(e.Show.V), "vertices", "finite paths, not too long, that do not go down", arc.ErrRange)
		}
		out.faces = append(out.faces, faces...)
	}
	return out, nil
}

// faces returns the cut faces along a run's edge, one between every two
// corners where both edges have the same corners.
func (r flatRun) faces(e Edge) ([]cutFace, error) {
	if e.Show.Usable() != nil || e.Back.Usable() != nil {
		return nil, arc.ErrNotFinite
	}
	show, back := splitCorners(e.Show), splitCorners(e.Back)
	if len(show) != len(back) {
		show, back = []arc.Path{e.Show}, []arc.Path{e.Back}
	}
	radius := leastRadius(r.profile)
	if numChords(e.Show, radius)+numChords(e.Back, radius) > maxChords {
		return nil, arc.ErrRange
	}
	var out []cutFace
	for i := range show {
		f := cutFace{run: r, show: chords(show[i], radius), back: chords(back[i], radius)}
		if !climbs(f.show) || !climbs(f.back) {
			return nil, ErrNotRising
		}
		out = append(out, f)
	}
	return out, nil
}

// splitRuns cuts a profile where its tangent jumps by more than fold.
func splitRuns(p arc.Path) []flatRun {
	var runs []flatRun
	u := 0.0
	for _, q := range split(p, fold) {
		r := flatRun{profile: q, u: u}
		for i := range q.NumSegments() {
			r.n += q.Segment(i).Length()
			r.ends = append(r.ends, r.n)
		}
		runs = append(runs, r)
		u += r.n
	}
	return runs
}

// splitCorners cuts an edge at its corners: arcs that follow one curve turn by
// less from one to the next.
func splitCorners(p arc.Path) []arc.Path { return split(p, 1e-4) }

// split cuts an open path where the sine of a corner exceeds the limit.
func split(p arc.Path, limit float64) []arc.Path {
	var out []arc.Path
	var last r2.Vec
	for i := range p.NumSegments() {
		s := p.Segment(i)
		_, tangent := s.At(0)
		if i == 0 || math.Abs(r2.Cross(last, tangent)) > limit {
			out = append(out, arc.Path{V: []arc.Vertex{{P: s.A}}})
		}
		q := &out[len(out)-1]
		q.V[len(q.V)-1].K = s.K
		q.V = append(q.V, arc.Vertex{P: s.B})
		_, last = s.At(s.Length())
	}
	return out
}
