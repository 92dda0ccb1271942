package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Seam claims that the edges of two bent panels meet, on their show faces, on
// their backs and, of as many plies, at every glue line between; and those of
// the skirts they stand on.
type Seam struct {
	Front, Side           string // the panels
	FrontSkirt, SideSkirt string // the skirts; empty where there are none
	OnFront, OnSide       string // the edges
	Limit                 float64
	Param                 string // what sets the limit

	// The heights at which the panels leave their skirts, at each glue line from
	// the show face to the back: what the bevel of a rolled panel takes below
	// belongs to its joint with the skirt. None where nothing is left out.
	FrontFolds, SideFolds []float64
}

// measure measures how far the edges of both bent panels are apart in space, on
// the show faces and on the backs.
func (c Seam) measure(p *prover) {
	sweep, side := p.parts[c.Front], p.parts[c.Side]
	a, _ := sweep.Edge(c.OnFront)
	b, _ := side.Edge(c.OnSide)
	sweepBack, sideBack := p.back(c.Front), p.back(c.Side)
	d, _ := sweepBack.Edge(c.OnFront)
	e, _ := sideBack.Edge(c.OnSide)
	gap := math.Max(
		apart(sweep.curve(a.Show, 0), side.curve(b.Show, 0)),
		apart(
			aboveFold(sweepBack, d.Back, sweepBack.Thickness, last(c.FrontFolds)),
			aboveFold(sideBack, e.Back, sideBack.Thickness, last(c.SideFolds))))
	p.addFor(c.Param, sweep.Name+" to "+side.Name, gap, c.Limit, "mm")
	c.between(p, p.plies(c.Front), p.plies(c.Side))
	one, ok := p.parts[c.FrontSkirt]
	if !ok {
		return
	}
	two := p.parts[c.SideSkirt]
	a, _ = one.Edge(c.OnFront)
	b, _ = two.Edge(c.OnSide)
	p.add(one.Name+" to "+two.Name, apart(one.curve(a.Show, 0), two.curve(b.Show, 0)), Rounding, "mm")
}

// between measures the seam of two panels of equally many plies where they are
// glued, between their faces.
func (c Seam) between(p *prover, front, side []placed) {
	if len(front) < 2 || len(front) != len(side) {
		return
	}
	gap := 0.0
	for i := 1; i < len(front); i++ {
		a, _ := front[i].Edge(c.OnFront)
		b, _ := side[i].Edge(c.OnSide)
		gap = math.Max(gap, apart(
			aboveFold(front[i], a.Show, 0, at(c.FrontFolds, i)),
			aboveFold(side[i], b.Show, 0, at(c.SideFolds, i))))
	}
	p.addFor(c.Param, front[0].Panel+" to "+side[0].Panel+": between their plies", gap, c.Limit, "mm")
}

// at returns one of a list of heights, below everything where it is not there.
func at(heights []float64, i int) float64 {
	if i < 0 || i >= len(heights) {
		return math.Inf(-1)
	}
	return heights[i]
}

func last(heights []float64) float64 { return at(heights, len(heights)-1) }

// aboveFold returns the edge of a panel at a depth in space, from a height up.
func aboveFold(p placed, edge arc.Path, on, fold float64) []r3.Vec {
	chain := p.curve(edge, on)
	for len(chain) > 2 && chain[1].Y < fold {
		chain = chain[1:]
	}
	if chain[0].Y < fold && chain[1].Y > chain[0].Y {
		f := (fold - chain[0].Y) / (chain[1].Y - chain[0].Y)
		chain[0] = r3.Add(chain[0], r3.Scale(f, r3.Sub(chain[1], chain[0])))
	}
	return chain
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
