package hood

import (
	"fmt"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
)

// Steps returns the order of work, each step in one or two sentences that name
// the parts and figures of this design.
func (d Design) Steps() []string {
	s := stepper{d: d, unit: arc.Millimeters}
	if d.Spec.Units == "in" {
		s.unit = arc.Inches
	}
	s.cutting()
	s.saw()
	s.laminating()
	s.dryFit()
	s.bending()
	s.assembly()
	s.banding()
	s.hanging()
	return s.out
}

type stepper struct {
	d    Design
	unit arc.Unit
	out  []string
}

func (s *stepper) say(format string, a ...any) { s.out = append(s.out, fmt.Sprintf(format, a...)) }

func (s *stepper) length(mm float64) string { return arc.FormatLength(mm, s.unit) }

// names lists the parts a test lets through.
func (s *stepper) names(keep func(Part) bool) string {
	var out []string
	for _, p := range s.d.Parts {
		if keep(p) {
			out = append(out, p.Name)
		}
	}
	return strings.Join(out, ", ")
}

// panels is names with plies by the name of the panel they are glued up to.
func (s *stepper) panels(keep func(Part) bool) string {
	var out []string
	for _, p := range s.d.Parts {
		if keep(p) && !slices.Contains(out, p.Panel) {
			out = append(out, p.Panel)
		}
	}
	return strings.Join(out, ", ")
}

// all lists the parts of some kinds.
func (s *stepper) all(kinds ...Kind) string {
	return s.names(func(p Part) bool { return slices.Contains(kinds, p.Kind) })
}

func (s *stepper) cutting() {
	count := 0
	for _, p := range s.d.Parts {
		count += p.Copies()
	}
	s.say("Run every program in air above the sheet first. Then cut all %d parts, show face down; write each label on the back before a part leaves the sheet.", count)
	if p := s.names(func(p Part) bool { return rabbeted(p) }); p != "" {
		s.say("Check the rabbets of %s with an offcut of the back, %s thick.", p, s.length(s.d.Spec.Back.Thickness))
	}
}

func (s *stepper) saw() {
	for _, p := range s.d.Parts {
		for _, e := range p.Edges {
			if e.Saw && p.Ply == 0 {
				s.say("Finish %s by saw or plane to the lines on both faces: %s.", p.Name, cut.SawLine(e.Name, e.Bevel))
			}
		}
	}
}

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

func (s *stepper) dryFit() {
	s.say("Stand %s and %s on a flat floor with the back in its rabbets, without glue, and measure both diagonals: they have to be equal.", s.sides(), s.front())
	s.registration()
	if d := s.d.Spec.Duct.Diameter; d > 0 {
		s.say("Try the duct, %s, and the insert's own drawing against the openings before anything is glued.", s.length(d))
	}
}

func (s *stepper) sides() string {
	return s.panels(func(p Part) bool { return p.Kind == KindCheek || outside(p) && p.Hand != "" })
}

func (s *stepper) front() string {
	return s.panels(func(p Part) bool { return outside(p) && p.Hand == "" })
}

func (s *stepper) bending() {
	for _, p := range s.d.Parts {
		if len(p.Bent) > 0 && p.Ply == 0 {
			s.asIs(p)
		}
		if len(p.Kerfs) == 0 {
			continue
		}
		s.say("Bend %s dry, show face first over the ribs or a template of its section: %d kerfs, each by %.3f° at most. Take it apart, fill the kerfs with glue, bend it again and hold it until the glue is hard.", p.Name, len(p.Kerfs), s.turn(p))
	}
}

// turn returns the largest turn of a kerf of the part, in degrees.
func (s *stepper) turn(p Part) float64 {
	most := 0.0
	for _, k := range p.Kerfs {
		most = max(most, k.Turn.Degrees(), -k.Turn.Degrees())
	}
	return most
}

func (s *stepper) assembly() {
	inner, back, shelf := s.all(KindRib), "the back", s.all(KindShelf)
	if s.d.Spec.Tabs.Width > 0 && shelf != "" { // its tabs go into the back from inside
		back = "the liner-shelf"
	}
	if inner != "" {
		s.say("Set %s into the slots of the deck and screw them to the back of the front.", inner)
	}
	s.say("Glue up %s with %s, the deck and "+back+"; pull the corners with tape across the show faces.", s.sides(), s.front())
	if p := s.all(KindBlock); p != "" {
		s.say("Glue %s into the front corners of the skirt.", p)
	}
	switch {
	case shelf == "":
	case back != "the back":
		s.say("See that the underside of liner-shelf is %s above the bottom edge, push the back over the tabs into its rabbets, and try the insert in its opening, %s by %s.",
			s.length(s.d.Spec.Liner.Y), s.length(s.d.Spec.Liner.Length), s.length(s.d.Spec.Liner.Width))
	default:
		s.say("Screw in liner-shelf with its underside %s above the bottom edge, and try the insert in its opening, %s by %s.",
			s.length(s.d.Spec.Liner.Y), s.length(s.d.Spec.Liner.Length), s.length(s.d.Spec.Liner.Width))
	}
}

func (s *stepper) hanging() {
	if a := s.d.Spec.Scribe.Allowance; a > 0 {
		s.say("Hold the hood to the wall, scribe the rear edges, which are left %s long, and plane to the line.", s.length(a))
	}
	h, err := s.d.Hang()
	if err != nil {
		return
	}
	s.say("The heaviest part, %s, is %.1f kg; the hood without insert %.1f kg, its center of gravity %s out of the wall. It takes two people, or a lift.",
		h.Heaviest, h.Lift, h.Mass, s.length(h.Center.Z))
	if h.Cleat > 0 {
		s.say("Fix cleat-wall level to the framing with its upper edge %s above the hood's bottom edge, and hang the hood on it: %.0f N down and, at the top, %.0f N away from the wall, before insert and blower.",
			s.length(hook(s.d.Spec)+s.d.Spec.Board.Thickness/2), h.Load, h.Pull)
	} else {
		s.say("Fix the hood through the back into the framing: %.0f N down and, at the top, %.0f N away from the wall, before insert and blower.", h.Load, h.Pull)
	}
	for _, t := range s.d.Trim {
		s.say("Cut %s, %s along the hood, %d mitered: miter %.2f°, bevel %.2f°.", t.Name, s.length(t.Length), t.Miters,
			absolute(t.End.Miter).Degrees(), absolute(t.End.Bevel).Degrees())
	}
	if p := s.all(KindChimneySide); p != "" {
		s.say("Set %s on the deck, connect the duct, and screw on %s last.", p, s.all(KindChimneyFront))
	}
}
