package boards

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"gonum.org/v1/gonum/spatial/r2"
)

// maxForms bounds how many ribs a form has.
const maxForms = 100

// onForm reports whether a panel is bent on a form: plies always, kerfs where
// bend.form asks for it.
func (b *builder) onForm(s curve.Section) bool {
	return s.Plies > 1 || len(s.Plan.Kerfs) > 0 && b.Bend.Form != spec.Form{}
}

// addForms draws the ribs of the bending forms.
func (b *builder) addForms() {
	if b.onForm(b.front) {
		b.addForm("form-rib-front", "", b.front, spec.MethodField(b.Sweep, "sweep"), b.frontWidth())
	}
	left, at := b.SweepOfLeft()
	if b.alike() { // a form serves both
		if b.onForm(b.right.Section) {
			b.addForm("form-rib-sides", part.Right, b.right.Section, spec.MethodField(b.SideSweep, at), b.Depth)
		}
		return
	}
	for _, f := range []struct {
		hand  part.Hand
		field string
		flare
	}{{part.Left, spec.MethodField(left, at), b.left}, {part.Right, spec.MethodField(b.SideSweep, "side_sweep"), b.right}} {
		if b.onForm(f.Section) {
			b.addForm("form-rib-"+string(f.hand), f.hand, f.Section, f.field, b.Depth)
		}
	}
}

// addForm draws the ribs of one form. The back of the panel lies on their
// edge, which is hollow where the show face is concave and proud where it is
// convex.
func (b *builder) addForm(name string, hand part.Hand, s curve.Section, field string, wide float64) {
	if s.Plies > 1 {
		wide += 2 * b.Bend.Trim
	}
	count, ok := b.formCount(wide)
	if !ok {
		b.faults.Add("bend.form.spacing", b.Bend.Form.Spacing, "mm", fmt.Sprintf("at least %s, for no more than %d ribs", b.faults.In.Up(wide/(maxForms-1)), maxForms), spec.ErrPlace)
		return
	}
	p, ok := b.formPlate(name, s)
	if !ok {
		if s.Plies > 1 {
			b.faults.Add(field, spec.Laminate, "", "kerf, as the form of so deep a curve would overhang", spec.ErrBend)
		} else {
			b.faults.Add("bend.form", "asked for", "", "none, as the form of so deep a curve would overhang", spec.ErrBend)
		}
		return
	}
	part, ok := p.Finish()
	if !ok {
		b.faults.Add("bend.form.depth", b.Bend.Form.Depth, "mm", "a rib that can be cut", spec.ErrPlace)
		return
	}
	part.Qty, part.Hand, part.Panel = count, hand, b.frontName()
	if hand != "" {
		part.Panel = "sweep-" + string(hand)
	}
	part.Notes = append([]string{fmt.Sprintf("%d of them, every %s across the panel", count,
		b.faults.In.Length((wide-b.t)/float64(count-1)))}, part.Notes...)
	b.parts = append(b.parts, part)
}

// formCount returns how many ribs a form of a width needs.
func (b *builder) formCount(wide float64) (int, bool) {
	spacing := b.Bend.Form.Spacing
	if spacing == 0 {
		spacing = b.Ribs.Spacing
	}
	if spacing == 0 {
		return 2, true
	}
	n := math.Max(2, math.Ceil(wide/spacing)+1)
	return int(math.Min(n, maxForms)), n <= maxForms
}

// sprung returns the face of the form: the back of the panel before it springs
// back. In springing back a pack of n plies loses 1/n² of its curvature, and
// its middle keeps its length. A kerfed panel gets the curve it is to have: the
// fill of its kerfs holds it.
func sprung(s curve.Section, t, over, beyond float64) (arc.Path, float64, bool) {
	more := 1.0 // bent than the panel
	if n := float64(s.Plies); n > 1 {
		more = n * n / (n*n - 1)
	}
	in, _ := rise.EndNormals(s.Sweep.Segment(0))
	heading := math.Atan2(-in.X, in.Y)
	at := r2.Add(s.Sweep.V[0].P, r2.Scale(t/2, in))
	middle := arc.Path{V: []arc.Vertex{{P: at}}}
	run := func(length, turn float64) {
		if length <= 0 {
			return
		}
		middle.V[len(middle.V)-1].K = math.Tan(turn / 4)
		chord, mid := length, heading+turn/2
		if turn != 0 {
			chord = length * math.Sin(turn/2) / (turn / 2)
		}
		at = r2.Add(at, r2.Vec{X: chord * math.Cos(mid), Y: chord * math.Sin(mid)})
		heading += turn
		middle.V = append(middle.V, arc.Vertex{P: at})
	}
	run(over, 0)
	for i := range s.Sweep.NumSegments() {
		seg := s.Sweep.Segment(i)
		run(seg.Length()*curve.Stretched(seg, t/2), float64(seg.Angle())*more)
	}
	run(beyond, 0)
	face, ok := rise.Parallel(middle, t/2)
	return face, over + s.Along(s.Curve.ShowLength/2, t/2), ok
}

// mostFace is how far the face of a form may lean off its chord: beyond, clamps
// that press square to the chord hold the plies by less than a sixth of their
// force, cos 80° being 0.17.
const mostFace = 80 * arc.Degree

// formPlate draws a rib of a form with its ends square to the chord of its
// edge, which runs along the lower side.
func (b *builder) formPlate(name string, s curve.Section) (plate.Plate, bool) {
	p := b.board(KindForm, "", name)
	over, beyond := b.overhang(s)
	face, middle, ok := sprung(s, b.t, over, beyond)
	if !ok {
		return p, false
	}
	a, e := face.V[0].P, face.V[len(face.V)-1].P
	chord := r2.Unit(r2.Sub(e, a))
	face = face.Transform(arc.Shift(r2.Scale(-1, a))).Transform(arc.Rotate(arc.Angle(-math.Atan2(chord.Y, chord.X))))
	for i := range face.NumSegments() { // no part of it may run back
		seg := face.Segment(i)
		mid, half := math.Atan2(seg.B.Y-seg.A.Y, seg.B.X-seg.A.X), math.Abs(float64(seg.Angle()))/2
		if math.Abs(mid)+half > float64(mostFace) {
			return p, false
		}
	}
	depth := b.Bend.Form.Depth
	if depth == 0 {
		depth = 4 * b.t
	}
	top := face.Bounds().Max.Y + depth
	first, last := face.V[0].P, face.V[len(face.V)-1].P
	p.Sides = []plate.Side{
		{Name: "face", Path: face},
		{Name: "right", Path: arc.Polyline(last, r2.Vec{X: last.X, Y: top})},
		{Name: "base", Path: arc.Polyline(r2.Vec{X: last.X, Y: top}, r2.Vec{X: first.X, Y: top})},
		{Name: "left", Path: arc.Polyline(r2.Vec{X: first.X, Y: top}, first)},
	}
	p.Marks = []part.Mark{{Name: lineUp, Path: tick(face, middle, b.t/2, depth/2)}}
	p.Notes = []string{
		"rib of the bending form, not of the hood; stand them square across, and clamp the kerfed panel to their faces with its back, over a block along either end, until what fills its kerfs is hard",
	}
	if s.Plies > 1 {
		p.Notes = formOfPlies(s.Plies)
	}
	return p, true
}

// formOfPlies says how the rib of a form of so many plies is used.
func formOfPlies(n int) []string {
	return []string{
		fmt.Sprintf("rib of the bending form, not of the hood; stand them square across, under a skin that bends, and set the back of the last of %d plies on the face", n),
		"the face is bent more than the panel by " + say.Percent(1/float64(n*n-1), 2) + ", for springback; try one panel before the rest",
	}
}

// overhang returns how far the panel runs straight beyond the ends of the curve.
func (b *builder) overhang(s curve.Section) (low, high float64) {
	most := func(top bool) float64 {
		back, _ := s.CutBack(top, b.t)
		if s.Plies > 1 {
			return math.Max(0, -back) + b.Bend.Trim
		}
		return math.Max(0, -back)
	}
	return most(false), most(true)
}

// tick is a line into a rib from where on its face the middle of the pack lies,
// whose length is given on the middle, half a thickness off.
func tick(face arc.Path, at, half, long float64) arc.Path {
	for i := range face.NumSegments() {
		seg := face.Segment(i)
		l := seg.Length() // of the face; that of the middle is that of a parallel
		f := curve.Stretched(seg, -half)
		if at <= l*f || i == face.NumSegments()-1 {
			q, t := seg.At(math.Min(at/f, l))
			return arc.Polyline(q, r2.Add(q, r2.Scale(long, r2.Vec{X: -t.Y, Y: t.X})))
		}
		at -= l * f
	}
	return arc.Path{}
}
