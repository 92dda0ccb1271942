package sheet

import (
	"slices"
	"time"
)

// A filling places copies on sheets as a draw on the stock allows.
type filling func(left [][]int, d draw, b budget) (*plan, error)

// search packs bounding boxes first, which takes no time and leaves a layout
// to fall back on, and where there are many copies boxes of some that reach
// into each other. Then it fills the cheapest sheets with true outlines, tries
// every cheaper choice of sheets that has the area, moves what lies on a sheet
// to a cheaper one where it goes, and spends what is left of the budget on
// exchanges between the sheets it came to. What is left out is tried where
// arcs touch, before and after, and put where there is plain room for it; while
// there is time it begins again with the exchanges.
func (r *run) search() (*plan, error) { return r.searchKinds((*run).searchSheets) }

func (r *run) searchSheets() (*plan, error) {
	best, err := r.searchOutlines()
	if err != nil {
		return best, err
	}
	r.touch(&best, 1)
	r.keep(&best, r.insert(best))
	for r.again(best) {
		if err := r.improveAgain(&best); err != nil {
			return best, err
		}
	}
	return best, nil
}

// again reports whether a search that is over with time to spare has a reason
// to go on: something is left out that goes on an empty sheet.
func (r *run) again(p *plan) bool {
	if r.end.IsZero() || r.late() || len(p.sheets) == 0 {
		return false
	}
	for k := range p.left {
		if len(p.left[k]) > 0 && !r.tooLarge(p, k) {
			return true
		}
	}
	return false
}

// improveAgain exchanges parts from another seed.
func (r *run) improveAgain(best **plan) error {
	r.opt.Seed++
	if err := r.improve(best, budget{r.opt.Iterations, r.opt.Time / 4}); err != nil {
		return err
	}
	r.keep(best, r.insert(*best))
	return nil
}

func (r *run) searchOutlines() (*plan, error) {
	best := r.nothing(r.copies())
	if len(r.group.stock) == 0 {
		return best, nil
	}
	b := budget{r.opt.Iterations, r.opt.Time}
	boxes := r.rectangles(packing{rectPacker: freeRects})
	first := budget{}
	if b.time > 0 && b.iterations == 0 {
		first = budget{1, b.time / 32}
	}
	if r.plain() { // nothing is lost then, and orders are tried quickly
		b = b.part(4)
		first = budget{3 * b.iterations, 3 * b.time}
	}
	if err := r.searchWith(&best, boxes, first); err != nil || r.late() {
		return best, err
	}
	anew := 2 // part of the budget for sheets that are filled without regard to the best
	if r.count() > joinFrom && !r.plain() {
		if err := r.searchWith(&best, r.rectangles(packing{freeRects, true}), b.part(8)); err != nil || r.late() {
			return best, err
		}
		anew = 4
	}
	r.touch(&best, touchShare)
	if err := r.searchWith(&best, r.outlines, b.part(anew)); err != nil || r.late() {
		return best, err
	}
	r.opt.Seed++
	end := r.end
	if !end.IsZero() && r.mayTouch() {
		r.end = end.Add(-r.opt.Time / touchRest)
	}
	err := r.improve(&best, budget{b.iterations, r.opt.Time})
	r.end = end
	return best, err
}

// searchWith improves on a plan by one way of filling sheets.
func (r *run) searchWith(best **plan, fill filling, b budget) error {
	p, err := fill(r.copies(), r.cheapestFirst(), b.part(2))
	if err != nil {
		return err
	}
	r.keep(best, p)
	draws := r.cheaperDraws(*best)
	for _, d := range draws {
		if r.late() {
			return nil
		}
		p, err := fill(r.copies(), d, b.part(2*len(draws)))
		if err != nil {
			return err
		}
		if r.keep(best, p) {
			break // the draws come cheapest first
		}
	}
	p = (*best).clone()
	if err := r.downsize(p, fill, b.part(8)); err != nil {
		return err
	}
	r.keep(best, p)
	return nil
}

// keep makes p the best plan where it is better than that.
func (r *run) keep(best **plan, p *plan) bool {
	if !r.prefers(p, *best) {
		return false
	}
	old := *best
	r.trail = append(r.trail, old)
	*best, r.best = p, p
	r.report(old)
	if r.gained != nil {
		r.gained()
	}
	return true
}

// part returns the n-th part of a budget, and of iterations at least one.
func (b budget) part(n int) budget {
	return budget{max(b.iterations/n, min(1, b.iterations)), b.time / time.Duration(n)}
}

// nothing is the plan that places none of the copies.
func (r *run) nothing(left [][]int) *plan {
	p := &plan{left: slices.Clone(left), large: make([]bool, len(r.group.parts))}
	for k := range p.large {
		p.large[k] = true
	}
	return p
}

// outlines fills sheets with true outlines, kind after kind, until nothing is
// left or none can take more.
func (r *run) outlines(left [][]int, d draw, b budget) (*plan, error) {
	total := r.nothing(left)
	avail := slices.Clone(d.avail)
	for from := 0; from < len(d.order) && !r.done(total) && (from == 0 || !r.late()); {
		sheets, next := r.sheetsOf(d.order, from, avail, total.left)
		if len(sheets) == 0 {
			from = next
			continue
		}
		p, err := r.fill(total.left, sheets, b)
		if err != nil {
			return nil, err
		}
		for _, s := range p.sheets {
			avail[s.Stock]--
		}
		total.sheets = append(total.sheets, p.sheets...)
		total.left = p.left
		for k := range total.large {
			total.large[k] = total.large[k] && p.large[k]
		}
		if len(p.sheets) < len(sheets) {
			from = next
		}
	}
	if r.late() && !r.done(total) {
		return r.complete(total, d.order, avail)
	}
	return total, nil
}

// complete places as bounding boxes what a search that was stopped left over.
func (r *run) complete(p *plan, order, avail []int) (*plan, error) {
	rest, err := r.rectangles(packing{rectPacker: freeRects})(p.left, draw{order, avail}, budget{})
	if err != nil {
		return nil, err
	}
	p.sheets = append(p.sheets, rest.sheets...)
	p.left = rest.left
	for k := range p.large {
		p.large[k] = p.large[k] && rest.large[k]
	}
	return p, nil
}

// sheetsOf lists enough sheets, of kinds from index from on that have the same
// grain, to hold what is left; next is the index of the first kind after them.
func (r *run) sheetsOf(order []int, from int, avail []int, left [][]int) (sheets []int, next int) {
	copies := 0
	for k := range left {
		copies += len(left[k])
	}
	area := r.leftArea(left)
	for next = from; next < len(order) && r.stock[order[next]].GrainAcross == r.stock[order[from]].GrainAcross; next++ {
		i := order[next]
		n := min(copies, 2+int(area/r.stock[i].Area()*2), 400)
		if avail[i] >= 0 {
			n = min(n, avail[i])
		}
		for range n {
			sheets = append(sheets, i)
		}
	}
	return sheets, next
}

func (r *run) leftArea(left [][]int) float64 {
	sum := 0.0
	for k := range left {
		sum += float64(len(left[k])) * r.areas[k]
	}
	return sum
}

func (r *run) done(p *plan) bool {
	return !slices.ContainsFunc(p.left, func(c []int) bool { return len(c) > 0 })
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

// area returns the area of what lies on a sheet, from those of all parts.
func (s Sheet) area(sizes []float64) float64 {
	sum := 0.0
	for _, p := range s.Placements {
		sum += sizes[p.Part]
	}
	return sum
}
