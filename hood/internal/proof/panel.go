package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Panel claims that a panel, kerfed, of plies or bent in one sheet, follows its
// curve, and where it stands on a skirt, that their bevels close.
type Panel struct {
	Name      string
	Skirt     string   // it stands on; empty where on none
	Curve     arc.Path // of its show face, x toward Out, y up
	Out       r3.Vec
	Off       float64 // largest distance from the curve, mm
	OnSkirt   float64 // largest gap of the bevels where panel and skirt meet, mm
	Hidden    float64 // largest gap between the bevels behind the show face, where kerfs bend one of them, mm
	Mouth     float64 // left of a kerf that closes most, mm; below 0 its sides overlap
	Use       float64 // of plies or one sheet: share of what the material stands
	Thickness float64 // of plies, glued up, mm
	Step      float64 // depth from which plies stop short along the rear edge; 0 where none does, mm
}

// measure sets a panel on its skirt by their bevels alone, and measures their
// joint, the other end, and how far the bent panel leaves its curve.
func (c Panel) measure(p *prover) {
	if plies := p.plies(c.Name); len(plies) > 0 {
		c.rolled(p, plies)
		return
	}
	sweep := p.parts[c.Name]
	if skirt, ok := p.parts[c.Skirt]; ok {
		sweep = setOn(skirt, sweep)
		p.parts[c.Name] = sweep
		c.skirtJoint(p, skirt, sweep)
	}
	x := sweep.Outline.Outer.V[0].P.X
	flat := func(y float64) r2.Vec {
		v := sweep.Point(r2.Vec{X: x, Y: y}, 0)
		return r2.Vec{X: r3.Dot(v, c.Out), Y: v.Y}
	}
	end := flat(sweep.Breaks[len(sweep.Breaks)-1])
	p.add(c.Name+": upper edge off the neck", r2.Norm(r2.Sub(end, c.top())), Exact, "mm")
	if !sweep.Curved {
		return
	}
	off := 0.0
	for _, y := range sweep.Breaks {
		off = math.Max(off, c.Curve.Distance(flat(y)))
	}
	p.add(c.Name+": off the true curve", off, c.Off, "mm")
	if m := c.Mouth; m < 0 {
		p.add(c.Name+": kerfs overlap when closed", -m, Rounding, "mm")
	}
}

// top returns the upper end of the curve.
func (c Panel) top() r2.Vec { return c.Curve.V[len(c.Curve.V)-1].P }

// setOn returns the sweep with its lower show edge on the upper one of the
// skirt, turned back by the two bevels.
func setOn(skirt, sweep placed) placed {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	turn := float64(a.Bevel + b.Bevel)
	x := a.Show.V[0].P.X - b.Show.V[len(b.Show.V)-1].P.X
	sin, cos := math.Sincos(turn)
	up, in := skirt.Pose.Up, skirt.Pose.In
	sweep.Pose = part.Pose{
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
func (c Panel) skirtJoint(p *prover, skirt, sweep placed) {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	f := 1.0
	if reach := math.Abs(b.Back.V[0].P.Y); reach > sweep.Breaks[1] {
		f = sweep.Breaks[1] / reach
	}
	between := func(e part.Edge, i int) r2.Vec {
		return r2.Add(r2.Scale(1-f, e.Show.V[i].P), r2.Scale(f, e.Back.V[i].P))
	}
	gap := 0.0
	for i := range a.Back.V {
		one := skirt.Point(between(a, i), f*skirt.Thickness)
		two := sweep.Point(between(b, len(b.Back.V)-1-i), f*sweep.Thickness)
		gap = math.Max(gap, r3.Norm(r3.Sub(one, two)))
	}
	p.addFor("joint", skirt.Name+" to "+sweep.Name, gap, c.OnSkirt, "mm")
	c.behind(p, skirt, sweep)
}

// OpenBehind ends the name of the check of a hollow joint.
const OpenBehind = ": open behind the show face"

// behind measures the joint of two bevels where a steep one runs into kerfs, which
// bend it: how far the wood of the sweep stands off the skirt's bevel, and into
// it, between the show faces and the backs.
func (c Panel) behind(p *prover, skirt, sweep placed) {
	a, _ := skirt.Edge("top")
	b, _ := sweep.Edge("bottom")
	if !sweep.Curved || math.Abs(b.Back.V[0].P.Y) <= sweep.Breaks[1] {
		return
	}
	on := skirt.Point(a.Show.V[0].P, 0)
	down := r3.Sub(skirt.Point(a.Back.V[0].P, skirt.Thickness), on)
	off := r3.Unit(r3.Cross(skirt.Pose.Right, down)) // of the bevel, out of the skirt
	if r3.Dot(off, skirt.Pose.Up) < 0 {
		off = r3.Scale(-1, off)
	}
	open, into := 0.0, 0.0
	for i := range bevelSteps + 1 {
		f := float64(i) / bevelSteps
		at := r2.Add(r2.Scale(1-f, b.Show.V[0].P), r2.Scale(f, b.Back.V[len(b.Back.V)-1].P))
		if depth := f * sweep.Thickness; depth <= sweep.Web || !sweep.InSlot(at.Y) {
			d := r3.Dot(r3.Sub(sweep.Point(at, depth), on), off)
			open, into = math.Max(open, d), math.Max(into, -d)
		}
	}
	p.addFor("bend.method", skirt.Name+" to "+sweep.Name+OpenBehind, open, c.Hidden, "mm")
	p.addFor("joint", skirt.Name+" to "+sweep.Name+": wood in wood behind the show face", into, c.OnSkirt, "mm")
}

// bevelSteps is how many stretches a bevel is measured in.
const bevelSteps = 64
