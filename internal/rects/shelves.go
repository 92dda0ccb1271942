package rects

import (
	"cmp"
	"slices"
)

// A halt says now and then whether a long filling has to end.
type halt struct {
	stop  Stop
	work  int
	ended bool
}

const haltWork = 4096 // items looked at between two questions

// over counts n more items.
func (h *halt) over(n int) bool {
	if h == nil {
		return false
	}
	if h.work += n; h.work >= haltWork {
		h.work = 0
		h.ended = h.ended || h.stop.over()
	}
	return h.ended
}

type shelf struct {
	bin     int
	x, y, h float64
}

// shelves packs in hardly any time: from high to low, each item on the first
// shelf that has room, the shelves along the width or, where side is set, along
// the height of the bins (Coffman et al. 1980). Every saw can cut that.
func shelves(items []Item, bin Size, side bool) [][]Placed {
	if side {
		bin.W, bin.H = bin.H, bin.W
	}
	lying := make([]Placed, 0, len(items))
	for id := range items {
		if p, ok := lay(items[id], bin, side); ok {
			p.Item = id
			lying = append(lying, p)
		}
	}
	slices.SortStableFunc(lying, func(a, b Placed) int { return -cmp.Compare(a.H, b.H) })
	var all []shelf
	var tops []float64 // of the shelves of each bin
	var out [][]Placed
	e := slack(bin)
	for _, p := range lying {
		k := slices.IndexFunc(all, func(s shelf) bool { return s.x+p.W <= bin.W+e })
		if k < 0 {
			b := slices.IndexFunc(tops, func(t float64) bool { return t+p.H <= bin.H+e })
			if b < 0 {
				b = len(tops)
				tops, out = append(tops, 0), append(out, nil)
			}
			k = len(all)
			all = append(all, shelf{b, 0, tops[b], p.H})
			tops[b] += p.H
		}
		s := &all[k]
		p.X, p.Y = s.x, s.y
		s.x += p.W
		if side {
			p.X, p.Y, p.W, p.H = p.Y, p.X, p.H, p.W
		}
		out[s.bin] = append(out[s.bin], p)
	}
	return out
}

// lay returns an item as it fits a bin, the lower way if it fits both.
func lay(it Item, bin Size, side bool) (best Placed, ok bool) {
	w, n := ways(it, side)
	e := slack(bin)
	for i := range n {
		if w[i].W <= bin.W+e && w[i].H <= bin.H+e && (!ok || w[i].H < best.H) {
			best, ok = Placed{W: w[i].W, H: w[i].H, Turned: i == 1}, true
		}
	}
	return best, ok
}
