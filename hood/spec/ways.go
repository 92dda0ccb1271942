package spec

import "example.com/sagitta/bend"

// Ways compares how the sweep of the front could be brought onto its curve:
// kerfed, laminated or bent as it is, in the board of the spec, whichever of
// them its bend.method asks for. Where the spec sets no strain, four fifths of
// the material's own limit are taken if it is known by name.
func (spec Spec) Ways() ([]bend.Way, error) {
	s := spec.Sizes()
	if err := s.Validate(); err != nil {
		return nil, err
	}
	sketch, err := s.FrontEnds().Sketch(s.Sweep)
	if err != nil {
		return nil, err
	}
	j := bend.Job{
		Profile: sketch.Sweep, Width: s.Width,
		Board:  bend.Board{Thickness: s.Board.Thickness, KerfWidth: s.Bend.KerfWidth, Web: s.Bend.Web},
		Limits: bend.Limits{Facet: s.Bend.Facet, Strain: s.Bend.Strain, Turn: s.Bend.Turn}, Factor: safety,
	}
	if m, err := bend.LookUp(s.Board.Material); err == nil {
		j.Material = m
	}
	return bend.Ways(j)
}
