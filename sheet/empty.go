package sheet

import (
	"math"

	"example.com/sagitta/sheet/internal/clear"
)

// emptied returns a plan without the sheet that holds the least, if all on it
// finds places on the others, and else the plan itself.
func (r *run) emptied(p *plan, late func() bool) *plan {
	last := 0
	for i, s := range p.sheets {
		if s.area(r.sizes) < p.sheets[last].area(r.sizes) {
			last = i
		}
	}
	t := &toucher{run: r, late: late, draw: r.cheapestFirst()}
	for i, s := range p.sheets {
		if i != last {
			t.open(s)
		}
	}
	for _, q := range p.sheets[last].Placements {
		if r.parts[q.Part].Set != "" || !t.putOpen(q.Part, q.Copy) {
			return p
		}
	}
	out := *p
	out.sheets = nil
	for _, s := range t.sheets {
		out.sheets = append(out.sheets, s.Sheet)
	}
	return &out
}

// mayTouch reports whether there is something to gain by arcs that touch: few
// copies, and among them discs, or arcs that fit others of their center.
func (r *run) mayTouch() bool {
	if r.count() > touchCopies {
		return false
	}
	var all []clear.Round
	for _, i := range r.group.parts {
		g := r.parts[i].Outline
		if _, ok := clear.Disc(g); ok {
			return true
		}
		all = append(all, clear.RoundsOf(g, 0)...)
	}
	for _, a := range all {
		for _, b := range all {
			if !a.Hollow && b.Hollow && math.Abs(b.R-a.R-r.opt.Gap) < touchSlack*r.opt.tolerance() {
				return true
			}
		}
	}
	return false
}
