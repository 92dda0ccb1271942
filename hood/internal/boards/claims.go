package boards

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r3"
)

// rounding is the limit of a joint that has to close but for rounding, mm.
const rounding = proof.Rounding

// claims says what should meet in this hood, and what may be left between.
func (b *builder) claims() []proof.Claim {
	front, skirt := b.frontName(), "skirt"
	if !b.Plumb() {
		skirt = "skirt-front"
	}
	out := []proof.Claim{b.panelClaim(front, skirt, b.front, r3.Vec{Z: 1})}
	for _, s := range []struct {
		hand part.Hand
		f    flare
		out  r3.Vec
	}{{part.Left, b.left, r3.Vec{X: -1}}, {part.Right, b.right, r3.Vec{X: 1}}} {
		hand := string(s.hand)
		if s.f.flared() {
			out = append(out,
				b.panelClaim("sweep-"+hand, "skirt-"+hand, s.f.Section, s.out),
				b.seamClaim(front, skirt, s.hand, s.f))
		} else {
			out = append(out, b.cornerClaim(front, skirt, s.hand))
		}
		out = append(out, b.rabbetClaim(s.hand, s.f))
	}
	out = append(out, b.deckClaim(front))
	return append(append(out, b.insideClaims(front, skirt)...), b.registerClaims()...)
}

func (b *builder) panelClaim(name, skirt string, s curve.Section, out r3.Vec) proof.Claim {
	c := proof.Panel{
		Name: name, Skirt: skirt, Curve: s.Sweep, Out: out, Off: b.off(s),
		OnSkirt: b.joiner((b.off(s) + b.foldOffMost()) * (1 + b.steepest())), Hidden: hidden,
		Mouth: s.Curve.Kerfs.Mouth, Use: s.Curve.Plies.Use, Thickness: b.t, Step: b.step(),
	}
	if s.Plies > 0 {
		c.OnSkirt = b.joiner(b.off(s) + b.foldOffMost()*(1+b.steepest()))
	}
	return c
}

// step returns the depth of the floor of the rabbet for the back, from which on
// plies of flared sides stop short; 0 without one.
func (b *builder) step() float64 {
	if b.Back.Rabbet == 0 {
		return 0
	}
	return b.t - b.Back.Rabbet
}

func (b *builder) seamClaim(front, skirt string, hand part.Hand, f flare) proof.Claim {
	c := proof.Seam{
		Front: front, Side: "sweep-" + string(hand), FrontSkirt: skirt, SideSkirt: "skirt-" + string(hand),
		OnFront: string(hand.Other()), OnSide: string(hand), Limit: 2 * rounding,
		FrontFolds: foldsOf(b.front, b.t), SideFolds: foldsOf(f.Section, b.t),
	}
	if b.front.Bends() || f.Bends() {
		c.Limit, c.Param = b.JointLimit(), "joint"
	}
	return c
}

// folds returns the heights at which a rolled panel leaves its skirt, at each
// glue line from the show face to the back; none where it is not rolled or has
// no skirt.
func foldsOf(s curve.Section, t float64) []float64 {
	if s.Plies == 0 || s.Skirt == 0 {
		return nil
	}
	out := make([]float64, s.Plies+1)
	for i := range out {
		out[i] = math.Inf(-1)
		if s.Fold(s.Ends(), s.Depth(t, float64(i))) {
			out[i] = s.Inner.V[1].P.Y
		}
	}
	return out
}

func (b *builder) cornerClaim(front, skirt string, hand part.Hand) proof.Claim {
	joint := map[string]proof.Joint{"front-covers": proof.FrontCovers, "cheek-covers": proof.CheekCovers}[b.CornerJoint()]
	return proof.Corner{
		Front: front, Skirt: skirt, Cheek: "cheek-" + string(hand), On: string(hand.Other()), Joint: joint,
		Off: b.off(b.front), SkirtOff: b.joiner(rounding + b.foldOff(b.front)),
	}
}

func (b *builder) rabbetClaim(hand part.Hand, f flare) proof.Claim {
	c := proof.Rabbet{
		Back: "back", On: string(hand.Other()), Sides: []string{"cheek-" + string(hand)},
		Clearance: b.Back.Clearance, Off: []float64{rounding}, Thickness: b.t, Step: b.step(),
	}
	if f.flared() {
		more := b.foldOff(f.Section) + b.spread(f.Section)
		c.Sides = []string{"skirt-" + string(hand), "sweep-" + string(hand)}
		c.Off = []float64{b.joiner(rounding + more), b.joiner(b.off(f.Section) + more)}
	}
	return c
}

func (b *builder) deckClaim(front string) proof.Claim {
	c := proof.Level{Board: "deck", Back: "back", Dado: b.Dado.Clearance, Front: proof.Meet{On: "bottom", With: front, Off: b.off(b.front)}}
	for _, s := range []struct {
		hand part.Hand
		f    flare
	}{{part.Left, b.left}, {part.Right, b.right}} {
		m := proof.Meet{On: string(s.hand), With: "cheek-" + string(s.hand), Plumb: true}
		if s.f.flared() {
			m = proof.Meet{On: string(s.hand), With: "sweep-" + string(s.hand), Off: b.off(s.f.Section)}
		}
		c.Sides = append(c.Sides, m)
	}
	return c
}

// insideClaims are of what stands behind the front: ribs, liner shelf, cleat and
// bending forms.
func (b *builder) insideClaims(front, skirt string) []proof.Claim {
	var out, last []proof.Claim
	for _, p := range b.parts {
		switch p.Kind {
		case KindRib:
			out = append(out, proof.Rib{Rib: p.Name, Front: front, Deck: "deck", Off: b.off(b.front), Clearance: b.Ribs.Clearance})
		case KindShelf:
			out = append(out, b.shelfClaim(front, skirt))
		case KindCleat:
			last = append([]proof.Claim{proof.Hook{Cleat: "cleat", Wall: "cleat-wall", Back: "back"}}, last...)
		case KindForm:
			if slices.ContainsFunc(b.parts, func(q part.Part) bool { return q.Ply > 0 && q.Panel == p.Panel }) { // filled kerfs hold a panel
				last = append(last, proof.Form{Rib: p.Name})
			}
		}
	}
	return append(out, last...)
}

func (b *builder) shelfClaim(front, skirt string) proof.Claim {
	c := proof.Level{Board: "liner-shelf", Back: "back", Dado: b.Dado.Clearance, Front: proof.Meet{On: "bottom", With: front, Off: b.off(b.front)}}
	if b.Skirt > 0 && b.Liner.Y < b.Skirt {
		c.Front.With, c.Front.Off = skirt, rounding
	}
	for _, s := range []struct {
		hand part.Hand
		f    flare
	}{{part.Left, b.left}, {part.Right, b.right}} {
		if !s.f.flared() {
			c.Sides = append(c.Sides, proof.Meet{On: string(s.hand), With: "cheek-" + string(s.hand), Plumb: true})
		}
	}
	return c
}

// registerClaims are of tabs and pins.
func (b *builder) registerClaims() []proof.Claim {
	var out []proof.Claim
	if b.Tabs.Width > 0 {
		c := proof.Tabs{Clearance: b.Tabs.Clearance, Tool: b.Cut.Tool, Mates: []proof.Slotted{
			{Name: "back", Through: true, Openings: len(b.Back.Openings)}, {Name: "liner-shelf"},
		}}
		for _, p := range b.parts {
			switch p.Kind {
			case KindRib:
				c.Boards = append(c.Boards, proof.Tabbed{Board: p.Name, Mate: "liner-shelf"})
			case KindDeck, KindShelf:
				c.Boards = append(c.Boards, proof.Tabbed{Board: p.Name, Mate: "back"})
			}
		}
		out = append(out, c)
	}
	if g := b.Pins; g.Diameter > 0 {
		out = append(out,
			proof.Pins{Base: "back", On: []proof.Pinned{{Name: "cleat"}}, Hole: g.Hole(), Depth: g.Depth},
			proof.Pins{Base: "liner-shelf", On: []proof.Pinned{{Name: "corner-block-left", Through: true}, {Name: "corner-block-right", Through: true}}, Hole: g.Hole(), Depth: g.Depth})
	}
	return out
}

// joiner holds a limit that is worked out from how far bevels, which are planes,
// leave bent boards to the gap that a joiner accepts of shaped wood to wood.
func (b *builder) joiner(limit float64) float64 { return math.Min(limit, b.JointLimit()) }

// hidden is the most a joint of bevels may be open behind the show face, mm: the
// quarter of an inch that thickened epoxy bridges (common practice, no source).
const hidden = 6.35

// off returns how far a panel may leave its curve.
func (b *builder) off(s curve.Section) float64 {
	switch {
	case s.Plies > 0: // true to the curve, and where it is folded to the bevel's plane
		return proof.Exact + b.joiner(math.Max(b.foldOff(b.front), b.foldOffMost()))
	case s.Bends():
		return b.Bend.Facet + rounding
	}
	return rounding
}

// foldOff is what a fold between a flat and a curved board adds to a limit. The
// bevels are planes, and over their reach t·tan β the curve leaves its tangent
// by reach²/2R; where its offset meets the plane of the other board, that moves
// the corner by as much over sin 2β, which is up to t·reach/4R.
func (b *builder) foldOff(s curve.Section) float64 {
	radius := s.Sweep.Segment(0).Radius() - b.t
	reach := b.t * math.Tan(math.Abs(float64(s.Lower)))
	if b.Skirt == 0 || radius <= 0 {
		return 0
	}
	return reach * (reach + b.t/2) / radius
}

// spread is how much more than the clearance lies between two faces where they
// end or fold, square to them.
func (b *builder) spread(s curve.Section) float64 {
	low := math.Abs(float64(s.Curve.Low))
	if b.Skirt > 0 { // a fold, not an end
		low /= 2
	}
	most := math.Max(low, math.Abs(float64(s.Curve.High)))
	if s.Plies > 0 { // it leans on between its show edge and where the bevel ends
		last := s.Sweep.Segment(s.Sweep.NumSegments() - 1)
		most += b.t * math.Tan(low) / math.Max(b.t, s.Sweep.Segment(0).Radius()-b.t)
		most = math.Max(most, math.Abs(float64(s.Curve.High))+b.t*math.Tan(math.Abs(float64(s.Upper)))/math.Max(b.t, last.Radius()-b.t))
	}
	return b.Back.Clearance * (1/math.Cos(most) - 1)
}

// foldOffMost returns the largest of foldOff over the flared panels.
func (b *builder) foldOffMost() float64 {
	if b.Plumb() {
		return 0
	}
	most := b.foldOff(b.front)
	for _, f := range []flare{b.left, b.right} {
		if f.flared() {
			most = max(most, b.foldOff(f.Section))
		}
	}
	return most
}

// mostLean bounds the lean that a limit is worked out for: over it the tangent
// outgrows all sense, and validation refuses what leans over curve.MaxLean
// where it matters.
const mostLean = curve.MaxLean + 5*arc.Degree

// steepest returns how far the end of a seam moves along a panel where its
// neighbor is off by one across: the tangent of the largest lean at the skirt,
// held to that of mostLean.
func (b *builder) steepest() float64 {
	most := arc.Angle(0)
	for _, s := range []curve.Section{b.left.Section, b.right.Section, b.front} {
		if !b.Plumb() {
			most = max(most, s.Curve.Low, -s.Curve.Low)
		}
	}
	return math.Tan(float64(min(most, mostLean)))
}

// frontName returns the name of the front's sweep.
func (b *builder) frontName() string {
	if b.Plumb() {
		return "sweep"
	}
	return "sweep-front"
}
