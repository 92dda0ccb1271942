package sheet

import (
	"example.com/sagitta/internal/num"
	"math"
	"slices"
)

// better compares two plans by the rule of [Nest].
func (r *run) better(a, b *plan) bool {
	return slices.Compare(r.score(a), r.score(b)) < 0
}

// priorities returns those of the group, each once, rising.
func (r *run) priorities() []int {
	out := make([]int, len(r.group.parts))
	for k, i := range r.group.parts {
		out[k] = r.parts[i].Priority
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// rank returns how many priorities of the group are lower than that of part k.
func (r *run) rank(k int) int {
	n, _ := slices.BinarySearch(r.priorities(), r.parts[r.group.parts[k]].Priority)
	return n
}

// score is less where a plan is better: area left out of each priority from the
// highest down, price, area of the sheets, area of the largest offcut, area of
// all.
func (r *run) score(p *plan) []float64 {
	ranks := r.priorities()
	slices.Reverse(ranks)
	score := make([]float64, len(ranks), len(ranks)+4)
	for k, c := range p.left {
		at := slices.Index(ranks, r.parts[r.group.parts[k]].Priority)
		score[at] += float64(len(c)) * r.areas[k]
	}
	price := r.price(p)
	largest, sum := 0.0, 0.0
	for _, sh := range p.sheets {
		for _, o := range offcuts(sh, r.parts, r.stock[sh.Stock], r.frame(sh.Stock, r.stock[sh.Stock]), r.opt) {
			largest = max(largest, o.Stock.Area())
			sum += o.Stock.Area()
		}
	}
	score = append(score, price[0], price[1], -largest, -sum)
	for i, v := range score {
		score[i] = num.Decimals(v, areaDecimals)
	}
	return score
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
		case r.tooLarge(p, k):
			why = TooLarge
		case r.late():
			why = NoTime
		case r.parts[i].Set != "":
			why = SetSplit
		}
		for _, c := range copies {
			out = append(out, Unplaced{i, c, why})
		}
	}
	return out
}

// tooLarge reports whether a part that a plan found no sheet for is too large
// for all. It is not said of one that has not been tried on outlines, because
// the time was over, and whose box goes into that of a sheet.
func (r *run) tooLarge(p *plan, k int) bool {
	return p.large[k] && !r.fits[k] && (r.tried[k] || r.straight || !r.mayFit(k))
}

// mayFit reports whether the box of a part goes into the box of some sheet, or
// a part of any angle may do so in some turn.
func (r *run) mayFit(k int) bool {
	p := r.parts[r.group.parts[k]]
	for _, i := range r.group.stock {
		b := r.stock[i].Shape().Bounds()
		l, w := b.Max.X-b.Min.X-2*r.opt.Margin, b.Max.Y-b.Min.Y-2*r.opt.Margin
		for _, a := range angles(p, r.stock[i]) {
			x, y := p.Size()
			if math.Abs(math.Sin(float64(a))) > 0.5 {
				x, y = y, x
			}
			if x <= l && y <= w || p.anyTurn() && math.Max(x, y) <= math.Hypot(l, w) {
				return true
			}
		}
	}
	return false
}
