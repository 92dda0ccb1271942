package hood

import "example.com/sagitta/hood/part"

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r3"
)

// rounding is the limit of a joint that has to close but for rounding, mm.
const rounding = 1e-6

// exact is the limit of what a rolled part keeps but for rounding, which over
// its many arcs comes to more than a joint's, mm.
const exact = 10 * rounding

// A proof measures how the folded parts of a hood meet.
type proof struct {
	b      *builder
	parts  map[string]placed
	inner  map[string]placed // of panels of plies, the ply whose back is that of the panel
	checks []Check
	ways   map[string][]arc.Path // of the cutter's axis around outlines
}

// prove folds every part back and measures the joints.
func (b *builder) prove() []Check {
	p := proof{b: b, parts: map[string]placed{}, inner: map[string]placed{}}
	for _, piece := range b.parts {
		f, err := part.Fold(piece)
		if err != nil {
			p.add("fold "+piece.Name, math.Inf(1), 0, "mm")
			return p.checks
		}
		p.parts[piece.Name] = placed{f}
	}
	front, skirt := "sweep", "skirt"
	if !b.plumb() {
		front, skirt = "sweep-front", "skirt-front"
	}
	p.panel(front, skirt, b.front, b.frontEnds(), r3.Vec{Z: 1})
	for _, s := range []struct {
		hand string
		f    flare
		e    ends
		out  r3.Vec
	}{{"left", b.left, b.leftEnds(), r3.Vec{X: -1}}, {"right", b.right, b.rightEnds(), r3.Vec{X: 1}}} {
		if s.f.flared() {
			p.panel("sweep-"+s.hand, "skirt-"+s.hand, s.f.section, s.e, s.out)
			p.seam(front, skirt, s.hand, s.f)
		} else {
			p.cheek(front, skirt, s.hand)
		}
		p.rabbet(s.hand, s.f)
	}
	p.deck(front)
	p.inside(front, skirt)
	p.forms()
	p.tabs()
	p.pins()
	return p.checks
}

// add reports a measured value against its limit.
func (p *proof) add(name string, value, limit float64, unit string) {
	p.checks = append(p.checks, Check{Name: name, Value: value, Limit: limit, Unit: unit, OK: value <= limit})
}

// facet is the limit of a joint along a bent panel.
func (p *proof) facet(s placed) float64 {
	switch {
	case !s.Curved:
		return rounding
	case len(s.Bent) > 0: // true to the curve, and where it is folded to the bevel's plane
		return exact + math.Max(p.folded(p.b.front), p.foldedMost())
	}
	return p.b.Bend.Facet + rounding
}

// back returns the part that has the back face of a panel.
func (p *proof) back(name string) placed {
	if in, ok := p.inner[name]; ok {
		return in
	}
	return p.parts[name]
}

// A placed is a folded part of the proof.
type placed struct{ part.Folded }
