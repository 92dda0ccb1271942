package hood

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// folded is what a fold between a flat and a curved board adds to a limit. The
// bevels are planes, and over their reach t·tan β the curve leaves its tangent
// by reach²/2R; where its offset meets the plane of the other board, that moves
// the corner by as much over sin 2β, which is up to t·reach/4R.
func (p *proof) folded(s section) float64 {
	radius := s.sweep.Segment(0).Radius() - p.b.t
	reach := p.b.t * math.Tan(math.Abs(float64(s.lower)))
	if p.b.Skirt == 0 || radius <= 0 {
		return 0
	}
	return reach * (reach + p.b.t/2) / radius
}

// spread is how much more than the clearance lies between two faces where they
// end or fold, square to them.
func (p *proof) spread(s section) float64 {
	low := math.Abs(float64(s.curve.Low))
	if p.b.Skirt > 0 { // a fold, not an end
		low /= 2
	}
	most := math.Max(low, math.Abs(float64(s.curve.High)))
	if s.plies > 0 { // it leans on between its show edge and where the bevel ends
		last := s.sweep.Segment(s.sweep.NumSegments() - 1)
		most += p.b.t * math.Tan(low) / math.Max(p.b.t, s.sweep.Segment(0).Radius()-p.b.t)
		most = math.Max(most, math.Abs(float64(s.curve.High))+p.b.t*math.Tan(math.Abs(float64(s.upper)))/math.Max(p.b.t, last.Radius()-p.b.t))
	}
	return p.b.Back.Clearance * (1/math.Cos(most) - 1)
}

// panel sets a sweep on its skirt by their bevels alone, and measures their
// joint, the other end, and how far the bent panel leaves its curve. Out is the
// direction outward in space.
func (p *proof) panel(name, skirtName string, s section, e ends, out r3.Vec) {
	if p.rolled(name, skirtName, s, e, out) {
		return
	}
	sweep := p.parts[name]
	if skirt, ok := p.parts[skirtName]; ok {
		sweep = p.setOn(skirt, sweep)
		p.parts[name] = sweep
		p.skirtJoint(skirt, sweep)
	}
	x := sweep.Outline.Outer.V[0].P.X
	flat := func(y float64) r2.Vec {
		v := sweep.Point(r2.Vec{X: x, Y: y}, 0)
		return r2.Vec{X: r3.Dot(v, out), Y: v.Y}
	}
	end := flat(sweep.Breaks[len(sweep.Breaks)-1])
	p.add(name+": upper edge off the neck", math.Hypot(end.X-e.top, end.Y-e.height), 10*rounding, "mm")
	if !sweep.Curved {
		return
	}
	off := 0.0
	for _, y := range sweep.Breaks {
		off = math.Max(off, s.sweep.Distance(flat(y)))
	}
	p.add(name+": off the true curve", off, p.facet(sweep), "mm")
	if m := s.curve.Kerfs.Mouth; m < 0 {
		p.add(name+": kerfs overlap when closed", -m, rounding, "mm")
	}
}

// setOn returns the sweep with its lower show edge on the upper one of the
// skirt, turned back by the two bevels.
func (p *proof) setOn(skirt, sweep placed) placed {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	turn := float64(a.Bevel + b.Bevel)
	x := a.Show.V[0].P.X - b.Show.V[len(b.Show.V)-1].P.X
	sin, cos := math.Sincos(turn)
	up, in := skirt.Pose.Up, skirt.Pose.In
	sweep.Pose = Pose{
		At:    skirt.Point(r2.Vec{X: x, Y: a.Show.V[0].P.Y}, 0),
		Right: skirt.Pose.Right,
		Up:    r3.Add(r3.Scale(cos, up), r3.Scale(sin, in)),
		In:    r3.Add(r3.Scale(cos, in), r3.Scale(-sin, up)),
	}
	return sweep
}

// skirtJoint measures the bevels of skirt and sweep, from the show faces as
// deep as the end of the sweep is flat: a steep bevel runs into the first kerf,
// and what lies deeper is filled with glue.
func (p *proof) skirtJoint(skirt, sweep placed) {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	f := 1.0
	if reach := math.Abs(b.Back.V[0].P.Y); reach > sweep.Breaks[1] {
		f = sweep.Breaks[1] / reach
	}
	between := func(e Edge, i int) r2.Vec { return r2.Add(r2.Scale(1-f, e.Show.V[i].P), r2.Scale(f, e.Back.V[i].P)) }
	gap := 0.0
	for i := range a.Back.V {
		one := skirt.Point(between(a, i), f*skirt.Thickness)
		two := sweep.Point(between(b, len(b.Back.V)-1-i), f*sweep.Thickness)
		gap = math.Max(gap, r3.Norm(r3.Sub(one, two)))
	}
	p.add(skirt.Name+" to "+sweep.Name, gap, (p.facet(sweep)+p.foldedMost())*(1+p.steepest()), "mm")
}

// foldedMost returns the largest of folded over the flared panels.
func (p *proof) foldedMost() float64 {
	if p.b.plumb() {
		return 0
	}
	most := p.folded(p.b.front)
	for _, f := range []flare{p.b.left, p.b.right} {
		if f.flared() {
			most = max(most, p.folded(f.section))
		}
	}
	return most
}

// steepest returns how far the end of a seam moves along a panel where its
// neighbor is off by one across: the tangent of the largest lean at the skirt,
// held to that of 80 degrees.
func (p *proof) steepest() float64 {
	most := arc.Angle(0)
	for _, s := range []section{p.b.left.section, p.b.right.section, p.b.front} {
		if !p.b.plumb() {
			most = max(most, s.curve.Low, -s.curve.Low)
		}
	}
	return math.Tan(float64(min(most, 80*arc.Degree)))
}
