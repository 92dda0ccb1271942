package hood

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// Model returns a closed mesh of every part of the hood, in the sequence of
// Parts, bent and in its place, kerfs and rabbets cut, plies trimmed. Arcs are chords within 0.05 mm.
func (d Design) Model() ([]Solid, error) {
	out := make([]Solid, 0, len(d.Parts))
	for _, p := range d.Parts {
		if p.Kind == KindForm {
			continue
		}
		f, err := fold(p)
		if err != nil {
			return nil, err
		}
		if p.cells {
			out = append(out, f.gridSolid())
		} else {
			out = append(out, f.prismSolid())
		}
	}
	return out, nil
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
