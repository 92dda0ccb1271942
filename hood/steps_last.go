package hood

import (
	"strings"

	"example.com/sagitta/arc/say"
)

// banding names the edges that show.
func (s *stepper) banding() {
	var out []string
	for _, p := range s.d.Parts {
		for _, e := range p.Edges {
			if e.Band {
				out = append(out, e.Name+" of "+p.Panel)
			}
		}
	}
	if len(out) > 0 {
		s.say("Band, or seal and fill, the edges that show: %s.", strings.Join(out, ", "))
	}
}

// finishing puts on what comes last: the chimney, whose front comes off again,
// and the moldings.
func (s *stepper) finishing() {
	side, front := s.kind(KindChimneySide), s.kind(KindChimneyFront)
	if len(side) > 0 {
		s.set(side, "Set %s on the deck.", list(side))
		connect := ""
		if s.d.Spec.Duct.Diameter > 0 {
			connect = "Connect the duct. "
		}
		s.set(front, "%sScrew on %s last and do not glue it: it comes off to reach what is behind.", connect, list(front))
	}
	for _, t := range s.d.Trim {
		mitered := "mitered at both ends"
		if t.Miters == 1 {
			mitered = "mitered in front, square at the wall"
		}
		s.say("Cut %s, %s along the hood, %s: miter %s, bevel %s; put it on.", t.Name, s.in.Length(t.Length), mitered,
			say.Saw(absolute(t.End.Miter)), say.Saw(absolute(t.End.Bevel)))
	}
}
