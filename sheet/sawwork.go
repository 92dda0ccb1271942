package sheet

import (
	"math"
	"slices"
)

// sawWork is what it takes to cut sheets.
type sawWork struct {
	stacks [][]int
	widths int
	cost   float64
}

// weighs reports whether there is a choice to make by the work.
func (s Saw) weighs() bool { return s.CutCost > 0 || s.TurnCost > 0 || s.RipCost > 0 }

// workOf stacks equal sheets and adds up what the cuts cost.
func (s Saw) workOf(sheets []Sheet, cuts [][]SawCut) (w sawWork) {
	var widths []float64
	for i := range sheets {
		k := slices.IndexFunc(w.stacks, func(st []int) bool {
			return len(st) < s.Stack && sheets[st[0]].Stock == sheets[i].Stock && sameCuts(cuts[st[0]], cuts[i])
		})
		if k >= 0 {
			w.stacks[k] = append(w.stacks[k], i)
			continue
		}
		w.stacks = append(w.stacks, []int{i})
		w.cost += s.CutCost * float64(len(cuts[i]))
		for _, c := range cuts[i] {
			w.cost += s.TurnCost * float64(b2i(c.Turn))
		}
		widths = addWidths(widths, cuts[i])
	}
	w.widths = len(widths)
	w.cost += s.RipCost * float64(w.widths)
	return w
}

func sameCuts(a, b []SawCut) bool {
	const e = 1e-6
	return slices.EqualFunc(a, b, func(c, d SawCut) bool {
		return c.Stage == d.Stage && c.AlongX == d.AlongX && c.Turn == d.Turn && math.Abs(c.At-d.At) < e && math.Abs(c.From-d.From) < e && math.Abs(c.To-d.To) < e
	})
}

// prefers is better, but for a saw: what it cannot cut is no better than
// anything, and where its work is weighed, price and work count together.
func (r *run) prefers(a, b *plan) bool {
	if r.saw == nil || !r.saw.weighs() && r.saw.LongestRip == 0 {
		return r.better(a, b)
	}
	x, can := r.sawn(a)
	if !can {
		return false
	}
	y, could := r.sawn(b)
	if !could {
		return true
	}
	same := func(p, q []int) bool { return len(p) == len(q) }
	if v, w := r.price(a)[0]+x.cost, r.price(b)[0]+y.cost; v != w && slices.EqualFunc(a.left, b.left, same) {
		return v < w
	}
	return r.better(a, b)
}

// sawn returns the work of a plan; ok is false where the saw cannot do it.
func (r *run) sawn(p *plan) (w sawWork, ok bool) {
	cuts := make([][]SawCut, len(p.sheets))
	for i, s := range p.sheets {
		w, _ := r.window(s.Stock)
		if cuts[i], _, ok = r.saw.cuts(s, r.parts, r.stock[s.Stock].Shape().Bounds(), w); !ok {
			return sawWork{}, false
		}
	}
	return r.saw.workOf(p.sheets, cuts), true
}

// variant returns the saw with fewer stages or one direction, as it may be, so
// that layouts differ in what they take to cut.
func (s Saw) variant(k int) Saw {
	if !s.weighs() {
		return s
	}
	if s.Stages == 0 && k%2 == 1 {
		s.Stages = 2
	}
	if s.First == EitherWay && s.LongestRip == 0 {
		s.First = Direction(k / 2 % 3)
	}
	return s
}
