package sheet

import (
	"slices"
	"time"
)

const (
	allKinds  = 6   // of stock: of so many every choice of some is tried that may be cheaper
	withShare = 0.7 // of the time for all kinds together, where there are several
	fewerRuns = 4   // within a limit of time
)

// searchKinds finds a plan with all the stock of the group, and then with some
// kinds of it only, as though the others were not offered, where the bare area
// of the parts allows that to be better. So a layout never gets dearer by stock
// that is offered beside, which is certain for up to allKinds kinds and a
// budget of iterations.
func (r *run) searchKinds(find func(*run) (*plan, error)) (*plan, error) {
	if len(r.group.stock) < 2 {
		return find(r)
	}
	whole, end := r.opt, r.end
	if !end.IsZero() {
		r.opt.Time = time.Duration(withShare * float64(whole.Time))
		r.end = r.begin.Add(r.opt.Time)
	}
	best, err := find(r)
	r.opt.Time, r.end = whole.Time, end
	if err != nil {
		return nil, err
	}
	some := r.fewer()
	if !end.IsZero() {
		some = some[:min(fewerRuns, len(some))]
	}
	for i, kinds := range some {
		if r.late() || !r.mayGain(best, kinds) {
			continue
		}
		opt := whole
		if !end.IsZero() {
			opt.Time = max(time.Millisecond, end.Sub(r.opt.now())/time.Duration(len(some)-i))
		}
		p, err := r.with(kinds, opt, find)
		if err != nil {
			return nil, err
		}
		r.keep(&best, p)
	}
	return best, nil
}

// with finds a plan with some kinds of stock only.
func (r *run) with(kinds []int, opt Options, find func(*run) (*plan, error)) (*plan, error) {
	s := newRun(r.ctx, r.parts, r.stock, group{r.group.parts, kinds}, opt)
	s.before, s.windows, s.frame, s.straight, s.saw, s.rival = r.before, r.windows, r.frame, r.straight, r.saw, r.best
	s.before.Iterations += r.iterations
	if r.gained != nil {
		s.gained = func() {
			if r.better(s.best, r.best) {
				r.gainedBy(s.best)
			}
		}
	}
	p, err := find(s)
	r.iterations += s.iterations
	return p, err
}

// fewer lists choices of some kinds: all that there are or, of many kinds, the
// single ones and those without one.
func (r *run) fewer() (out [][]int) {
	n := len(r.group.stock)
	for set := uint64(1); n <= allKinds && set < 1<<n-1; set++ {
		var kinds []int
		for i, k := range r.group.stock {
			if set>>i&1 == 1 {
				kinds = append(kinds, k)
			}
		}
		out = append(out, kinds)
	}
	for i := 0; n > allKinds && i < n; i++ {
		out = append(out, r.group.stock[i:i+1:i+1], slices.Delete(slices.Clone(r.group.stock), i, i+1))
	}
	slices.SortStableFunc(out, func(a, b []int) int { return len(a) - len(b) })
	return out
}

// mayGain reports whether some kinds of stock could do better than a plan: have
// the area to place more, or what it places for less.
func (r *run) mayGain(p *plan, kinds []int) bool {
	need, done := r.leftArea(r.copies()), true
	for k := range p.left {
		if r.tooLarge(p, k) {
			need -= float64(len(p.left[k])) * r.areas[k]
		} else if len(p.left[k]) > 0 {
			done = false
		}
	}
	if !done {
		return r.areaOf(kinds) > need-r.leftArea(p.left)
	}
	part := *r
	part.group.stock = kinds
	e := &enumeration{run: &part, need: need, most: r.price(p), left: maxNodes}
	e.walk(0, make([]int, len(r.stock)), [2]float64{})
	return len(e.found) > 0 || e.left < 0
}

// areaOf returns the area of all sheets of some kinds, no less than that of the
// parts where there are as many as needed.
func (r *run) areaOf(kinds []int) float64 {
	sum := 0.0
	for _, k := range kinds {
		n := r.stock[k].Count
		if n == 0 {
			n = maxCopies
		}
		sum += float64(n) * r.stock[k].Area()
	}
	return sum
}
