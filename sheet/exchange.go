package sheet

import (
	"cmp"
	"slices"
)

// improve exchanges parts between the sheets of a plan that have the same
// grain, the fullest of which come first, so that the last is emptied.
func (r *run) improve(best **plan, b budget) error {
	old := (*best).clone()
	slices.SortStableFunc(old.sheets, func(s, t Sheet) int {
		return -cmp.Compare(s.area(r.sizes)/r.stock[s.Stock].Area(), t.area(r.sizes)/r.stock[t.Stock].Area())
	})
	var by [2][]Sheet
	for _, s := range old.sheets {
		g := b2i(r.stock[s.Stock].GrainAcross)
		by[g] = append(by[g], s)
	}
	if len(by[0]) > 0 && len(by[1]) > 0 {
		b = b.part(2)
	}
	p := &plan{left: old.left, large: old.large}
	for _, sheets := range by {
		if len(sheets) == 0 {
			continue
		}
		q, err := r.exchange(sheets, p.left, b)
		if err != nil {
			return err
		}
		p.sheets, p.left = append(p.sheets, q.sheets...), q.left
	}
	if r.keepSets(p, r.copies()); len(p.sheets) > 0 {
		r.keep(best, p)
	}
	return nil
}

// exchange gives the engine sheets of one grain with what lies on them, and
// what is left over to put in. Sets stay on their sheets.
func (r *run) exchange(begin []Sheet, over [][]int, b budget) (*plan, error) {
	left := make([][]int, len(over))
	for k := range over {
		left[k] = slices.Clone(over[k])
	}
	pins := map[string]int{}
	kinds := make([]int, len(begin))
	for i, s := range begin {
		kinds[i] = s.Stock
		for k, c := range r.copiesOn(s) {
			left[k] = append(left[k], c...)
		}
		for _, q := range s.Placements {
			pins[r.parts[q.Part].Set] = i
		}
	}
	delete(pins, "")
	for k := range left {
		slices.Sort(left[k])
	}
	return r.fillPinned(left, kinds, pins, begin, b)
}

// downsize moves what lies on a sheet, the last first, to a cheaper one that
// is left, where it goes.
func (r *run) downsize(p *plan, fill filling, b budget) error {
	for i := len(p.sheets) - 1; i >= 0; i-- {
		for _, k := range r.cheaperStock(p, p.sheets[i]) {
			if r.late() {
				return nil
			}
			d := draw{[]int{k}, make([]int, len(r.stock))}
			d.avail[k] = 1
			q, err := fill(r.copiesOn(p.sheets[i]), d, b)
			if err != nil {
				return err
			}
			if r.done(q) {
				p.sheets[i] = q.sheets[0]
				break
			}
		}
	}
	return nil
}

// cheaperStock lists the kinds of which a sheet is left that is cheaper than
// that of s, or smaller at the same price, and large enough for its parts.
func (r *run) cheaperStock(p *plan, s Sheet) []int {
	var out []int
	old := r.stock[s.Stock]
	for _, k := range r.group.stock {
		t := r.stock[k]
		used := 0
		for _, o := range p.sheets {
			used += b2i(o.Stock == k)
		}
		saves := t.price() < old.price() || t.price() == old.price() && t.Area() < old.Area()
		if saves && (t.Count == 0 || used < t.Count) && s.area(r.sizes) <= fullest*t.Area() {
			out = append(out, k)
		}
	}
	return out
}
