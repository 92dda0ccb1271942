package plate

import (
	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Side is a stretch of a part's outline with one bevel.
type Side struct {
	Name  string
	Path  arc.Path // open; the next side begins where it ends
	Bevel arc.Angle
	Back  arc.Path // its edge on the back face, where that does not follow from the bevel
	Saw   bool     // the bevel changes along it, which takes a saw or a plane
}

// Rectangle returns the sides of a rectangle with one bevel each: bottom,
// right, top, left.
func Rectangle(x0, y0, x1, y1 float64, bevels [4]arc.Angle) []Side {
	c := [5]r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x0, Y: y0}}
	names := [4]string{"bottom", "right", "top", "left"}
	out := make([]Side, 4)
	for i := range out {
		out[i] = Side{Name: names[i], Path: arc.Polyline(c[i], c[i+1]), Bevel: bevels[i]}
	}
	return out
}
