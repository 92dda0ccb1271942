package boards

import (
	"fmt"

	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/spec"
)

func (b *builder) section(path string, e curve.Ends, w curve.Sweep) curve.Section {
	s, err := e.Sketch(w)
	if err != nil {
		b.faults.AddSize(path, w, b.faults.Words(err.Error()), spec.ErrBend)
		return s
	}
	if !s.Fold(e, b.t) {
		b.faults.AddSize(path, w, "a flatter curve, as the back of the board folds over in this one", spec.ErrBend)
		return s
	}
	if b.Method(w) != "" {
		b.roll(path, &s, w)
		return s
	}
	if err := s.PlanKerfs(bend.Board{Thickness: b.t, KerfWidth: b.Bend.KerfWidth, Web: b.Bend.Web}, bend.Limits{Facet: b.Bend.Facet, Strain: b.Bend.Strain, Turn: b.Bend.Turn}); err != nil {
		b.faults.AddBend(path, w, err)
	}
	return s
}

// roll works out the plies of a section, or its one sheet.
func (b *builder) roll(path string, s *curve.Section, w curve.Sweep) {
	s.Plies = 1
	if b.Method(w) == spec.Laminate {
		s.Plies = b.Plies()
	}
	ply := b.t / float64(s.Plies)
	limit, err := b.BendLimit(b.Method(w), ply)
	if err != nil {
		b.faults.Add("bend.strain", b.Bend.Strain, "", "a limit for this material: "+err.Error(), spec.ErrBend)
		return
	}
	c := &s.Curve
	c.Plies = pliesOver(*s, 0, s.Sweep.NumSegments(), b.t, limit)
	c.FlatLength = c.Plies.Lengths[0]
	for i := range c.Arcs {
		a := &c.Arcs[i]
		a.Plies = pliesOver(*s, i, i+1, b.t, limit)
		a.FlatLength = a.Plies.Lengths[0]
	}
	if c.Plies.Use <= 1 {
		return
	}
	if s.Plies == 1 {
		b.faults.AddSize(path, w, fmt.Sprintf(
			"an inside radius of at least %s for %s bent as it is (%s), a thinner board or another method", b.faults.In.Up(limit.LeastRadius(ply)), b.faults.In.Thin(ply), limit.Source), spec.ErrBend)
		return
	}
	b.faults.Add("bend.ply.thickness", ply, "mm", b.thinner(*s, w), spec.ErrBend)
}

// thinner says which plies would take a curve.
func (b *builder) thinner(s curve.Section, w curve.Sweep) string {
	for s.Plies++; s.Plies <= spec.MaxPlies; s.Plies++ {
		ply := b.t / float64(s.Plies)
		limit, err := b.BendLimit(spec.Laminate, ply)
		if err == nil && pliesOver(s, 0, s.Sweep.NumSegments(), b.t, limit).Use <= 1 {
			return fmt.Sprintf("%v %s or less for this curve on its form (%s)", b.faults.In.Value(ply), b.faults.In.Unit, limit.Source)
		}
	}
	return "a flatter curve: no ply is thin enough for this one"
}

// pliesOver returns the plies of some segments of a section of thickness t.
func pliesOver(s curve.Section, from, to int, t float64, limit spec.BendLimit) curve.Plies {
	n := s.Plies
	p := curve.Plies{Count: n, Thickness: t / float64(n), Lengths: make([]float64, n)}
	for i := from; i < to; i++ {
		seg := s.Sweep.Segment(i)
		for k := range p.Lengths {
			p.Lengths[k] += seg.Length() * curve.Stretched(seg, s.Depth(t, float64(k)+0.5))
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
		if use := limit.Share(p.Thickness, inside); use > p.Use {
			p.Use = use
			p.Strain = p.Thickness / (2*inside + p.Thickness)
		}
	}
	return p
}
