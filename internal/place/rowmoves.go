package place

import (
	"math"
	"sort"
)

const rowDrops = 4 // tries to put a copy anywhere in a row

// cut makes the last bay shorter by a share of its used length, or gives it up
// where nothing could lie there any more. It is false where that cannot be.
func (r *row) cut(share float64) bool {
	w := math.Floor(r.length - float64(share*(r.length-r.from())))
	if least := r.floor(); least > r.from() { // it cannot be given up
		w = max(w, least, r.from()+r.slim)
	}
	if w-r.from() < r.slim {
		return r.give()
	}
	d := r.used() - w
	at := r.from() + float64(r.rng.Float64()*(w-r.from()))
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
		if !r.setInside(i, max(x, r.from()-float64(r.p.shapes[r.o[i]].box.x0)), r.y[i]) {
			out = append(out, i)
		}
	}
	ok := r.spread(out)
	r.measure()
	return ok
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
		if !r.drop(i, rowDrops, r.set) {
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
