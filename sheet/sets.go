package sheet

import "slices"

// keepSets takes off the sheets every set that is not wholly on one of them.
func (r *run) keepSets(p *plan) {
	for _, set := range r.sets() {
		if r.whole(p, set) {
			continue
		}
		for i := range p.sheets {
			p.sheets[i].Placements = slices.DeleteFunc(p.sheets[i].Placements, func(q Placement) bool { return r.parts[q.Part].Set == set })
		}
		for k, i := range r.group.parts {
			if r.parts[i].Set == set {
				p.left[k] = r.copies()[k]
			}
		}
	}
	p.sheets = slices.DeleteFunc(p.sheets, func(s Sheet) bool { return len(s.Placements) == 0 })
}

// sets lists the sets of the group.
func (r *run) sets() []string {
	var out []string
	for _, i := range r.group.parts {
		if s := r.parts[i].Set; s != "" && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// whole reports whether all of a set is on one sheet.
func (r *run) whole(p *plan, set string) bool {
	on := -1
	for i, s := range p.sheets {
		if slices.ContainsFunc(s.Placements, func(q Placement) bool { return r.parts[q.Part].Set == set }) {
			if on >= 0 {
				return false
			}
			on = i
		}
	}
	for k, i := range r.group.parts {
		if r.parts[i].Set == set && len(p.left[k]) > 0 {
			return false
		}
	}
	return true
}
