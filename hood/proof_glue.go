package hood

import "example.com/sagitta/hood/internal/rise"

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// glueLine measures two neighboring plies that meet at a depth: how far their
// faces are apart, and how far from flush their trimmed sides are.
func (p *proof) glueLine(a, b placed, depth float64) {
	first := p.b.inRabbet(depth) && !p.b.inRabbet(depth-b.Thickness) // of those in the rabbet for the back
	face, ok := rise.Parallel(b.Neutral, -b.Web/2)
	if !ok {
		p.add(a.Name+" to "+b.Name, math.Inf(1), rounding, "mm")
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
	p.add(a.Name+" to "+b.Name, gap, exact, "mm")
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
	p.add(a.Name+" to "+b.Name+": trimmed edges off flush", off, exact, "mm")
}

// step reports whether the later of two plies stops short of the other along an
// upright edge in a straight line, as it does in the rabbet for the back.
func step(a placed, e Edge, b placed, f Edge) bool {
	if e.Name == "bottom" || e.Name == "top" || e.Bevel != 0 || f.Bevel != 0 {
		return false
	}
	in := func(p placed, q r2.Vec) float64 { return r3.Dot(p.Point(q, 0), a.Pose.Right) }
	low := in(b, f.Show.V[0].P) - in(a, e.Back.V[0].P)
	high := in(b, f.Show.V[1].P) - in(a, e.Back.V[1].P)
	return math.Abs(low-high) < rounding && math.Abs(low) > rounding
}

// aboveFold returns the edge of a panel at a depth in space. That of a rolled
// one begins where the panel has left the skirt: what its bevel takes there
// belongs to the joint with the skirt, which is measured for itself.
func (s section) aboveFold(p placed, edge arc.Path, on, depth float64) []r3.Vec {
	chain := p.curve(edge, on)
	if s.plies == 0 || s.skirt == 0 || !s.fold(s.ends(), depth) {
		return chain
	}
	fold := s.inner.V[1].P.Y
	for len(chain) > 2 && chain[1].Y < fold {
		chain = chain[1:]
	}
	if chain[0].Y < fold && chain[1].Y > chain[0].Y {
		f := (fold - chain[0].Y) / (chain[1].Y - chain[0].Y)
		chain[0] = r3.Add(chain[0], r3.Scale(f, r3.Sub(chain[1], chain[0])))
	}
	return chain
}

// seamInside measures the seam of two panels of equally many plies where they
// are glued, between their faces.
func (p *proof) seamInside(front, side []placed, onFront, onSide string, f flare) {
	if len(front) < 2 || len(front) != len(side) {
		return
	}
	gap := 0.0
	for i := 1; i < len(front); i++ {
		a, _ := front[i].Edge(onFront)
		b, _ := side[i].Edge(onSide)
		depth := p.b.t * float64(i) / float64(len(front))
		gap = math.Max(gap, apart(p.b.front.aboveFold(front[i], a.Show, 0, depth), f.aboveFold(side[i], b.Show, 0, depth)))
	}
	p.add(front[0].Panel+" to "+side[0].Panel+": between their plies", gap, p.b.joint(), "mm")
	p.checks[len(p.checks)-1].Param = "joint"
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

// recessedPlies returns the ply that has the floor of the rabbet for the back,
// and where the rabbet is on it: a groove in the ply, or where the next one
// stops short. The next one's edge then is the shoulder.
func recessedPlies(plies []placed, back placed) (placed, recessed) {
	for i, ply := range plies {
		if left, right := ply.Rabbets(); left+right > 0 {
			return ply, ply.recessed(back)
		}
		if i == 0 {
			continue
		}
		rear, before := ply.rearAt(), plies[i-1].rearAt()
		if math.Abs(r3.Dot(r3.Sub(rear, before), ply.Pose.Right)) > rounding {
			in := r3.Dot(r3.Sub(rear, plies[i-1].Pose.At), ply.Pose.Right)
			return plies[i-1], recessed{plies[i-1].Thickness, in}
		}
	}
	last := plies[len(plies)-1]
	return last, last.recessed(back)
}

// shoulder returns how far the plies that stop at the back's rabbet are off its
// front face.
func (p *proof) shoulder(plies []placed, back placed) float64 {
	off := 0.0
	for i, ply := range plies {
		if len(plies) > 1 && p.b.inRabbet(p.b.t*float64(i)/float64(len(plies))) {
			_, depth := back.Pose.Local(ply.rearAt())
			off = math.Max(off, math.Abs(depth))
		}
	}
	return off
}

// rearAt returns a point of the edge of a side's ply that is nearest to the wall.
func (p placed) rearAt() r3.Vec {
	a := p.Point(p.Edges[1].Show.V[0].P, 0)
	b := p.Point(p.Edges[3].Show.V[0].P, 0)
	if a.Z < b.Z {
		return a
	}
	return b
}
