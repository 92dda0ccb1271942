package hood

import (
	"example.com/sagitta/hood/part"
)

// registration names what finds its place by tabs and pins.
func (s *stepper) registration() {
	if p := s.pick(func(p Part) bool { return tabsOf(p) > 0 }); len(p) > 0 {
		s.say("Try the tabs of %s in their slots: they go home by hand, %s. Ease their edges, do not sand their faces.",
			list(p), s.play(s.d.Spec.Tabs.Clearance))
	}
	g := s.d.Spec.Pins
	if p := s.pick(func(p Part) bool { return pinsOf(p, g) > 0 }); len(p) > 0 {
		s.say("Set pins of %s into the holes of %s, no longer than the two holes are deep, %s each where they are blind, and try the parts on one another.",
			s.in.Thin(g.Diameter), list(p), s.in.Thin(g.Depth))
	}
}

// play says how loose something is.
func (s *stepper) play(mm float64) string {
	if text := s.in.Gap(mm); text != "closed" {
		return "with " + text + " of play"
	}
	return "without play"
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
