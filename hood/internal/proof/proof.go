// Package proof measures whether flat parts close to what was claimed of them.
//
// It takes parts, with their poses, and a list of claims: which edges meet and
// what may be left between them. Every part is folded and bent back from nothing
// but its blank, kerfs and bevels, and set in its place; panels are set on their
// skirts by their bevels alone, plies on each other by their marks. It knows
// neither what was asked nor how the parts were worked out, and imports nothing
// that does.
package proof

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
)

// Rounding is the limit of a joint that has to close but for rounding, mm.
const Rounding = 1e-6

// Exact is the limit of what a rolled part keeps but for rounding, which over
// its many arcs comes to more than a joint's, mm.
const Exact = 10 * Rounding

// A Check is one thing measured.
type Check struct {
	Name  string
	Value float64
	Limit float64
	Unit  string
	OK    bool
	Param string // what sets the limit, for whoever made the claim
}

// A Claim says what should meet. Claims are measured in their sequence: what a
// Panel sets in its place stands there for those that follow.
type Claim interface{ measure(*prover) }

// A placed is a folded part of the proof.
type placed struct{ part.Folded }

// A prover holds the parts as they come to stand.
type prover struct {
	flat   []part.Part
	parts  map[string]placed
	inner  map[string]placed // of panels of plies, the ply whose back is that of the panel
	checks []Check
	ways   map[string][]arc.Path // of the cutter's axis around outlines
}

// Prove folds every part back and measures the claims. It returns the parts as
// they come to lie by their own poses, in the sequence given; they are nil where
// a part cannot be folded, which is told as a check that fails.
func Prove(parts []part.Part, claims []Claim) ([]Check, []part.Folded) {
	p := prover{flat: parts, parts: map[string]placed{}, inner: map[string]placed{}}
	folded := make([]part.Folded, len(parts))
	for i, flat := range parts {
		f, err := part.Fold(flat)
		if err != nil {
			p.add("fold "+flat.Name, math.Inf(1), 0, "mm")
			return p.checks, nil
		}
		folded[i], p.parts[flat.Name] = f, placed{f}
	}
	for _, c := range claims {
		c.measure(&p)
	}
	return p.checks, folded
}

// add reports a measured value against its limit.
func (p *prover) add(name string, value, limit float64, unit string) {
	p.addFor("", name, value, limit, unit)
}

// addFor is add for a limit that something sets.
func (p *prover) addFor(param, name string, value, limit float64, unit string) {
	p.checks = append(p.checks, Check{name, value, limit, unit, value <= limit, param})
}

// back returns the part that has the back face of a panel.
func (p *prover) back(name string) placed {
	if in, ok := p.inner[name]; ok {
		return in
	}
	return p.parts[name]
}
