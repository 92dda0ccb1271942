package place

import (
	"context"
	"math/rand/v2"
	"sort"
	"sync"
)

type fitRun struct {
	p     *problem
	opt   Options
	stop  *stopper
	sites []site
	mu    sync.Mutex
}

// fit runs every lane through all containers and keeps the best outcome, the
// lower lane among equals.
func fit(ctx context.Context, items []Item, containers []Container, opt Options) (Result, error) {
	var obstacles []Item
	sites := make([]site, len(containers))
	for k, c := range containers {
		for _, o := range c.obstacles() {
			sites[k].obstacles = append(sites[k].obstacles, int32(len(items)+len(obstacles)))
			obstacles = append(obstacles, o)
		}
	}
	stop := newStopper(ctx, opt)
	items = withTurns(items, opt.Start)
	p, err := newProblem(reading{ctx, stop}, "Fit", items, obstacles, rooms(containers), opt.Memory)
	if p == nil {
		return Result{Stopped: ctx.Err() != nil}, err
	}
	for k, c := range containers {
		sites[k].measure(p, c)
	}
	run := &fitRun{p: p, opt: opt, stop: stop, sites: sites}
	best, iters := run.search(copiesOf(items))
	p.remember(opt.Memory)
	res := best.result(run)
	res.Iterations, res.Stopped = iters, ctx.Err() != nil
	return res, nil
}

const fillShare = 0.3 // of the budget, to fill the containers one by one

// search lets the lanes fill the containers, then improve, each on its own in
// several legs; between them lanes that lag take over the best.
func (r *fitRun) search(items []int32) (best *outcome, iters int) {
	var m [lanes]*improver
	each := func(f func(*improver)) {
		parallel(lanes, r.opt.Workers, func(k int) { f(m[k]) })
		for _, o := range m {
			if best == nil || o.out.better(best) {
				best = o.out
			}
		}
	}
	for k := range m {
		stream := uint64(k + 1)
		m[k] = &improver{run: r, items: items, stream: stream, rows: 1 << 16, rng: rand.New(rand.NewPCG(r.opt.Seed, stream<<32|1<<31))}
	}
	each(func(m *improver) {
		out := r.started(items)
		if out == nil {
			out = r.all(items, m.stream)
		}
		m.take(out)
		m.sweeps = out.iters
	})
	share, _ := r.p.shares()
	if r.opt.Rough {
		share = 1
	}
	for k := range legs {
		each(func(m *improver) { m.improve(fillShare + float64((share-fillShare)*float64(k+1)/legs)) })
		for _, o := range m {
			if o.out != best && o.lags(best) {
				o.take(best)
			}
		}
	}
	if !r.opt.Rough {
		end := r.ending(best, max(m[0].sweeps, m[1].sweeps))
		each(func(m *improver) {
			m.improve(end.explore)
			m.finish(end)
		})
	}
	for _, o := range m {
		iters += o.sweeps
	}
	return best, iters
}

// shares are the parts of the budget at which the exploration ends and the
// squeezing; the rest is tilted.
type shares struct{ explore, squeeze float64 }

const (
	manyExplore = 0.93 // as exploreShare, where the last is but one of many containers or there is no time for tilts
	tiltSweeps  = 8000 // of a lane, short of which there is no time for tilts
)

// ending tells how to end a search.
func (r *fitRun) ending(o *outcome, sweeps int) shares {
	explore, squeeze := r.p.shares()
	switch {
	case o.copies() > wholeCopies && len(o.placed) > 2:
		return shares{manyExplore, 1}
	case squeeze < 1 && sweeps < tiltSweeps:
		return shares{manyExplore, 1}
	}
	return shares{explore, squeeze}
}

// all fills the containers one after the other.
func (r *fitRun) all(items []int32, stream uint64) *outcome {
	out := &outcome{}
	left := r.order(items)
	for k := range r.sites {
		if len(left) == 0 || k > 0 && r.stop.done() {
			break
		}
		f := newFiller(r, k, left, items, stream)
		f.fill(r.share(k, left, items, out.iters))
		out.iters += f.sweeps
		if done := f.filled(); len(done.copies) > 0 {
			out.placed = append(out.placed, done)
		}
		left = f.left()
	}
	out.left = left
	out.missing = r.missing(left, items)
	if n := len(out.placed); n > 0 {
		out.length = out.placed[n-1].length
	}
	return out
}

func (r *fitRun) missing(left, items []int32) float64 {
	sum := 0.0
	for _, c := range left {
		sum += r.p.shapes[r.p.turns[items[c]][0]].area
	}
	return sum
}

// order lists the copies by priority, then size.
func (r *fitRun) order(items []int32) []int32 {
	out := make([]int32, len(items))
	for i := range out {
		out[i] = int32(i)
	}
	sort.SliceStable(out, func(a, b int) bool {
		p, q := items[out[a]], items[out[b]]
		if u, v := r.p.items[p].Priority, r.p.items[q].Priority; u != v {
			return u > v
		}
		return r.p.shapes[r.p.turns[p][0]].weight > r.p.shapes[r.p.turns[q][0]].weight
	})
	return out
}

// A budget ends the work on one container at a number of sweeps of the lane or
// at a share of the time.
type budget struct {
	iters int // 0: no limit
	share float64
}

// share divides what is left of the budget among the containers that the
// remaining copies are likely to need.
func (r *fitRun) share(k int, left, items []int32, iters int) budget {
	need := 0.0
	for _, c := range left {
		need += r.p.shapes[r.p.turns[items[c]][0]].area
	}
	count := 1.0
	for _, s := range r.sites[k:] {
		if need -= float64(0.7 * s.area); need <= 0 {
			break
		}
		count++
	}
	used := r.stop.used()
	b := budget{share: used + max(0, fillShare-used)/count}
	if n := r.opt.Iterations; n > 0 {
		b.iters = max(1, int((float64(fillShare*float64(n))-float64(iters))/count))
	}
	return b
}

func (r *fitRun) progress(f *filler) {
	if r.opt.Progress == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.opt.Progress(Progress{Placed: len(f.filled().copies), Length: f.used() * r.p.unit, Iterations: f.sweeps, Elapsed: r.stop.elapsed()})
}
