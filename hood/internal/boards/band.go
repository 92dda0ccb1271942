package boards

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
)

// band marks the edges that show: the lower ones, and where front and cheeks
// are not mitered the edges of what covers.
func (b *builder) band() {
	for i := range b.parts {
		p := &b.parts[i]
		if p.Ply > 1 { // the glued panel's edges are told once
			continue
		}
		cheek := p.Kind == KindCheek
		front := p.Kind == KindSkirt || p.Kind == KindSweep
		low := p.Kind == KindSkirt || cheek || front && b.Skirt == 0
		for j := range p.Edges {
			e := &p.Edges[j]
			switch {
			case e.Name == "bottom":
				e.Band = low
			case front && b.CornerJoint() == "front-covers" && b.Plumb():
				e.Band = e.Name == "left" || e.Name == "right"
			case cheek && b.CornerJoint() == "cheek-covers":
				e.Band = e.Name == "front"
			}
		}
	}
}

// seamNote says how the bevel of a seam runs and what one setting leaves open:
// a bevel m where β is due stands off by t·(tan β − tan m) at the back of each
// of the two boards.
func (b *builder) seamNote(f flare) string {
	least, most := f.bevel(), f.bevel()
	for _, p := range f.list {
		least = min(least, p.First.Bevel)
	}
	lo, hi := math.Tan(float64(least)), math.Tan(float64(most))
	one := arc.Angle(math.Atan((lo + hi) / 2))
	return fmt.Sprintf("bevel from %s to %s off square, by the lines on both faces; at one setting of %s the joint is off by up to %s at the back",
		say.Program(least), say.Program(most), say.Program(one), b.faults.In.Thin(b.t*(hi-lo)))
}
