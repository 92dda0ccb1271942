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

// packInSets is packing for copies of which some are in sets: each set, and
// then each other copy, goes to the first sheet that can be packed anew with it.
func (r *run) packInSets(left [][]int, d draw, b budget, pack packing) *plan {
	p := r.nothing(make([][]int, len(left)))
	units := r.units(left)
	avail := slices.Clone(d.avail)
	b = b.part(len(units) * 4)
	for _, u := range units {
		if r.join(p, u, b, pack) || r.open(p, u, d.order, avail, b, pack) {
			continue
		}
		for k := range u {
			p.left[k] = append(p.left[k], u[k]...)
		}
	}
	return p
}

// units lists what has to be placed together: the sets, then single copies.
func (r *run) units(left [][]int) [][][]int {
	var out [][][]int
	for _, set := range r.setsIn(left) {
		u := make([][]int, len(left))
		for k, i := range r.group.parts {
			if r.parts[i].Set == set {
				u[k] = left[k]
			}
		}
		out = append(out, u)
	}
	for k, copies := range left {
		if r.parts[r.group.parts[k]].Set != "" {
			continue
		}
		for _, c := range copies {
			u := make([][]int, len(left))
			u[k] = []int{c}
			out = append(out, u)
		}
	}
	return out
}

// join packs a unit into one of the sheets in use.
func (r *run) join(p *plan, u [][]int, b budget, pack packing) bool {
	for i, s := range p.sheets {
		both := r.copiesOn(s)
		for k := range both {
			both[k] = append(both[k], u[k]...)
		}
		if sh, ok := r.packOne(both, s.Stock, b, pack); ok {
			p.sheets[i] = sh
			return true
		}
	}
	return false
}

// open packs a unit into a new sheet.
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
