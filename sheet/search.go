package sheet

import (
	"slices"
	"time"
)

// search tries several ways to draw on the stock and keeps the best: the
// cheapest by area first, then each other kind first. At last it tries to put
// what lies on a sheet on a cheaper one.
func (r *run) search() (*plan, error) {
	if len(r.group.stock) == 0 {
		return &plan{left: r.copies(), large: make([]bool, len(r.group.parts))}, nil
	}
	orders := r.orders()
	b := budget{r.opt.Iterations / len(orders), r.opt.Time / time.Duration(len(orders))}
	b.iterations = max(b.iterations, min(1, r.opt.Iterations))
	var best *plan
	if r.plain() {
		b = budget{max(b.iterations/2, min(1, b.iterations)), b.time / 2}
		best = r.searchRects(r.freeRects)
	}
	for _, o := range orders {
		p, err := r.try(o, b)
		if err != nil {
			return nil, err
		}
		if p, err = r.cheaper(p, b); err != nil {
			return nil, err
		}
		if best == nil || r.better(p, best) {
			best = p
		}
		if r.late() {
			break
		}
	}
	return best, nil
}

// orders lists sequences of stock, at most six.
func (r *run) orders() [][]int {
	out := [][]int{r.group.stock}
	for i := 1; i < len(r.group.stock) && i < 6; i++ {
		o := []int{r.group.stock[i]}
		o = append(o, r.group.stock[:i]...)
		out = append(out, append(o, r.group.stock[i+1:]...))
	}
	return out
}

// try fills sheets of each kind in order until nothing is left or none can
// take more.
func (r *run) try(order []int, b budget) (*plan, error) {
	total := &plan{left: r.copies(), large: make([]bool, len(r.group.parts))}
	for k := range total.large {
		total.large[k] = true
	}
	used := make([]int, len(r.stock))
	for from := 0; from < len(order); {
		run, next := r.sheetsOf(order, from, used, total.left)
		if len(run) == 0 {
			from = next
			continue
		}
		p, err := r.fill(total.left, run, b)
		if err != nil {
			return nil, err
		}
		for _, s := range p.sheets {
			used[s.Stock]++
		}
		total.sheets = append(total.sheets, p.sheets...)
		total.left = p.left
		for k := range total.large {
			total.large[k] = total.large[k] && p.large[k]
		}
		if len(p.sheets) < len(run) || r.late() {
			from = next
		}
		if r.done(total) {
			break
		}
	}
	return total, nil
}

// sheetsOf lists enough sheets, of kinds from index from on that have the same
// grain, to hold what is left; next is the index of the first kind after them.
func (r *run) sheetsOf(order []int, from int, used []int, left [][]int) (sheets []int, next int) {
	copies, area := 0, 0.0
	for k := range left {
		copies += len(left[k])
		area += float64(len(left[k])) * r.areas[k]
	}
	for next = from; next < len(order) && r.stock[order[next]].GrainAcross == r.stock[order[from]].GrainAcross; next++ {
		s := r.stock[order[next]]
		n := min(copies, 2+int(area/s.Area()*2), 400)
		if s.Count > 0 {
			n = min(n, s.Count-used[order[next]])
		}
		for range n {
			sheets = append(sheets, order[next])
		}
	}
	return sheets, next
}

func (r *run) done(p *plan) bool {
	return !slices.ContainsFunc(p.left, func(c []int) bool { return len(c) > 0 })
}

// cheaper moves what lies on a sheet, the last first, to a cheaper one that is
// left, where it goes.
func (r *run) cheaper(p *plan, b budget) (*plan, error) {
	b = budget{max(min(1, b.iterations), b.iterations/4), b.time / 4}
	for i := len(p.sheets) - 1; i >= 0 && !r.late(); i-- {
		for _, k := range r.cheaperStock(p, p.sheets[i]) {
			if r.late() {
				return p, nil
			}
			q, err := r.fill(r.copiesOn(p.sheets[i]), []int{k}, b)
			if err != nil {
				return nil, err
			}
			if r.done(q) && len(q.sheets) == 1 {
				p.sheets[i] = q.sheets[0]
				break
			}
		}
	}
	return p, nil
}

func (s Sheet) area(parts []Part) float64 {
	sum := 0.0
	for _, p := range s.Placements {
		sum += parts[p.Part].Outline.Area()
	}
	return sum
}

// copiesOn lists the copies of each part of the group on a sheet.
func (r *run) copiesOn(s Sheet) [][]int {
	out := make([][]int, len(r.group.parts))
	for _, p := range s.Placements {
		k := slices.Index(r.group.parts, p.Part)
		out[k] = append(out[k], p.Copy)
	}
	return out
}

// better compares two plans by the rule of [Nest].
func (r *run) better(a, b *plan) bool {
	x, y := r.score(a), r.score(b)
	return slices.Compare(x[:], y[:]) < 0
}

func (r *run) score(p *plan) [4]float64 {
	var s [4]float64
	for k, c := range p.left {
		s[0] += float64(len(c)) * r.areas[k]
	}
	largest := 0.0
	for _, sh := range p.sheets {
		st := r.stock[sh.Stock]
		s[1] += st.Price
		s[2] += st.Area()
		for _, o := range offcuts(sh, r.parts, st, r.opt) {
			largest = max(largest, o.Stock.Area())
		}
	}
	s[3] = -largest
	return s
}

// unplaced lists what a plan left out, with the reasons.
func (r *run) unplaced(p *plan) []Unplaced {
	var out []Unplaced
	for k, copies := range p.left {
		i := r.group.parts[k]
		why := NoRoom
		switch {
		case len(r.group.stock) == 0:
			why = NoStock
		case !slices.ContainsFunc(r.group.stock, func(j int) bool { return len(angles(r.parts[i], r.stock[j])) > 0 }):
			why = WrongTurn
		case p.large[k]:
			why = TooLarge
		case r.parts[i].Set != "":
			why = SetSplit
		}
		for _, c := range copies {
			out = append(out, Unplaced{i, c, why})
		}
	}
	return out
}

// searchRects packs rectangles with each kind of stock first in turn and keeps
// the best.
func (r *run) searchRects(pack rectPacker) *plan {
	if len(r.group.stock) == 0 {
		return &plan{left: r.copies(), large: make([]bool, len(r.group.parts))}
	}
	orders := r.orders()
	b := budget{r.opt.Iterations / len(orders), r.opt.Time / time.Duration(len(orders))}
	b.iterations = max(b.iterations, min(1, r.opt.Iterations))
	var best *plan
	for _, o := range orders {
		p := r.packRects(o, b, pack)
		r.smallerRects(p, b, pack)
		if best == nil || r.better(p, best) {
			best = p
		}
	}
	return best
}

// smallerRects moves what lies on a sheet to a cheaper one where it goes.
func (r *run) smallerRects(p *plan, b budget, pack rectPacker) {
	for i := len(p.sheets) - 1; i >= 0; i-- {
		for _, k := range r.cheaperStock(p, p.sheets[i]) {
			q := &plan{left: r.copiesOn(p.sheets[i]), large: make([]bool, len(r.group.parts))}
			if n := r.packKind(q, k, pack, b, 0.1); len(n) == 1 && len(n[0].Placements) == len(p.sheets[i].Placements) {
				p.sheets[i] = n[0]
				break
			}
		}
	}
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
			if o.Stock == k {
				used++
			}
		}
		saves := t.Price < old.Price || t.Price == old.Price && t.Area() < old.Area()
		if saves && (t.Count == 0 || used < t.Count) && s.area(r.parts) <= t.Area() {
			out = append(out, k)
		}
	}
	return out
}
