package sheet

import (
	"example.com/sagitta/internal/num"
	"math"
	"slices"
)

// better compares two plans by the rule of [Nest].
func (r *run) better(a, b *plan) bool {
	x, y := r.score(a), r.score(b)
	return slices.Compare(x[:], y[:]) < 0
}

// rank returns how many priorities of the group are lower than that of part k.
func (r *run) rank(k int) int {
	var below []int
	for _, i := range r.group.parts {
		if q := r.parts[i].Priority; q < r.parts[r.group.parts[k]].Priority && !slices.Contains(below, q) {
			below = append(below, q)
		}
	}
	return len(below)
}

// weight makes a part of higher priority outweigh all that are lower.
func (r *run) weight(k int) float64 { return math.Pow(1e4, float64(min(20, r.rank(k)))) }

// score is less where a plan is better: area left out, price, area of the
// sheets, area of the largest offcut, area of all.
func (r *run) score(p *plan) [5]float64 {
	price := r.price(p)
	out := 0.0
	for k, c := range p.left {
		out += float64(len(c)) * r.areas[k] * r.weight(k)
	}
	largest, sum := 0.0, 0.0
	for _, sh := range p.sheets {
		for _, o := range offcuts(sh, r.parts, r.stock[sh.Stock], r.frame(sh.Stock, r.stock[sh.Stock]), r.opt) {
			largest = max(largest, o.Stock.Area())
			sum += o.Stock.Area()
		}
	}
	score := [5]float64{out, price[0], price[1], -largest, -sum}
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
