package part

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// A Solid is a closed mesh of one part in its place, in mm. The corners of its
// triangles run counter-clockwise as one sees them from outside.
type Solid struct {
	Name      string
	Vertices  []r3.Vec
	Triangles [][3]int
}

// Solid meshes the part as it stands, kerfs and rabbets cut, plies trimmed. Arcs
// are chords within 0.05 mm.
func (p Folded) Solid() Solid {
	if p.Cells {
		return p.gridSolid()
	}
	return p.prismSolid()
}

// Volume returns the volume inside the mesh in mm³.
func (s Solid) Volume() float64 {
	sum := 0.0
	for _, t := range s.Triangles {
		a, b, c := s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]]
		sum += r3.Dot(a, r3.Cross(b, c))
	}
	return sum / 6
}

// Centroid returns the center of the volume inside the mesh.
func (s Solid) Centroid() r3.Vec {
	var sum r3.Vec
	volume := 0.0
	for _, t := range s.Triangles {
		a, b, c := s.Vertices[t[0]], s.Vertices[t[1]], s.Vertices[t[2]]
		v := r3.Dot(a, r3.Cross(b, c))
		volume += v
		sum = r3.Add(sum, r3.Scale(v/4, r3.Add(a, r3.Add(b, c))))
	}
	return r3.Scale(1/volume, sum)
}
