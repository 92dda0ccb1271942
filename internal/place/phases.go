package place

import (
	"math"
	"sort"
)

const (
	exploreShare = 0.8  // of the budget; the rest squeezes
	legs         = 8    // of the exploration; between them lanes that lag take over the best
	lag          = 2e-3 // of the length
	firstShrink  = 0.01 // largest step of the length
	lastShrink   = 1e-3 // the step where the budget is large enough for many
	haste        = 3    // step by the share of the budget that the last one took: 0.3 of the length in 0.1 of the budget
)

// A shortener makes the used length of a legal layout as small as it can.
type shortener struct {
	*lane
	legal  layout // shortest legal layout
	length float64
	report func(*shortener)
	begin  int     // sweeps before the start
	iters  int     // sweeps that may be used; 0: no limit
	since  float64 // share of the time at the start
	until  float64 // and at the end
	bound  float64 // see least
	shrink float64 // present step of the exploration
	fresh  bool    // it starts from the legal layout
	pool   []failure
}

func (l *shortener) keep() {
	l.legal.copyFrom(l.layout)
	l.length = l.used()
	l.report(l)
}

// spent returns the used part of the budget.
func (l *shortener) spent() float64 {
	t := (l.stop.used() - l.since) / (l.until - l.since)
	if l.iters > 0 {
		t = math.Max(t, float64(l.sweeps-l.begin)/float64(l.iters))
	}
	if l.stop.done() {
		return 1
	}
	return t
}

// phase makes separations end with the given share of the sweeps.
func (l *shortener) phase(share float64) {
	if l.iters > 0 {
		l.limit = l.begin + int(share*float64(l.iters))
	}
}

// explore shortens the strip step by step until the given share of the budget
// is spent. Where the separation fails, it disturbs one of the nearly legal
// layouts met and tries again.
func (l *shortener) explore(share float64) {
	l.phase(share)
	if l.shrink == 0 {
		l.shrink, l.fresh = firstShrink, true
	}
	begin := l.spent()
	for l.spent() < share && l.length > l.least() {
		if l.fresh {
			begin = l.spent()
			l.restore(l.legal)
			l.shorten(l.length * (1 - l.shrink))
			l.pool, l.fresh = l.pool[:0], false
		}
		switch {
		case l.separate(l.effort()):
			l.keep()
			l.fresh = true
			l.shrink = math.Min(l.shrink, math.Max(lastShrink, haste*(l.spent()-begin)))
		case l.shrink > lastShrink:
			l.shrink, l.fresh = math.Max(l.shrink/2, lastShrink), true
			l.resetWeights()
		default:
			l.retry()
		}
	}
}

// effort grows with the sweeps that the budget is likely to allow.
func (l *shortener) effort() effort {
	total := float64(l.sweeps-l.begin) / math.Max(l.spent(), 1e-9)
	return effort{int(math.Max(minPatience, math.Min(maxPatience, total/patienceOf))), strikes}
}

// retry disturbs one of the failed layouts, one of little overlap rather.
func (l *shortener) retry() {
	l.pool = append(l.pool, failure{l.layout.clone(), l.total()})
	sort.SliceStable(l.pool, func(i, j int) bool { return l.pool[i].loss < l.pool[j].loss })
	l.pool = l.pool[:min(len(l.pool), maxPool)]
	k := int(math.Abs(l.rng.NormFloat64()) * 0.25 * float64(len(l.pool)))
	l.restore(l.pool[min(k, len(l.pool)-1)].layout)
	l.disturb()
}

const maxPool = 100

// least is a length that no layout can go under.
func (l *shortener) least() float64 {
	if l.bound == 0 {
		area := 0.0
		for i, it := range l.item[:l.movable] {
			wide := math.Inf(1)
			if l.p.items[it].AnyRotation {
				wide = 0
			}
			for _, o := range l.p.turns[it] {
				if b := l.p.shapes[o].box; float64(b.y1-b.y0) <= l.h {
					wide = math.Min(wide, float64(b.x1-b.x0))
				}
			}
			l.bound = math.Max(l.bound, wide)
			area += l.p.shapes[l.o[i]].space
		}
		l.bound = math.Max(l.bound, math.Ceil(area/l.h))
	}
	return l.bound
}

type failure struct {
	layout
	loss float64
}

// disturb swaps two large copies of different items and forgets the weights.
func (l *shortener) disturb() {
	l.resetWeights()
	n := l.movable
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return l.size(order[a]) > l.size(order[b]) })
	sum := 0.0
	for _, i := range order {
		sum += float64(l.size(i) * l.size(i))
	}
	large, acc := 0, 0.0
	for large < n && acc < 0.75*sum {
		acc += float64(l.size(order[large]) * l.size(order[large]))
		large++
	}
	large = max(2, large)
	if large > n {
		return
	}
	for range 20 {
		i, j := order[l.rng.IntN(large)], order[l.rng.IntN(large)]
		if l.item[i] != l.item[j] {
			l.swap(i, j)
			return
		}
	}
}

func (l *lane) size(i int) float64 { return l.p.shapes[l.o[i]].weight }

// swap exchanges the centers of two copies.
func (l *shortener) swap(i, j int) {
	a, b := l.boxes[i], l.boxes[j]
	dx, dy := (b.x0+b.x1-a.x0-a.x1)/2, (b.y0+b.y1-a.y0-a.y1)/2
	if x, y, ok := l.inside(l.o[i], l.x[i]+dx, l.y[i]+dy); ok {
		l.set(i, l.o[i], x, y)
	}
	if x, y, ok := l.inside(l.o[j], l.x[j]-dx, l.y[j]-dy); ok {
		l.set(j, l.o[j], x, y)
	}
	l.measure()
}

// shorten makes the strip end at w, but not under the bound: copies right of a
// random line move left by what is missing.
func (l *shortener) shorten(w float64) {
	l.w = math.Max(math.Floor(w), l.least())
	d := l.used() - l.w
	cut := l.rng.Float64() * l.w
	for i, b := range l.boxes[:l.movable] {
		x := l.x[i]
		if (b.x0+b.x1)/2 > cut {
			x -= d
		}
		l.setInside(i, x, l.y[i])
	}
	l.measure()
}

// setInside moves copy i to a place in the rectangle, in another turn if it
// is too large in its own. It fails where it is in all.
func (l *lane) setInside(i int, x, y float64) bool {
	for k := range len(l.turns(i)) + 1 {
		o := l.o[i]
		if k > 0 {
			o = l.turns(i)[k-1]
		}
		if nx, ny, ok := l.inside(o, x, y); ok {
			l.set(i, o, nx, ny)
			return true
		}
	}
	return false
}

// squeeze shortens the best layout in ever smaller steps.
func (l *shortener) squeeze() {
	from, to := l.p.shares()
	l.phase(to)
	const first, last = 5e-4, 1e-5
	for {
		t := l.spent()
		if t >= to || l.length <= l.least() {
			return
		}
		t = math.Max(0, (t-from)/(to-from))
		step := first * math.Pow(last/first, t)
		l.tighten(step, effort{100, 5})
	}
}

// tighten tries to shorten the legal layout by a share.
func (l *shortener) tighten(share float64, e effort) bool {
	l.restore(l.legal)
	l.resetWeights()
	l.shorten(l.length * (1 - share))
	if !l.separate(e) || l.used() >= l.length {
		return false
	}
	l.keep()
	return true
}
