package plate

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// fallsBack returns by how much an edge leaves square over a thickness.
func fallsBack(bevel arc.Angle, thickness float64) float64 {
	return math.Abs(math.Tan(float64(bevel))) * thickness
}

// setEdges names the stretches of both outlines of the part.
func (from Plate) setEdges(p *part.Part) {
	at := 0
	for i, s := range from.Sides {
		n := len(s.Path.V) - 1
		e := part.Edge{Name: s.Name, Show: s.Path.Clone(), Back: s.Back.Clone(), Bevel: s.Bevel, Saw: s.Bevel < 0 || s.Saw}
		if fallsBack(s.Bevel, from.Thickness) < curve.Flat {
			e.Saw = false
		}
		switch {
		case e.Saw && s.Saw:
			e.Why = "its bevel changes along it"
		case e.Saw:
			e.Why = "undercuts"
		}
		if !from.ruled() {
			e.Back = stretch(p.Back.Outer, at, n)
		}
		p.Edges = append(p.Edges, e)
		changes := s.Saw && from.ruled() && p.Ply == 0
		if s.Bevel > 0 && (!s.Saw || changes) && fallsBack(s.Bevel, from.Thickness) >= curve.Flat {
			b := cut.Bevel{Name: s.Name, Edge: from.bevelRun(p, i, at), Angle: s.Bevel}
			if changes {
				// The lines between its edges are level on the blank: see part.Part.Across.
				b.Back, b.Rule = s.Back.Clone(), r2.Vec{X: 1}
			}
			p.Work.Bevels = append(p.Work.Bevels, b)
		}
		at += n
	}
}

// bevelRun returns the way of a bevel on the blank. Where a neighbor undercuts
// the blank goes on past the show face, and so must the bevel.
func (from Plate) bevelRun(p *part.Part, i, at int) arc.Path {
	s := from.Sides[i]
	if !from.ruled() {
		return stretch(p.Blank.Outer, at, len(s.Path.V)-1)
	}
	right, left := from.ruledUprights()
	switch i {
	case 1:
		return right.Clone()
	case 3:
		return left.Clone()
	}
	return s.Path.Clone()
}

// stretch returns n segments of a closed path as an open one.
func stretch(p arc.Path, at, n int) arc.Path {
	out := arc.Path{V: append([]arc.Vertex{}, p.V[at:at+n]...)}
	out.V = append(out.V, arc.Vertex{P: p.V[(at+n)%len(p.V)].P})
	return out
}
