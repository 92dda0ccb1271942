package readback

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// Part returns a region with a bit of everything: lines, minor, major and very
// flat arcs turning both ways, a round hole and a slot.
func Part() arc.Region {
	return arc.Region{
		Outer: arc.Path{Closed: true, V: []arc.Vertex{
			arc.V(-120.25, 10, 0), arc.V(300, 10, 1e-4), arc.V(310, 200, -0.3), arc.V(150, 260, 1.7), arc.V(90, 250, 0.5), arc.V(-100, 180, 1e-9),
		}},
		Holes: []arc.Path{
			arc.Circle(r2.Vec{X: 100, Y: 100}, 40).Reverse(),
			{Closed: true, V: []arc.Vertex{arc.V(200, 80, 0), arc.V(200, 120, -1), arc.V(212.5, 120, 0), arc.V(212.5, 80, -1)}},
		},
	}
}
