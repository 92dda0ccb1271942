package place

import (
	"math/rand/v2"
	"slices"
	"sort"
)

const (
	wholeCopies = 60  // so many are improved together with all their containers
	rowCopies   = 70  // else so many, in some of the containers
	rowSweeps   = 400 // and for so long
	fullest     = 0.93
)

// An improver exchanges copies between the containers of a legal outcome, so
// that the last is emptied or gets shorter.
type improver struct {
	run    *fitRun
	items  []int32 // of each copy
	out    *outcome
	rng    *rand.Rand
	stream uint64
	rows   uint64
	sweeps int
	whole  *row // of all containers, where it is kept between legs
}

// spent returns the used part of the budget.
func (m *improver) spent() float64 {
	t := m.run.stop.used()
	if n := m.run.opt.Iterations; n > 0 {
		t = max(t, float64(m.sweeps)/float64(n))
	}
	if m.run.stop.done() {
		return 1
	}
	return t
}

// take makes an outcome the improver's own.
func (m *improver) take(o *outcome) {
	c := *o
	c.placed, c.left = slices.Clone(o.placed), slices.Clone(o.left)
	m.out, m.whole = &c, nil
}

// improve works until a share of the budget is spent.
func (m *improver) improve(share float64) {
	for m.spent() < share && len(m.out.placed) > 0 {
		if len(m.out.left) > 0 {
			m.insertLeft(share)
		}
		done := false
		if m.out.copies() <= wholeCopies || len(m.out.placed) == 1 {
			done = m.together(share)
		} else {
			m.some(share)
		}
		if done {
			return
		}
	}
}

func (o *outcome) copies() int {
	n := 0
	for _, f := range o.placed {
		n += len(f.copies)
	}
	return n
}

var firstEffort = effort{10, 1}

// together works on all containers. It is true when nothing can be gained any
// more.
func (m *improver) together(share float64) bool {
	if m.whole == nil {
		m.whole = m.newRow(m.out.placed)
		m.whole.effort, m.whole.stacks = firstEffort, len(m.out.placed) > 1
	}
	return m.work(m.whole, all(len(m.out.placed)), func(r *row) {
		r.explore(share, 1<<30)
	})
}

func all(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// work lets a row search and takes over what it made of the chosen containers.
// It is true where the row came to a length that cannot be less.
func (m *improver) work(r *row, chosen []int, search func(*row)) bool {
	before := r.sweeps
	search(r)
	m.sweeps += max(1, r.sweeps-before)
	r.reset()
	r.fresh = true // the last bay is whole again
	m.replace(chosen, r.split())
	return r.length <= r.floor()
}

// replace puts containers in the place of the chosen ones, which are in order.
func (m *improver) replace(chosen []int, fs []filled) {
	gone := map[int]bool{}
	for _, i := range chosen {
		gone[i] = true
	}
	var out []filled
	for i, f := range m.out.placed {
		if !gone[i] {
			out = append(out, f)
		}
	}
	for _, f := range fs {
		if len(f.copies) > 0 {
			out = append(out, f)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].site < out[b].site })
	m.out.placed = out
	if n := len(out); n > 0 {
		m.out.length = out[n-1].length
	}
}

// some works on the last container and a few others.
func (m *improver) some(share float64) {
	n := len(m.out.placed)
	order := m.rng.Perm(n - 1)
	chosen := []int{n - 1}
	copies := len(m.out.placed[n-1].copies)
	if m.rng.IntN(4) == 0 { // make room elsewhere
		chosen, copies = nil, 0
	}
	for _, i := range order {
		k := len(m.out.placed[i].copies)
		if len(chosen) >= 2 && copies+k > rowCopies {
			continue
		}
		chosen = append(chosen, i)
		copies += k
	}
	sort.Ints(chosen)
	var fs []filled
	for _, i := range chosen {
		fs = append(fs, m.out.placed[i])
	}
	r := m.newRow(fs)
	r.effort = effort{20, 1}
	m.work(r, chosen, func(r *row) {
		r.giveUp(share)
		r.explore(share, rowSweeps)
	})
}

// giveUp tries to do without the last container where the others have the area.
func (r *row) giveUp(share float64) {
	if others, copies, _ := r.shareOut(); copies > fullest*others {
		return
	}
	r.cap(share)
	if r.give() && r.separate(effort{60, 1}) {
		r.keepLegal()
		return
	}
	r.reset()
	r.resetWeights()
}

// insertLeft tries to put copies that are left over into some container.
func (m *improver) insertLeft(share float64) {
	tried := map[int32]bool{}
	for _, c := range slices.Clone(m.out.left) {
		if tried[m.items[c]] || m.spent() >= share {
			continue
		}
		tried[m.items[c]] = true
		k := m.rng.IntN(len(m.out.placed))
		f := m.out.placed[k]
		r := m.newRow([]filled{f}, c)
		n := len(r.copies) - 1
		r.cap(share)
		ok := false
		m.work(r, []int{k}, func(r *row) {
			if ok = r.drop(n, rowDrops, r.set) && r.separate(effort{60, 2}); ok {
				r.keepLegal()
			} else {
				r.absent[n] = true
			}
		})
		if ok {
			tried[m.items[c]] = false
			i := slices.Index(m.out.left, c)
			m.out.left = slices.Delete(m.out.left, i, i+1)
			m.out.missing = m.run.missing(m.out.left, m.items)
		}
	}
}

// lags reports whether the outcome is well behind another.
func (m *improver) lags(best *outcome) bool {
	o := m.out
	if o.missing != best.missing || len(o.placed) != len(best.placed) {
		return best.better(o)
	}
	return o.length > best.length*(1+lag)
}

// finish squeezes the last container, with others where there are few copies.
func (m *improver) finish(end shares) {
	if len(m.out.placed) == 0 {
		return
	}
	n := len(m.out.placed)
	chosen := all(n)
	if m.out.copies() > wholeCopies {
		chosen = chosen[n-1:]
	}
	var fs []filled
	for _, i := range chosen {
		fs = append(fs, m.out.placed[i])
	}
	r := m.newRow(fs)
	r.effort = effort{30, 2}
	m.work(r, chosen, func(r *row) {
		r.squeezeLast(end)
		if end.squeeze < 1 {
			r.tiltLast()
		}
		r.settle()
	})
}
