package hood

import (
	"errors"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

var errSoon = errors.New("a shape that is drawn from arcs")

func quarterEllipse(from, to r2.Vec) (arc.Path, error) { return arc.Path{}, errSoon }

func throughPoints(from r2.Vec, pts [][2]float64, to r2.Vec) (arc.Path, error) {
	return arc.Path{}, errSoon
}
