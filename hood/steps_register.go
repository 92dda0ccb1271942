package hood

import (
	"example.com/sagitta/hood/part"
)

// registration names what finds its place by tabs and pins.
func (s *stepper) registration() {
	if p := s.names(func(p Part) bool { return tabsOf(p) > 0 }); p != "" {
		s.say("Try the tabs of %s in their slots: they go home by hand, with %s of play. Ease their edges, do not sand their faces.",
			p, s.length(s.d.Spec.Tabs.Clearance))
	}
	g := s.d.Spec.Pins
	if p := s.names(func(p Part) bool { return pinsOf(p, g) > 0 }); p != "" {
		s.say("Set pins of %s into the holes of %s, no longer than the two holes are deep, %s each where they are blind, and try the parts on one another.",
			s.length(g.Diameter), p, s.length(g.Depth))
	}
}

// tabsOf counts the tabs of a part.
func tabsOf(p Part) int {
	n := 0
	for _, e := range p.Edges {
		if e.Name == "tab" {
			n++
		}
	}
	return n
}

// pinsOf counts the holes for pins in a part.
func pinsOf(p Part, g Pins) int {
	if g.Diameter == 0 {
		return 0
	}
	n := 0
	for _, k := range p.Work.Pockets {
		if part.Round(k.Area.Outer) {
			n++
		}
	}
	if p.Kind == KindBlock {
		n += len(p.Outline.Holes)
	}
	return n
}
