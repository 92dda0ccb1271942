package curve

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/rise"
)

// Clone returns a curve that shares nothing with c.
func (c Curve) Clone() Curve {
	c.Plies.Lengths = slices.Clone(c.Plies.Lengths)
	c.Arcs = slices.Clone(c.Arcs)
	for i := range c.Arcs {
		c.Arcs[i] = c.Arcs[i].Clone()
	}
	return c
}

// Flared reports whether a side leans.
func (e Ends) Flared() bool { return e.Bottom-e.Top >= Flat }

// Developed returns the length along the sweep's show face at a height.
func (s Section) Developed(y float64) float64 {
	sum := 0.0
	for i := range s.Sweep.NumSegments() {
		g := s.Sweep.Segment(i)
		if y < g.B.Y {
			if g.K == 0 {
				return sum + g.Length()*max(0, min((y-g.A.Y)/(g.B.Y-g.A.Y), 1))
			}
			l, _ := g.Project(rise.AtHeight(g, y))
			return sum + max(0, min(l, g.Length()))
		}
		sum += g.Length()
	}
	return sum
}

// ToBlank moves a path from the developed show face to the flat blank.
func (s Section) ToBlank(p arc.Path) {
	for i := range p.V {
		p.V[i].P.Y = s.OnBlank(p.V[i].P.Y)
	}
}

// OnBlank returns where a developed length on the show face lies on the flat
// blank: every bend stretches alike.
func (s Section) OnBlank(u float64) float64 {
	if len(s.Plan.Bends) == 0 {
		return u
	}
	at := 0.0 // on the show face
	flat := 0.0
	for _, b := range s.Plan.Bends {
		straight := b.FlatAt - flat
		if u <= at+straight {
			break
		}
		at += straight
		flat = b.FlatAt
		show := 0.0
		for i := b.From; i < b.To; i++ {
			show += s.Sweep.Segment(i).Length()
		}
		if u <= at+show {
			return flat + (u-at)*b.FlatLength/show
		}
		at += show
		flat += b.FlatLength
	}
	return flat + u - at
}

// Band returns the section of the skirt below a section.
func (s Section) Band(skirt float64) Section {
	return Section{Curve: Curve{FlatLength: skirt}, Upper: s.Curve.SkirtBevel}
}

// Bends reports whether the panel of a section is bent.
func (s Section) Bends() bool { return s.Plies > 0 || len(s.Plan.Kerfs) > 0 }

// Depth returns the depth of a number of plies.
func (s Section) Depth(t, plies float64) float64 { return t * plies / float64(s.Plies) }

// Stretched returns how long a parallel at a depth is beside its segment.
func Stretched(s arc.Segment, depth float64) float64 {
	if s.K == 0 {
		return 1
	}
	return 1 - math.Copysign(depth, s.K)/s.Radius()
}
