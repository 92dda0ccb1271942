package place

import "math"

// A filler puts as many copies as it can into one container.
type filler struct {
	*lane
	run   *fitRun
	site  int
	order []int32 // copies by rank; index in the lane
	all   []int32 // every copy that is left, also those not allowed here
}

func newFiller(r *fitRun, k int, left, items []int32, stream uint64) *filler {
	f := &filler{run: r, site: k, all: left}
	s := r.sites[k]
	var list []int32
	for _, c := range left {
		if r.p.allowed(items[c], k) && r.p.fits(items[c], s.w, s.h) {
			f.order = append(f.order, c)
			list = append(list, items[c])
		}
	}
	n := len(list)
	list = append(list, s.obstacles...)
	f.lane = newLane(r.p, list, n, r.opt.Seed, stream<<32|uint64(k), r.stop)
	f.w, f.h = s.w, s.h
	for i := range n {
		f.leave(i, true)
	}
	for i := n; i < len(list); i++ {
		sh := r.p.shapes[f.o[i]]
		f.set(i, f.o[i], -math.Round(sh.shift.X/r.p.unit), -math.Round(sh.shift.Y/r.p.unit))
	}
	f.measure()
	f.crowd.scale(f.w, f.h, f.boxes)
	return f
}

// leave takes copy i out, or in.
func (f *filler) leave(i int, out bool) {
	f.absent[i] = out
	f.set(i, f.o[i], f.x[i], f.y[i])
}

// fill inserts the copies at free places, then forces further ones in by
// separation.
func (f *filler) fill(b budget) {
	failed := map[int32]bool{}
	misses := 0
	for i := range f.order {
		if f.stop.done() {
			return
		}
		if failed[f.item[i]] {
			continue
		}
		if f.roomFor(i) && f.insert(i, max(leastSamples, insertSamples>>(misses/8))) {
			misses = 0
		} else {
			failed[f.item[i]] = true
			misses++
		}
	}
	f.measure()
	f.force(b)
}

func (f *filler) over(b budget) bool {
	return b.iters > 0 && f.sweeps >= b.iters || f.stop.done() || f.stop.used() >= b.share
}

const leastSamples = 6 // in a third of the tries, after many that failed

// insert puts copy i at the free place nearest to the lower left corner.
func (f *filler) insert(i, samples int) bool {
	turns := f.p.turns[f.item[i]]
	best := spot{v: math.Inf(1)}
	w := f.w
	f.w = math.Min(w, math.Max(0, f.used())+float64(f.size(i)*2))
	for k := range 3 * samples {
		if k == 2*samples {
			if !math.IsInf(best.v, 1) {
				break
			}
			f.w = w
		}
		if f.stop.done() {
			break
		}
		o := turns[f.rng.IntN(len(turns))]
		x, y := f.randX(o), f.randY(o)
		if len(f.holed) > 0 && k%4 == 0 {
			if hx, hy, ok := f.inHole(i, o); ok {
				x, y = hx, hy
			}
		}
		x, y, ok := f.inside(o, x, y)
		if !ok || !f.isFree(i, o, x, y) {
			continue
		}
		if c := f.slide(i, spot{o, x, y, 0}); c.v < best.v {
			best = c
		}
	}
	f.w = w
	if math.IsInf(best.v, 1) {
		return false
	}
	f.absent[i] = false
	f.set(i, best.o, best.x, best.y)
	return true
}

const (
	forceRounds = 3 // rounds without success before a container counts as full
)

// force adds copies where they overlap least and drives the overlap out, in
// rounds over the items that are left. What fails is taken out again.
func (f *filler) force(b budget) {
	for idle := 0; idle < forceRounds; idle++ {
		failed := map[int32]bool{}
		for i := range f.order {
			if !f.absent[i] || failed[f.item[i]] || !f.roomFor(i) {
				continue
			}
			if f.over(b) {
				return
			}
			if f.forceIn(i) {
				idle = -1
			} else {
				failed[f.item[i]] = true
			}
		}
		if len(failed) == 0 {
			return
		}
	}
}

func (f *filler) forceIn(i int) bool {
	old := f.layout.clone()
	f.resetWeights()
	if f.drop(i, 1, f.move) && f.separate(effort{60, 2}) {
		f.run.progress(f)
		return true
	}
	f.absent[i] = true
	f.restore(old)
	return false
}

// roomFor tells whether the free area is enough for copy i.
func (f *filler) roomFor(i int) bool {
	free := f.run.sites[f.site].area
	for k, out := range f.absent[:f.movable] {
		if !out {
			free -= f.p.shapes[f.o[k]].area
		}
	}
	return f.p.shapes[f.o[i]].area <= free
}

// left lists the copies that are not in, in order.
func (f *filler) left() []int32 {
	in := map[int32]bool{}
	for i, c := range f.order {
		in[c] = !f.absent[i]
	}
	var out []int32
	for _, c := range f.all {
		if !in[c] {
			out = append(out, c)
		}
	}
	return out
}

func (f *filler) filled() filled {
	d := filled{p: f.p, site: f.site}
	for i, c := range f.order {
		if !f.absent[i] {
			d.copies = append(d.copies, c)
			d.item = append(d.item, f.item[i])
			d.layout.x = append(d.layout.x, f.x[i])
			d.layout.y = append(d.layout.y, f.y[i])
			d.layout.o = append(d.layout.o, f.o[i])
		}
	}
	d.length = max(0, f.used())
	return d
}
