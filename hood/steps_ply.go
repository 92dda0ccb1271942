package hood

import (
	"strings"

	"example.com/sagitta/arc/say"
)

// laminating says how panels of plies are glued up.
func (s *stepper) laminating() {
	done := map[string]bool{}
	for _, p := range s.d.Parts {
		if p.Ply > 0 && !done[p.Panel] {
			done[p.Panel] = true
			s.panelOfPlies(p)
		}
	}
}

// panelOfPlies says how one panel is laminated.
func (s *stepper) panelOfPlies(first Part) {
	name := first.Panel
	plies := s.pick(func(p Part) bool { return p.Ply > 0 && p.Panel == name })
	n := len(plies)
	c := s.curveOf(first)
	if p, ok := s.form(first); ok {
		s.say("Set up the form of %s: %s, %s, their faces in line and square across, under a skin that bends. Its tightest radius inside the bend is %s: bent more than the panel, so that it springs back to its curve.",
			name, p.Name, p.Notes[0], s.in.Length(c.Plies.FormRadius))
	}
	s.say("Bend %s on the form without glue, the last against it and the show face out, line on line at the mark in their middle; add clamps or press until no joint stays open.", strings.Join(partNames(plies), ", "))
	s.say("Spread glue on both faces of each of the %d joints of %s, stack them by the mark, and clamp from the middle outward as long as the glue's maker says. Let go, and measure the sag: it springs back by theory as a pack of %d plies does, by 1/%d of its curvature; correct the form if it does not.",
		n-1, name, n, n*n)
	var cuts []string
	for _, e := range first.Edges {
		cuts = append(cuts, e.Name+" "+say.Saw(absolute(e.Bevel))+" off square")
	}
	s.say("Trim the glued %s to the lines on its faces: %s.", name, strings.Join(cuts, ", "))
}

// form returns the rib of the form of a panel. One form serves both sides where
// they are alike.
func (s *stepper) form(panel Part) (Part, bool) {
	for _, hand := range []Hand{panel.Hand, panel.Hand.Other()} {
		for _, p := range s.d.Parts {
			if p.Kind == KindForm && p.Hand == hand {
				return p, true
			}
		}
	}
	return Part{}, false
}

// curveOf returns the curve of a panel.
func (s *stepper) curveOf(p Part) Curve {
	switch p.Hand {
	case Left:
		return s.d.Left.Curve
	case Right:
		return s.d.Right.Curve
	}
	return s.d.Front
}
