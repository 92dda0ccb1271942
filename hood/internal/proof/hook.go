package proof

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Hook claims that the slopes of a cleat and of its mate on the wall lie on each
// other, and that the cleat lies on the back.
type Hook struct{ Cleat, Wall, Back string }

// measure measures the two slopes of cleat and mate against each other, and the
// cleat against back and wall.
func (c Hook) measure(p *prover) {
	cleat, wall := p.parts[c.Cleat], p.parts[c.Wall]
	a, _ := cleat.Edge("bottom")
	b, _ := wall.Edge("top")
	low := cleat.Point(a.Show.V[0].P, 0)
	high := cleat.Point(a.Back.V[0].P, cleat.Thickness)
	two := []r3.Vec{wall.Point(b.Show.V[0].P, 0), wall.Point(b.Back.V[0].P, wall.Thickness)}
	gap := 0.0
	for _, v := range []r3.Vec{low, high} {
		v.X, two[0].X, two[1].X = 0, 0, 0
		gap = math.Max(gap, toChord(v, two[0], two[1]))
	}
	p.add(c.Cleat+" to "+c.Wall, gap, Rounding, "mm")
	_, depth := p.parts[c.Back].Pose.Local(cleat.Point(r2.Vec{}, cleat.Thickness))
	p.add(c.Cleat+" to "+c.Back, math.Abs(depth-p.parts[c.Back].Thickness), Rounding, "mm")
}
