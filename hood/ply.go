package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
)

// Plies tells how a panel is laminated, or bent as it is in one sheet; the zero
// Plies is neither.
type Plies struct {
	Count      int
	Thickness  float64   // of one, mm
	Strain     float64   // at the faces of the one bent most: on the form, or as it is
	Use        float64   // of what the material stands, at the tightest place; 1 is all of it
	FormRadius float64   // of the form's face inside the bend, at the tightest place, before springback, mm; 0 without a form
	Lengths    []float64 // net, along the middle of each, from the show face in, mm
}

// roll works out the plies of a section, or its one sheet.
func (b *builder) roll(path string, s *section, w Sweep) {
	s.plies = 1
	if b.way(w) == laminate {
		s.plies = b.plies()
	}
	ply := b.t / float64(s.plies)
	limit, err := b.stands(b.way(w), ply)
	if err != nil {
		b.faults.add("bend.strain", b.Bend.Strain, "", "a limit for this material: "+err.Error(), ErrBend)
		return
	}
	c := &s.curve
	c.Plies = s.pliesOver(0, s.sweep.NumSegments(), b.t, limit)
	c.FlatLength = c.Plies.Lengths[0]
	for i := range c.Arcs {
		a := &c.Arcs[i]
		a.Plies = s.pliesOver(i, i+1, b.t, limit)
		a.FlatLength = a.Plies.Lengths[0]
	}
	if c.Plies.Use <= 1 {
		return
	}
	if s.plies == 1 {
		b.faults.add(path+"."+w.size(), w.sizeValue(), w.sizeUnit(), fmt.Sprintf(
			"an inside radius of at least %.6g mm for %.6g mm bent as it is (%s), a thinner board or another method", limit.least(ply), ply, limit.source), ErrBend)
		return
	}
	b.faults.add("bend.ply.thickness", ply, "mm", b.thinner(*s, w), ErrBend)
}

// thinner says which plies would take a curve.
func (b *builder) thinner(s section, w Sweep) string {
	for s.plies++; s.plies <= maxPlies; s.plies++ {
		ply := b.t / float64(s.plies)
		limit, err := b.stands(laminate, ply)
		if err == nil && s.pliesOver(0, s.sweep.NumSegments(), b.t, limit).Use <= 1 {
			return fmt.Sprintf("%.6g mm or less for this curve on its form (%s)", ply, limit.source)
		}
	}
	return "a wider curve, which no ply is thin enough for"
}

// pliesOver returns the plies of some segments of a section of thickness t.
func (s section) pliesOver(from, to int, t float64, limit stand) Plies {
	n := s.plies
	p := Plies{Count: n, Thickness: t / float64(n), Lengths: make([]float64, n)}
	for i := from; i < to; i++ {
		seg := s.sweep.Segment(i)
		for k := range p.Lengths {
			p.Lengths[k] += seg.Length() * stretched(seg, s.depth(t, float64(k)+0.5))
		}
		if seg.K == 0 {
			continue
		}
		inside := seg.Radius()
		if seg.K > 0 {
			inside -= t
		}
		if n > 1 {
			middle, err := bend.FormRadius(inside+t/2, n)
			if inside = middle - t/2; err != nil {
				inside = 0
			}
			if p.FormRadius == 0 || inside < p.FormRadius {
				p.FormRadius = inside
			}
		}
		if use := limit.use(p.Thickness, inside); use > p.Use {
			p.Use = use
			p.Strain = p.Thickness / (2*inside + p.Thickness)
		}
	}
	return p
}

// depth returns the depth of a number of plies.
func (s section) depth(t, plies float64) float64 { return t * plies / float64(s.plies) }

// stretched returns how long a parallel at a depth is beside its segment.
func stretched(s arc.Segment, depth float64) float64 {
	if s.K == 0 {
		return 1
	}
	return 1 - math.Copysign(depth, s.K)/s.Radius()
}
