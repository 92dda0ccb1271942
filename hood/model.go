package hood

import "example.com/sagitta/hood/part"

// Model returns a closed mesh of every part of the hood, in the sequence of
// Parts, bent and in its place, kerfs and rabbets cut, plies trimmed. Arcs are chords within 0.05 mm.
func (d Design) Model() ([]Solid, error) {
	out := make([]Solid, 0, len(d.Parts))
	for _, p := range d.Parts {
		if p.Kind == KindForm {
			continue
		}
		f, err := part.Fold(p)
		if err != nil {
			return nil, err
		}
		out = append(out, f.Solid())
	}
	return out, nil
}
