package sheet

import (
	"cmp"
	"slices"
)

// setsIn lists the sets that have copies left, by priority, then the largest
// area first.
func (r *run) setsIn(left [][]int) []string {
	areas, ranks := map[string]float64{}, map[string]int{}
	var out []string
	for k, copies := range left {
		set := r.parts[r.group.parts[k]].Set
		if set == "" || len(copies) == 0 {
			continue
		}
		rank := r.parts[r.group.parts[k]].Priority
		if !slices.Contains(out, set) {
			out = append(out, set)
			ranks[set] = rank
		}
		ranks[set] = max(ranks[set], rank)
		areas[set] += float64(len(copies)) * r.areas[k]
	}
	slices.SortStableFunc(out, func(a, b string) int {
		return -cmp.Or(cmp.Compare(ranks[a], ranks[b]), cmp.Compare(areas[a], areas[b]))
	})
	return out
}

// pin chooses a sheet of the list for each set: the first that its area does
// not load beyond a share; ok is false for a set that there is none for.
func (r *run) pin(left [][]int, sheets []int, share float64) map[string]int {
	pins := map[string]int{}
	load := make([]float64, len(sheets))
	for _, set := range r.setsIn(left) {
		a := r.setArea(left, set)
		for i, s := range sheets {
			if load[i]+a <= share*r.stock[s].Area() {
				pins[set] = i
				load[i] += a
				break
			}
		}
	}
	return pins
}

func (r *run) setArea(left [][]int, set string) float64 {
	sum := 0.0
	for k, copies := range left {
		if r.parts[r.group.parts[k]].Set == set {
			sum += float64(len(copies)) * r.areas[k]
		}
	}
	return sum
}

// fillSets is fill for copies of which some are in sets. Each set is pinned to
// a sheet and placed first there; where one does not go in whole, all are
// spread more thinly.
func (r *run) fillSets(left [][]int, sheets []int, b budget) (*plan, error) {
	shares := []float64{0.85, 0.65, 0.45}
	b = b.part(len(shares))
	var best *plan
	for _, share := range shares {
		p, err := r.fillPinned(left, sheets, r.pin(left, sheets, share), nil, b)
		if err != nil {
			return nil, err
		}
		broken := r.keepSets(p, left)
		if best == nil || r.better(p, best) {
			best = p
		}
		if broken == 0 || r.late() {
			break
		}
	}
	return best, nil
}

// keepSets takes off the sheets every set that is not wholly on one of them,
// puts it back to what is left, and returns how many there were.
func (r *run) keepSets(p *plan, left [][]int) (broken int) {
	for _, set := range r.setsIn(left) {
		in := func(q Placement) bool { return r.parts[q.Part].Set == set }
		if r.whole(p, set, in) {
			continue
		}
		broken++
		for i := range p.sheets {
			p.sheets[i].Placements = slices.DeleteFunc(p.sheets[i].Placements, in)
		}
		for k, i := range r.group.parts {
			if r.parts[i].Set == set {
				p.left[k] = left[k]
			}
		}
	}
	p.sheets = slices.DeleteFunc(p.sheets, func(s Sheet) bool { return len(s.Placements) == 0 })
	return broken
}

// whole reports whether all of a set is on one sheet.
func (r *run) whole(p *plan, set string, in func(Placement) bool) bool {
	on := 0
	for _, s := range p.sheets {
		if slices.ContainsFunc(s.Placements, in) {
			on++
		}
	}
	return on == 1 && r.setArea(p.left, set) == 0
}

// packInSets is packing for copies of which some are in sets: each set, and then
// each other copy, goes to the first sheet that can be packed anew with it.
func (r *run) packInSets(left [][]int, d draw, b budget, pack packing) *plan {
	p := r.nothing(slices.Clone(left))
	avail, out := slices.Clone(d.avail), make([][]int, len(left))
	b = b.part(4 * len(left))
	for _, set := range r.setsIn(left) {
		u := make([][]int, len(left))
		for k, i := range r.group.parts {
			if r.parts[i].Set == set {
				u[k], p.left[k] = left[k], nil
			}
		}
		if !r.join(p, u, b, pack) && !r.open(p, u, d.order, avail, b, pack) {
			for k := range u {
				out[k] = append(out[k], u[k]...)
			}
		}
	}
	for k := range left {
		r.packSingly(p, k, draw{d.order, avail}, b, pack)
		p.left[k] = append(slices.Clip(p.left[k]), out[k]...)
	}
	return p
}

// packSingly packs the copies of a part that are left into the sheets in use,
// and then into new ones.
func (r *run) packSingly(p *plan, k int, d draw, b budget, pack packing) {
	for i := range p.sheets {
		r.joinSome(p, i, k, b, pack)
	}
	one := make([][]int, len(p.left))
	for len(p.left[k]) > 0 {
		if one[k] = p.left[k][:1]; !r.open(p, one, d.order, d.avail, b, pack) {
			return
		}
		p.left[k] = p.left[k][1:]
		r.joinSome(p, len(p.sheets)-1, k, b, pack)
	}
}

// join packs copies into one of the sheets in use.
func (r *run) join(p *plan, u [][]int, b budget, pack packing) bool {
	for i := range p.sheets {
		if r.joinOn(p, i, u, b, pack) {
			return true
		}
	}
	return false
}

// joinOn packs copies into sheet i.
func (r *run) joinOn(p *plan, i int, u [][]int, b budget, pack packing) bool {
	both := r.copiesOn(p.sheets[i])
	for k := range both {
		both[k] = append(both[k], u[k]...)
	}
	sh, ok := r.packOne(both, p.sheets[i].Stock, b, pack)
	if ok {
		p.sheets[i] = sh
	}
	return ok
}

// joinSome packs as many of the copies of a part that are left into sheet i as
// it takes, in ever smaller lots.
func (r *run) joinSome(p *plan, i, k int, b budget, pack packing) {
	u := make([][]int, len(p.left))
	for n := len(p.left[k]); n > 0; n = min(n, len(p.left[k])) {
		if u[k] = p.left[k][:n]; r.joinOn(p, i, u, b, pack) {
			p.left[k] = p.left[k][n:]
		} else {
			n /= 2
		}
	}
}

// open packs copies into a new sheet.
func (r *run) open(p *plan, u [][]int, order, avail []int, b budget, pack packing) bool {
	for _, i := range order {
		if avail[i] == 0 {
			continue
		}
		if sh, ok := r.packOne(u, i, b, pack); ok {
			p.sheets = append(p.sheets, sh)
			avail[i]--
			return true
		}
	}
	return false
}

// packOne packs copies into one sheet.
func (r *run) packOne(copies [][]int, stock int, b budget, pack packing) (Sheet, bool) {
	if r.leftArea(copies) > r.stock[stock].Area() {
		return Sheet{}, false
	}
	sheets := r.packKind(copies, stock, pack, b)
	n := 0
	for _, c := range copies {
		n += len(c)
	}
	if len(sheets) != 1 || len(sheets[0].Placements) != n {
		return Sheet{}, false
	}
	return sheets[0], true
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
