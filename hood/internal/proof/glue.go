package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// glueLine measures two neighboring plies that meet at a depth: how far their
// faces are apart, and how far from flush their trimmed sides are.
func (c Panel) glueLine(p *prover, a, b placed, depth float64) {
	first := c.steps(depth) && !c.steps(depth-b.Thickness) // of those in the rabbet for the back
	face, ok := rise.Parallel(b.Neutral, -b.Web/2)
	if !ok {
		p.add(a.Name+" to "+b.Name, math.Inf(1), Rounding, "mm")
		return
	}
	low, high := a.Levels(a.Thickness)
	gap := 0.0
	for _, y := range a.Breaks {
		if y < low || y > high {
			continue
		}
		d := r3.Sub(a.Point(r2.Vec{Y: y}, a.Thickness), b.Pose.At)
		gap = math.Max(gap, face.Distance(r2.Vec{X: -r3.Dot(d, b.Pose.In), Y: r3.Dot(d, b.Pose.Up)}))
	}
	p.add(a.Name+" to "+b.Name, gap, Exact, "mm")
	off := 0.0
	for _, name := range []string{"bottom", "right", "top", "left"} {
		e, _ := a.Edge(name)
		f, _ := b.Edge(name)
		if first && step(a, e, b, f) {
			continue
		}
		for i, j := range [2]int{0, len(e.Back.V) - 1} {
			k := [2]int{0, len(f.Show.V) - 1}[i]
			d := r3.Sub(a.Point(e.Back.V[j].P, a.Thickness), b.Point(f.Show.V[k].P, 0))
			if name == "bottom" || name == "top" { // how far along the corner is, the upright edges tell
				d = r3.Sub(d, r3.Scale(r3.Dot(d, a.Pose.Right), a.Pose.Right))
			}
			off = math.Max(off, r3.Norm(d))
		}
	}
	p.add(a.Name+" to "+b.Name+": trimmed edges off flush", off, Exact, "mm")
}

// steps reports whether what lies deeper than a depth stops short along the rear
// edge.
func (c Panel) steps(depth float64) bool { return stepsAt(c.Step, depth) }

func stepsAt(step, depth float64) bool { return step > 0 && depth > step-Rounding }

// step reports whether the later of two plies stops short of the other along an
// upright edge in a straight line, as it does in the rabbet for the back.
func step(a placed, e part.Edge, b placed, f part.Edge) bool {
	if e.Name == "bottom" || e.Name == "top" || e.Bevel != 0 || f.Bevel != 0 {
		return false
	}
	in := func(p placed, q r2.Vec) float64 { return r3.Dot(p.Point(q, 0), a.Pose.Right) }
	low := in(b, f.Show.V[0].P) - in(a, e.Back.V[0].P)
	high := in(b, f.Show.V[1].P) - in(a, e.Back.V[1].P)
	return math.Abs(low-high) < Rounding && math.Abs(low) > Rounding
}

// short returns how far the edges of the trimmed panel lie outside what is cut
// of a ply.
func (p placed) short() float64 {
	most := 0.0
	for i := range p.Outline.Outer.NumSegments() { // which is convex
		cut := p.Outline.Outer.Segment(i)
		in, _ := rise.EndNormals(cut)
		for _, e := range p.Edges {
			for _, path := range []arc.Path{e.Show, e.Back} {
				for _, v := range path.V {
					most = math.Max(most, -r2.Dot(r2.Sub(v.P, cut.A), in))
				}
			}
		}
	}
	return most
}
