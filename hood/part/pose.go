package part

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Pose is where a part stands. A point at x, y of the part and a
// depth d from its show face is at At + x·Right + y·Up + d·In; a part with
// kerfs starts so at its lower edge and bends from there. Right, Up and In are
// unit vectors, square to each other, and Right × Up is In.
type Pose struct {
	At, Right, Up, In r3.Vec
}

// Point returns where the point of an unbent part is in space.
func (p Pose) Point(at r2.Vec, depth float64) r3.Vec {
	v := r3.Add(p.At, r3.Scale(at.X, p.Right))
	return r3.Add(r3.Add(v, r3.Scale(at.Y, p.Up)), r3.Scale(depth, p.In))
}

// Local returns where a point in space lies in an unbent part.
func (p Pose) Local(v r3.Vec) (at r2.Vec, depth float64) {
	d := r3.Sub(v, p.At)
	return r2.Vec{X: r3.Dot(d, p.Right), Y: r3.Dot(d, p.Up)}, r3.Dot(d, p.In)
}
