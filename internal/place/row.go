package place

import (
	"math"
	"sort"
	"time"
)

const scatterOdds = 3 // one in so many trials at a length begins anew

// A row is a search over the copies of some containers at once. It shortens
// the last of them: what no longer fits there overlaps at first and is driven
// into the others, or part against part.
type row struct {
	*shortener
	copies []int32
	room   []bay   // bays of the legal layout
	slim   float64 // least width of any copy
	effort effort
	stacks bool // it tries last bays of boxes
}

// newRow sets the containers of fs side by side, the last one at the right
// end, and puts in the extra copies, which are left out at first.
func (m *improver) newRow(fs []filled, extra ...int32) *row {
	r, p := &row{}, m.run.p
	var list, walls []int32
	var at, wallAt layout
	x := 0.0
	for _, f := range fs {
		s := &m.run.sites[f.site]
		left, right := s.reach(p)
		x = p.ceil(x - left)
		r.room = append(r.room, bay{f.site, x, s.w, s.h})
		r.copies = append(r.copies, f.copies...)
		list = append(list, f.item...)
		for i := range f.item {
			at.add(f.layout.o[i], f.layout.x[i]+x, f.layout.y[i])
		}
		for _, o := range s.obstacles {
			walls = append(walls, o)
			sh := p.shapes[p.turns[o][0]]
			wallAt.add(p.turns[o][0], x-math.Round(sh.shift.X/p.unit), -math.Round(sh.shift.Y/p.unit))
		}
		x += right
	}
	for _, c := range extra {
		r.copies = append(r.copies, c)
		list = append(list, m.items[c])
		at.add(p.turns[m.items[c]][0], 0, 0)
	}
	m.rows++
	n := len(list)
	l := newLane(p, append(list, walls...), n, m.run.opt.Seed, m.stream<<32|m.rows, m.run.stop)
	for i := n - len(extra); i < n; i++ {
		l.absent[i] = true
	}
	l.bays = r.room
	last := r.room[len(r.room)-1]
	l.w = last.x + last.w
	for _, b := range r.room {
		l.h = max(l.h, b.h)
	}
	l.restore(at)
	for i := range walls {
		l.set(n+i, wallAt.o[i], wallAt.x[i], wallAt.y[i])
	}
	l.measure()
	r.shortener = &shortener{lane: l, legal: l.layout.clone(), length: l.used(), until: 1, iters: m.run.opt.Iterations, begin: -m.sweeps, shrink: firstShrink, fresh: true}
	r.report = func(*shortener) {}
	r.slim = math.Inf(1)
	for _, it := range list[:n] {
		for _, o := range p.turns[it] {
			r.slim = min(r.slim, float64(p.shapes[o].box.x1-p.shapes[o].box.x0))
		}
	}
	r.trim()
	return r
}

func (l *layout) add(o int32, x, y float64) {
	l.x, l.y, l.o = append(l.x, x), append(l.y, y), append(l.o, o)
}

// reach returns how far a site and its obstacles extend.
func (s *site) reach(p *problem) (left, right float64) {
	right = s.w
	for _, o := range s.obstacles {
		sh := p.shapes[p.turns[o][0]]
		b := p.fbox(p.turns[o][0], -math.Round(sh.shift.X/p.unit), 0)
		left, right = min(left, b.x0), max(right, b.x1)
	}
	return left, right
}

// ceil rounds up to the lattice.
func (p *problem) ceil(x float64) float64 {
	g := float64(max(1, p.step))
	return g * math.Ceil(x/g)
}

// from returns where the last bay of the legal layout begins.
func (r *row) from() float64 { return r.room[len(r.room)-1].x }

// trim drops empty bays at the end of the legal layout.
func (r *row) trim() {
	for len(r.room) > 1 && r.length <= r.from() {
		r.room = r.room[:len(r.room)-1]
	}
	r.bays = r.room
}

func (r *row) keepLegal() {
	r.keep()
	r.trim()
}

// reset goes back to the legal layout.
func (r *row) reset() {
	r.bays = r.room
	last := r.room[len(r.room)-1]
	r.w = last.x + last.w
	r.restore(r.legal)
}

// floor is a length that no layout can go under.
func (r *row) floor() float64 {
	need := 0.0
	for i := range r.copies {
		need += r.p.shapes[r.o[i]].space
	}
	for _, b := range r.room[:len(r.room)-1] {
		need -= b.w * b.h
	}
	if len(r.room) == 1 {
		return r.least()
	}
	return r.from() + math.Ceil(need/r.room[len(r.room)-1].h)
}

// cut makes the last bay shorter by a share of its used length, or gives it up
// where nothing could lie there any more. It is false where that cannot be.
func (r *row) cut(share float64) bool {
	w := math.Floor(r.length - share*(r.length-r.from()))
	if least := r.floor(); least > r.from() { // it cannot be given up
		w = max(w, least, r.from()+r.slim)
	}
	if w-r.from() < r.slim {
		return r.give()
	}
	d := r.used() - w
	at := r.from() + r.rng.Float64()*(w-r.from())
	r.w = w
	var out []int
	for i := range r.copies {
		b, x := r.boxes[i], r.x[i]
		if b.x0 < r.from() {
			continue
		}
		if (b.x0+b.x1)/2 > at {
			x -= d
		}
		if !r.putInside(i, max(x, r.from()-float64(r.p.shapes[r.o[i]].box.x0)), r.y[i]) {
			out = append(out, i)
		}
	}
	ok := r.spread(out)
	r.measure()
	return ok
}

// putInside is setInside that tells whether there is such a place.
func (r *row) putInside(i int, x, y float64) bool {
	for k := range len(r.turns(i)) + 1 {
		o := r.o[i]
		if k > 0 {
			o = r.turns(i)[k-1]
		}
		if nx, ny, ok := r.inside(o, x, y); ok {
			r.set(i, o, nx, ny)
			return true
		}
	}
	return false
}

// give gives up the last bay and spreads its copies over the others.
func (r *row) give() bool {
	n := len(r.bays) - 1
	if n == 0 {
		return false
	}
	var out []int
	for i := range r.copies {
		if r.boxes[i].x0 >= r.bays[n].x && !r.absent[i] {
			out = append(out, i)
		}
	}
	r.bays = r.bays[:n]
	r.w = r.bays[n-1].x + r.bays[n-1].w
	ok := r.spread(out)
	r.measure()
	return ok
}

// spread puts copies where they overlap least; it is false where one fits no
// bay.
func (r *row) spread(list []int) bool {
	for _, i := range list {
		r.hide(i)
	}
	for _, i := range list {
		if !r.drop(i) {
			return false
		}
	}
	return true
}

// hide makes copy i meet no other until it is placed again.
func (r *row) hide(i int) {
	r.boxes[i] = nowhere
	r.crowd.put(i, nowhere)
}

// scatter begins anew at the present length: each copy, the large ones rather
// first, goes where it overlaps least.
func (r *row) scatter() {
	order := all(len(r.copies))
	rank := make([]float64, len(order))
	for i := range rank {
		rank[i] = r.size(i) * (0.5 + r.rng.Float64())
	}
	sort.SliceStable(order, func(a, b int) bool { return rank[order[a]] > rank[order[b]] })
	r.resetWeights()
	r.spread(order)
	r.measure()
}

// drop puts copy i anywhere and lets the search find where it overlaps least.
func (r *row) drop(i int) bool {
	for range 4 {
		for _, o := range r.turns(i) {
			if x, y, ok := r.inside(o, r.randX(o), r.randY(o)); ok {
				r.absent[i] = false
				r.set(i, o, x, y)
				s := r.search(i)
				r.set(i, s.o, s.x, s.y)
				return true
			}
		}
	}
	return false
}

// explore shortens the row until a share of the budget, or a number of sweeps,
// is spent.
func (r *row) explore(share float64, sweeps int) {
	r.cap(share)
	for r.spent() < share && r.sweeps < sweeps && r.length > r.floor() {
		if r.fresh {
			r.reset()
			if !r.cut(r.shrink) {
				r.reset()
				return
			}
			r.pool, r.fresh = r.pool[:0], false
		}
		switch {
		case r.separate(r.effort) && r.used() < r.length:
			r.keepLegal()
			r.fresh = true
		case r.shrink > lastShrink:
			r.shrink, r.fresh = max(r.shrink/2, lastShrink), true
			r.resetWeights()
		default:
			r.effort = r.effort.more()
			switch {
			case r.stacks && r.rng.IntN(stackOdds) == 0 && r.restack():
				r.keepLegal()
				r.effort, r.shrink, r.fresh = firstEffort, firstShrink, true
			case r.rng.IntN(scatterOdds) == 0:
				r.scatter()
			default:
				r.retry()
			}
		}
	}
}

const (
	rowPatience = 60
	rowStrikes  = 6
)

// more returns a greater effort, up to a limit.
func (e effort) more() effort {
	if e.patience < rowPatience {
		return effort{min(rowPatience, e.patience*2), e.strikes}
	}
	return effort{rowPatience, min(rowStrikes, e.strikes+1)}
}

// cap makes separations end with the given share of the sweeps.
func (r *row) cap(share float64) {
	if r.iters > 0 {
		r.limit = max(1, r.begin+int(share*float64(r.iters)))
	}
}

// squeezeLast shortens the last bay in ever smaller steps.
func (r *row) squeezeLast(end shares) {
	r.cap(end.squeeze)
	const first, last = 2e-3, 2e-5
	for {
		t := r.spent()
		if t >= end.squeeze || r.length <= r.floor() {
			return
		}
		t = max(0, (t-end.explore)/(end.squeeze-end.explore))
		if can, _ := r.tighten(first * math.Pow(last/first, t)); !can {
			return
		}
	}
}

// tighten tries to shorten the last bay by a share. It reports whether that
// can be and whether it could.
func (r *row) tighten(share float64) (can, done bool) {
	r.reset()
	r.resetWeights()
	if !r.cut(share) {
		return false, false
	}
	if !r.separate(r.effort) || r.used() >= r.length {
		return true, false
	}
	r.keepLegal()
	return true, true
}

// tiltLast turns copies of any turn to shorten the last bay.
func (r *row) tiltLast() {
	r.cap(1)
	r.tilt(r.reset, func(share float64) bool {
		_, done := r.tighten(share)
		return done
	})
}

// settle moves the copies down and to the left as far as they go, so that what
// is left beside them is large.
func (r *row) settle() {
	r.reset()
	order := all(len(r.copies))
	for range settleRounds {
		sort.SliceStable(order, func(a, b int) bool { return r.boxes[order[a]].y0 < r.boxes[order[b]].y0 })
		for _, i := range order {
			r.push(i, 0, -1)
		}
		sort.SliceStable(order, func(a, b int) bool { return r.boxes[order[a]].x0 < r.boxes[order[b]].x0 })
		for _, i := range order {
			r.push(i, -1, 0)
		}
	}
	if r.measure(); r.total() == 0 && r.used() <= r.length {
		r.legal.copyFrom(r.layout)
		r.length = r.used()
	}
}

const (
	settleRounds = 3
	settleTime   = 15 * time.Millisecond // beyond the limit, as it comes last
)

// push moves copy i in a direction until it touches something.
func (r *row) push(i int, dx, dy float64) {
	if r.absent[i] || r.stop.over(settleTime) {
		return
	}
	c := spot{o: r.o[i], x: r.x[i], y: r.y[i]}
	for s, moves := math.Ceil(r.size(i)/4), 0; s >= 1 && moves < 200; moves++ {
		if !r.free(i, &c, dx*s, dy*s) {
			s = math.Floor(s / 2)
		}
	}
	r.set(i, c.o, c.x, c.y)
}

// split returns the containers of the legal layout.
func (r *row) split() []filled {
	out := make([]filled, len(r.room))
	for k, b := range r.room {
		out[k].p, out[k].site = r.p, b.site
	}
	for i, c := range r.copies {
		if r.absent[i] {
			continue
		}
		o, x, y := r.legal.o[i], r.legal.x[i], r.legal.y[i]
		b := r.p.fbox(o, x, y)
		k := r.bayAt(b.x0)
		f := &out[k]
		f.copies, f.item = append(f.copies, c), append(f.item, r.item[i])
		f.layout.add(o, x-r.room[k].x, y)
		f.length = max(f.length, b.x1-r.room[k].x)
	}
	return out
}
