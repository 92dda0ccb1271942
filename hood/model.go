package hood

import (
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r3"
	"slices"

	"example.com/sagitta/hood/part"
)

// Model returns a closed mesh of every part of the hood, in the sequence of
// Parts, bent and in its place, kerfs and rabbets cut, plies trimmed. Arcs are
// chords within 0.05 mm. The parts are those that were built, whatever has been
// done to Parts since; the meshes are the caller's own.
func (d Design) Model() ([]Solid, error) {
	solids := d.solids()
	out := make([]Solid, len(solids))
	for i, s := range solids {
		out[i] = Solid{Name: s.Name, Vertices: slices.Clone(s.Vertices), Triangles: slices.Clone(s.Triangles)}
	}
	return out, nil
}

// solids returns the meshes of the parts; of a design that was not built there
// are none. They are not to be changed.
func (d Design) solids() []Solid {
	if d.made == nil {
		return nil
	}
	d.made.model.Do(func() { d.made.solids = meshes(d.made.folded) })
	return d.made.solids
}

// meshes returns the meshes of all parts that are of the hood.
func meshes(parts []part.Folded) []Solid {
	out := make([]Solid, 0, len(parts))
	for _, f := range parts {
		if f.Kind != KindForm {
			s := f.Solid()
			for i, v := range s.Vertices {
				s.Vertices[i] = r3.Vec{X: num.Decimals(v.X, 6), Y: num.Decimals(v.Y, 6), Z: num.Decimals(v.Z, 6)}
			}
			out = append(out, s)
		}
	}
	return out
}
