package hood

import (
	"fmt"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/sheet/cut"
)

// A Step is one step of the order of work.
type Step struct {
	Text string // one or a few sentences that name the parts and figures of the design
	// Adds names the parts that come to their place for good in this step, one
	// after the other. Each has a straight way in past the parts of the steps
	// before and those before it in the list.
	Adds []string
	// Hangs says that here all that stands goes to the wall.
	Hangs bool
}

// Steps returns the order of work: what is done at the bench, and then the
// parts in an order in which each has a way in.
func (d Design) Steps() []Step {
	s := stepper{d: d, in: d.Spec.Format()}
	s.cutting()
	s.saw()
	s.laminating()
	s.bending()
	s.dryFit()
	s.inner()
	s.sides()
	s.fronts()
	s.closing()
	s.banding()
	s.hanging()
	s.finishing()
	return s.out
}

type stepper struct {
	d   Design
	in  say.Format
	out []Step
}

func (s *stepper) say(format string, a ...any) {
	s.out = append(s.out, Step{Text: fmt.Sprintf(format, a...)})
}

// set says a step that adds parts.
func (s *stepper) set(adds []Part, format string, a ...any) {
	s.say(format, a...)
	s.out[len(s.out)-1].Adds = partNames(adds)
}

// pick returns the parts a test lets through, in their sequence.
func (s *stepper) pick(keep func(Part) bool) []Part {
	var out []Part
	for _, p := range s.d.Parts {
		if keep(p) {
			out = append(out, p)
		}
	}
	return out
}

// kind returns the parts of some kinds.
func (s *stepper) kind(kinds ...Kind) []Part {
	return s.pick(func(p Part) bool { return slices.Contains(kinds, p.Kind) })
}

// partNames lists names; plies by themselves, as parts do.
func partNames(parts []Part) []string {
	var out []string
	for _, p := range parts {
		out = append(out, p.Name)
	}
	return out
}

// list writes parts by the names of their panels: plies as what they are glued
// up to.
func list(parts []Part) string {
	var out []string
	for _, p := range parts {
		name := p.Panel
		if p.Kind == KindForm {
			name = p.Name
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return strings.Join(out, ", ")
}

func (s *stepper) cutting() {
	count := 0
	for _, p := range s.d.Parts {
		count += p.Copies()
	}
	s.say("Run every program in air above the sheet first. Then cut all %d parts, show face down; write each label on the back before a part leaves the sheet.", count)
	if p := s.kerfed(); len(p) > 0 {
		s.say("Carry %s flat and with two hands, on a board: they snap at a kerf when lifted by one end.", list(p))
	}
	if p := s.pick(rabbeted); len(p) > 0 {
		s.say("Check the rabbets of %s with an offcut of the back, %s thick.", list(p), s.in.Thin(s.d.Spec.Back.Thickness))
	}
}

func (s *stepper) kerfed() []Part { return s.pick(func(p Part) bool { return len(p.Kerfs) > 0 }) }

func (s *stepper) saw() {
	for _, p := range s.d.Parts {
		for _, e := range p.Edges {
			if e.Saw && p.Ply == 0 {
				s.say("Finish %s by saw or plane to the lines on both faces: %s.", p.Name, cut.SawLine(e.Name, e.Bevel))
			}
		}
	}
}

// bending bends what is kerfed: nothing can be fitted to it before.
func (s *stepper) bending() {
	over := "a template of its section"
	if len(s.kind(KindRib)) > 0 {
		over = "the ribs or a template of its section"
	}
	for _, p := range s.kerfed() {
		on := over
		if p.Hand != "" { // ribs stand behind the front alone
			on = "a template of its section"
		}
		if f, ok := s.form(p); ok {
			on = "its form: " + f.Name + ", " + f.Notes[0] + ", their faces in line and square across"
		}
		s.say("Bend %s dry, show face out, over %s: %d kerfs, each by %s at most. Let it lie flat again, fill the kerfs with glue or filler, bend it once more and hold it until all is hard.",
			p.Name, on, len(p.Kerfs), say.Program(turn(p)))
	}
}

// turn returns the largest turn of a kerf of the part.
func turn(p Part) arc.Angle {
	most := arc.Angle(0)
	for _, k := range p.Kerfs {
		most = max(most, absolute(k.Turn))
	}
	return most
}
