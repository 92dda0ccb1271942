package spec

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Loop returns the outline of the opening as seen from the wall, with the middle
// of the hood at x = 0.
func (o Opening) Loop() arc.Path {
	if o.Shape == "circle" {
		return arc.Circle(r2.Vec{X: -o.X, Y: o.Y}, o.Diameter/2)
	}
	return arc.Rect(-o.X-o.Width/2, o.Y-o.Height/2, o.Width/2-o.X, o.Y+o.Height/2)
}

// Touches reports whether two openings overlap.
func (o Opening) Touches(p Opening) bool {
	d := r2.Vec{X: math.Abs(o.X - p.X), Y: math.Abs(o.Y - p.Y)}
	switch {
	case o.Shape == "circle" && p.Shape == "circle":
		return math.Hypot(d.X, d.Y) <= (o.Diameter+p.Diameter)/2
	case o.Shape == "circle":
		return p.Touches(o)
	case p.Shape == "circle":
		dx, dy := math.Max(0, d.X-o.Width/2), math.Max(0, d.Y-o.Height/2)
		return math.Hypot(dx, dy) <= p.Diameter/2
	}
	return d.X <= (o.Width+p.Width)/2 && d.Y <= (o.Height+p.Height)/2
}
