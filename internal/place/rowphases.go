package place

import (
	"math"
	"sort"
	"time"
)

const scatterOdds = 3 // one in so many trials at a length begins anew

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
