package hood

import "example.com/sagitta/hood/internal/rise"

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// premium is the largest gap of shaped wood to wood in premium grade, mm:
// Architectural Woodwork Standards, 1st ed. 2009, section 6, 4.4.1.8.
const premium = 0.65

// joint returns the limit of a seam of bent panels.
func (s Spec) joint() float64 {
	if s.Joint == 0 {
		return premium
	}
	return s.Joint
}

// seam measures the joint of the front and a flared side: how far the edges of
// both bent panels are apart in space, on the show faces and on the backs.
func (p *proof) seam(front, skirt, hand string, f flare) {
	sweep, side := p.parts[front], p.parts["sweep-"+hand]
	a, _ := sweep.Edge(map[string]string{"left": "right", "right": "left"}[hand])
	b, _ := side.Edge(map[string]string{"left": "left", "right": "right"}[hand])
	limit := p.b.joint()
	if !sweep.Curved && !side.Curved {
		limit = 2 * rounding
	}
	sweepBack, sideBack := p.back(front), p.back("sweep-"+hand)
	c, _ := sweepBack.Edge(a.Name)
	d, _ := sideBack.Edge(b.Name)
	gap := math.Max(
		apart(sweep.curve(a.Show, 0), side.curve(b.Show, 0)),
		apart(
			p.b.front.aboveFold(sweepBack, c.Back, sweepBack.Thickness, p.b.t),
			f.aboveFold(sideBack, d.Back, sideBack.Thickness, p.b.t)))
	p.add(sweep.Name+" to "+side.Name, gap, limit, "mm")
	if sweep.Curved || side.Curved {
		p.checks[len(p.checks)-1].Param = "joint"
	}
	p.seamInside(p.plies(front), p.plies("sweep-"+hand), a.Name, b.Name, f)
	one, ok := p.parts[skirt]
	if !ok {
		return
	}
	two := p.parts["skirt-"+hand]
	a, _ = one.Edge(a.Name)
	b, _ = two.Edge(b.Name)
	p.add(one.Name+" to "+two.Name, apart(one.curve(a.Show, 0), two.curve(b.Show, 0)), rounding, "mm")
}

// edgeStep is how far apart the points of an edge in space are, mm.
const edgeStep = 6

// curve returns the points of an edge in space, upward.
func (p placed) curve(edge arc.Path, depth float64) []r3.Vec {
	if edge.V[0].P.Y > edge.V[len(edge.V)-1].P.Y {
		edge = edge.Reverse()
	}
	var out []r3.Vec
	next := 0
	for i := range edge.NumSegments() {
		s := edge.Segment(i)
		n := 1
		if p.Curved || s.K != 0 {
			n = 1 + int(s.Length()/edgeStep)
		}
		for j := range n {
			q, _ := s.At(s.Length() * float64(j) / float64(n))
			for p.Curved && next < len(p.Breaks) && p.Breaks[next] < q.Y {
				if y := p.Breaks[next]; y > edge.V[0].P.Y {
					out = append(out, p.Point(r2.Vec{X: rise.OutAt(edge, y), Y: y}, depth))
				}
				next++
			}
			out = append(out, p.Point(q, depth))
		}
	}
	return append(out, p.Point(edge.V[len(edge.V)-1].P, depth))
}

// apart returns the largest distance of the points of one rising chain from
// the other, over the heights they share.
func apart(a, b []r3.Vec) float64 {
	gap, j := 0.0, 0
	for _, v := range a {
		if v.Y < b[0].Y || v.Y > b[len(b)-1].Y {
			continue
		}
		for j+2 < len(b) && b[j+1].Y < v.Y {
			j++
		}
		near := math.Inf(1)
		for k := max(0, j-2); k < min(len(b)-1, j+3); k++ {
			near = math.Min(near, toChord(v, b[k], b[k+1]))
		}
		gap = math.Max(gap, near)
	}
	return gap
}

// toChord returns the distance of a point from a stretch of line.
func toChord(v, a, b r3.Vec) float64 {
	d := r3.Sub(b, a)
	f := 0.0
	if l := r3.Norm2(d); l > 0 {
		f = max(0, min(r3.Dot(r3.Sub(v, a), d)/l, 1))
	}
	return r3.Norm(r3.Sub(v, r3.Add(a, r3.Scale(f, d))))
}
