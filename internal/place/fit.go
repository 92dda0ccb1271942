package place

import (
	"context"
	"sort"
	"sync"
	"time"
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
	start := time.Now()
	p, err := newProblem(ctx, "Fit", items, obstacles)
	if p == nil {
		return Result{Stopped: true}, err
	}
	for k, c := range containers {
		sites[k].measure(p, c)
	}
	run := &fitRun{p: p, opt: opt, stop: newStopper(ctx, start, opt.Time), sites: sites}
	out := make([]*outcome, lanes)
	parallel(lanes, opt.Workers, func(k int) { out[k] = run.all(uint64(k + 1)) })
	best := out[0]
	iters := 0
	for _, o := range out {
		if o.better(best) {
			best = o
		}
		iters += o.iters
	}
	res := best.result(run)
	res.Iterations, res.Stopped = iters, ctx.Err() != nil
	return res, nil
}

// all fills the containers one after the other.
func (r *fitRun) all(stream uint64) *outcome {
	out := &outcome{}
	items := copiesOf(r.p.items[:r.p.fixed])
	left := r.order(items)
	for k := range r.sites {
		if len(left) == 0 {
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
	for _, c := range left {
		out.left = append(out.left, c)
		out.missing += r.p.shapes[r.p.turns[items[c]][0]].area
	}
	if n := len(out.placed); n > 0 {
		out.length = out.placed[n-1].length
	}
	return out
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
		if need -= 0.7 * s.area; need <= 0 {
			break
		}
		count++
	}
	used := r.stop.used()
	b := budget{share: used + (1-used)/count}
	if n := r.opt.Iterations; n > 0 {
		b.iters = max(1, int(float64(n-iters)/count))
	}
	return b
}

func (r *fitRun) allowed(item int32, site int) bool {
	list := r.p.items[item].Containers
	if list == nil {
		return true
	}
	for _, c := range list {
		if c == site {
			return true
		}
	}
	return false
}

func (r *fitRun) progress(f *filler) {
	if r.opt.Progress == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.opt.Progress(Progress{Placed: len(f.filled().copies), Length: f.used() * r.p.unit, Iterations: f.sweeps, Elapsed: time.Since(r.stop.start)})
}
