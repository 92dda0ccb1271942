package hood

import "math"

// outer returns the parts of the front, or of the sides.
func (s *stepper) outer(front bool) []Part {
	return s.pick(func(p Part) bool {
		if front {
			return outside(p) && p.Hand == ""
		}
		return p.Kind == KindCheek || outside(p) && p.Hand != ""
	})
}

// asIs reports whether the front is bent as it is, over its ribs.
func (s *stepper) asIs() bool {
	for _, p := range s.outer(true) {
		if len(p.Bent) > 0 && p.Ply == 0 {
			return true
		}
	}
	return false
}

// inRabbets says how the back stands.
func (s *stepper) inRabbets() string {
	if len(s.pick(rabbeted)) > 0 {
		return "in its rabbets"
	}
	return "between the sides"
}

func (s *stepper) dryFit() {
	s.say("Before any glue put the case together in the order below, with the back %s, and measure both diagonals: they have to be equal.", s.inRabbets())
	s.registration()
	duct, insert := s.d.Spec.Duct.Diameter > 0, s.d.Spec.Liner.Length > 0
	switch {
	case duct && insert:
		s.say("Try the duct, %s, and the insert's own drawing, %s, against the openings before anything is glued.", s.in.Length(s.d.Spec.Duct.Diameter), s.in.Size(s.d.Spec.Liner.Length, s.d.Spec.Liner.Width))
	case duct:
		s.say("Try the duct, %s, in its opening before anything is glued.", s.in.Length(s.d.Spec.Duct.Diameter))
	case insert:
		s.say("Hold the insert's own drawing, %s, against its opening before anything is glued.", s.in.Size(s.d.Spec.Liner.Length, s.d.Spec.Liner.Width))
	}
}

// inner puts together what stands inside. Feet of ribs go down into the shelf
// and the deck comes down over their heads, so that the sides, the front and
// the back can close around it.
func (s *stepper) inner() {
	shelf, deck := s.kind(KindShelf), s.kind(KindDeck)
	if b := s.kind(KindBlock); len(b) > 0 && len(shelf) > 0 {
		s.set(append(shelf, b...), "Glue %s on the front corners of %s, flush with its edges.", list(b), list(shelf))
		shelf = nil
	}
	through := s.ribs(true)
	switch {
	case len(through) == 0:
		s.set(append(shelf, deck...), "Have %s ready for the sides.", list(append(shelf, deck...)))
	case len(s.kind(KindShelf)) > 0:
		s.set(append(append(shelf, through...), deck...), "Stand %s on the liner-shelf, and set the deck over their heads, which fit its slots.", list(through))
	default:
		s.set(append(deck, through...), "Set %s into the slots of the deck, from below.", list(through))
	}
}

// ribs returns the ribs that the deck or the shelf holds, or those that lie on
// the front alone.
func (s *stepper) ribs(held bool) []Part {
	top := s.d.Spec.Height - s.d.Spec.Board.Thickness
	return s.pick(func(p Part) bool {
		box := p.Outline.Bounds()
		through := p.Pose.At.Y+box.Max.Y > top+1 // its outline is drawn upright
		return p.Kind == KindRib && (through || tabsOf(p) > 0) == held
	})
}

func (s *stepper) sides() {
	in := s.kind(KindDeck)
	in = append(s.kind(KindShelf), in...)
	how := "to the ends of"
	if s.d.Spec.Dado.Depth > 0 && len(s.kind(KindCheek)) > 0 {
		how = "with their grooves over the ends of"
		if len(s.kind(KindCheek)) == 1 {
			how = "to the ends of, the groove of the plumb one over,"
		}
	}
	height := ""
	if s.d.Spec.Liner.Length > 0 {
		height = "; the underside of the liner-shelf is " + s.in.Length(s.d.Spec.Liner.Y) + " above the bottom edge"
	}
	s.set(s.outer(false), "Glue %s %s %s%s.", list(s.outer(false)), how, list(in), height)
}

func (s *stepper) fronts() {
	front := s.outer(true)
	ribs := s.kind(KindRib)
	switch {
	case s.asIs():
		s.set(front, "Bend %s as it is, %s thick, over %s, from the middle outward, and glue and screw it there, its ends to the sides and the deck: it pushes back until the glue is hard.",
			list(front), s.in.Thin(s.d.Spec.Board.Thickness), list(ribs))
	case len(s.ribs(true)) > 0:
		s.set(front, "Glue %s to the sides, the deck and the front edges of %s, which touch its back%s; pull the corners with tape across the show faces.", list(front), list(s.ribs(true)), s.screws())
	default:
		s.set(front, "Glue %s to the sides and the deck; pull the corners with tape across the show faces.", list(front))
	}
	if r := s.ribs(false); len(r) > 0 {
		s.set(r, "Set %s from behind against the back of the front, which they touch along its curve, and glue them there%s.", list(r), s.screws())
	}
}

// screws says where screws hold in a kerfed front.
func (s *stepper) screws() string {
	for _, p := range s.outer(true) {
		if len(p.Kerfs) > 0 {
			return ", with screws into the lands between the kerfs only, never into a kerf"
		}
	}
	return ""
}

// closing closes the case from behind and from below.
func (s *stepper) closing() {
	back, onto := s.kind(KindBack), ""
	if tabs := s.pick(func(p Part) bool { return p.Kind != KindRib && tabsOf(p) > 0 }); len(tabs) > 0 {
		onto = " over the tabs of " + list(tabs)
	}
	place := "into its rabbets"
	if len(s.pick(rabbeted)) == 0 {
		place = "between the sides"
	}
	s.set(back, "Push the back from behind%s %s and glue it there.", onto, place)
	if b := s.kind(KindBlock); len(b) > 0 && len(s.kind(KindShelf)) == 0 {
		s.set(b, "Glue %s into the front corners of the skirt, from below.", list(b))
	}
	if c := s.kind(KindCleat); len(c) > 0 {
		s.set(c, "Screw and glue the cleat to the back, its 45° edge down and its point against the wall.")
	}
	if s.d.Spec.Liner.Length > 0 {
		s.say("Try the insert in its opening, %s, once the glue is hard.", s.in.Size(s.d.Spec.Liner.Length, s.d.Spec.Liner.Width))
	}
}

func (s *stepper) hanging() {
	if a := s.d.Spec.Scribe.Allowance; a > 0 {
		s.say("Hold the hood to the wall, scribe the rear edges, which are left %s long, and plane to the line.", s.in.Length(a))
	}
	h, err := s.d.Hang()
	if err != nil {
		return
	}
	s.say("The heaviest part, %s, is %s; all that hangs, without %s, %s, its center of gravity %s out of the wall. It takes two people, or a lift.",
		h.Heaviest, s.in.Mass(h.Lift), s.bought(), s.in.Mass(h.Mass), s.in.Length(h.Center.Z))
	how := "Fix the hood through the back into the framing"
	if wall := s.kind(KindWallCleat); len(wall) > 0 {
		s.set(wall, "Fix cleat-wall level to the framing, with its upper edge %s above where the hood's bottom edge will be.", s.in.Length(hook(s.d.Spec)+s.d.Spec.Board.Thickness/2))
		how = "Hang the hood on it from above"
	}
	s.say("%s: %s down and, at the top, %s away from the wall, before %s.", how, s.in.Force(math.Ceil(h.Load)), s.in.Force(math.Ceil(h.Pull)), s.bought())
	s.out[len(s.out)-1].Hangs = true
}

// bought names what is not of wood and comes on top.
func (s *stepper) bought() string {
	if s.d.Spec.Liner.Length > 0 {
		return "insert and blower"
	}
	return "blower and duct"
}
