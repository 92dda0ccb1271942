package curve

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// fitTol is how far the arcs of a fitted curve may leave it, mm: well below
// what any saw or router keeps.
const fitTol = 0.01

// quarterEllipse returns a quarter of an ellipse that is hollow, level at its
// lower end and plumb at its upper.
func quarterEllipse(from, to r2.Vec) (arc.Path, error) {
	// About the point above the lower end at the height of the upper one: from
	// straight below it round to straight inward of it.
	p, err := arc.EllipticalArc(from.X-to.X, to.Y-from.Y, 180*arc.Degree, 270*arc.Degree, fitTol)
	if err != nil {
		return arc.Path{}, err
	}
	return exactEnds(p.Transform(arc.Shift(r2.Vec{X: from.X, Y: to.Y})).Reverse(), from, to), nil
}

// throughPoints returns a smooth curve of arcs through the points.
func throughPoints(from r2.Vec, points [][2]float64, to r2.Vec) (arc.Path, error) {
	all := []r2.Vec{from}
	for _, p := range points {
		all = append(all, r2.Vec{X: p[0], Y: p[1]})
	}
	p, err := arc.SmoothThrough(append(all, to), false)
	if err != nil {
		return arc.Path{}, err
	}
	return exactEnds(p, from, to), nil
}

// exactEnds puts the ends of a path where they are asked, which moves them by
// rounding only.
func exactEnds(p arc.Path, from, to r2.Vec) arc.Path {
	if n := len(p.V); n > 1 && math.Hypot(p.V[0].P.X-from.X, p.V[n-1].P.Y-to.Y) < 1e-6 {
		p.V[0].P, p.V[n-1].P = from, to
	}
	return p
}
