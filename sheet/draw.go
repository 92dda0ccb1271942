package sheet

import (
	"cmp"
	"slices"
)

// A draw is a way to draw on the stock: kinds in order, and how many sheets of
// each there are; -1 is no limit.
type draw struct {
	order []int
	avail []int // by index in the list of stock
}

// cheapestFirst draws on all stock, the cheapest by area first.
func (r *run) cheapestFirst() draw {
	d := draw{order: r.group.stock, avail: make([]int, len(r.stock))}
	for _, i := range d.order {
		d.avail[i] = r.stock[i].Count
		if d.avail[i] == 0 {
			d.avail[i] = -1
		}
	}
	return d
}

const (
	maxDraws = 5    // ways tried after the first
	maxNodes = 5000 // of the enumeration of ways
	fullest  = 0.95 // use of sheets that is not hoped to be passed
)

// cheaperDraws lists ways to buy sheets that cost less than those of a plan in
// which all is placed, and have the area for the parts, the cheapest first. Of a
// single kind of sheets there are none: fewer of them are left to improve.
func (r *run) cheaperDraws(p *plan) []draw {
	if !r.done(p) || len(r.group.stock) < 2 {
		return nil
	}
	e := &enumeration{run: r, need: r.leftArea(r.copies()) / fullest, most: r.price(p), left: maxNodes}
	e.walk(0, make([]int, len(r.stock)), [2]float64{})
	slices.SortStableFunc(e.found, func(a, b bought) int { return slices.Compare(a.price[:], b.price[:]) })
	var out []draw
	for _, b := range e.found[:min(maxDraws, len(e.found))] {
		d := draw{avail: b.count}
		for _, i := range r.group.stock {
			if b.count[i] > 0 {
				d.order = append(d.order, i)
			}
		}
		// The last sheets are the ones that may stay part empty.
		slices.SortStableFunc(d.order, func(i, j int) int { return -cmp.Compare(r.stock[i].Area(), r.stock[j].Area()) })
		out = append(out, d)
	}
	return out
}

// price returns the price of the sheets of a plan, and their area.
func (r *run) price(p *plan) [2]float64 {
	var out [2]float64
	for _, s := range p.sheets {
		if st := r.stock[s.Stock]; !st.stands {
			out[0] += st.price()
			out[1] += st.Area()
		}
	}
	return out
}

// bought is a number of sheets of each kind with their price and area.
type bought struct {
	count []int
	price [2]float64
}

type enumeration struct {
	*run
	need  float64
	most  [2]float64
	left  int
	found []bought
}

// walk chooses how many sheets of kind k and the following to buy, stopping
// where the area is enough or the price too high.
func (e *enumeration) walk(k int, count []int, price [2]float64) {
	if e.left--; e.left < 0 || slices.Compare(price[:], e.most[:]) >= 0 {
		return
	}
	if price[1] >= e.need {
		e.found = append(e.found, bought{slices.Clone(count), price})
		return
	}
	if k == len(e.group.stock) {
		return
	}
	i := e.group.stock[k]
	s := e.run.stock[i]
	for n := 0; (s.Count == 0 || n <= s.Count) && n <= maxCopies; n++ {
		count[i] = n
		next := [2]float64{price[0] + float64(n)*s.price(), price[1] + float64(n)*s.Area()}
		if slices.Compare(next[:], e.most[:]) >= 0 || e.left < 0 {
			break
		}
		e.walk(k+1, count, next)
		if next[1] >= e.need {
			break
		}
	}
	count[i] = 0
}
