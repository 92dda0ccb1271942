package place

import (
	"context"
	"math"
	"sort"
	"sync"
	"time"

	"gonum.org/v1/gonum/spatial/r2"
)

// A site is a container on the grid: a rectangle with obstacles.
type site struct {
	corner    r2.Vec
	w, h      float64 // grid units
	length    float64 // of the true box
	height    float64
	area      float64 // with the forbidden regions, which may overlap
	obstacles []int32 // items of the problem
}

// frame returns the box of a container.
func (c Container) frame() (lo, hi r2.Vec) {
	if c.Outer != nil {
		return bounds(c.Outer)
	}
	return r2.Vec{}, r2.Vec{X: c.Width, Y: c.Height}
}

// obstacles returns what items may not overlap, relative to the box: the
// forbidden regions, and all outside Outer as a ring.
func (c Container) obstacles() []Item {
	lo, hi := c.frame()
	var out []Item
	for _, f := range c.Forbidden {
		out = append(out, Item{Outer: moved(f, r2.Scale(-1, lo))})
	}
	if c.Outer == nil {
		return out
	}
	m := math.Ldexp(1, math.Ilogb(math.Max(hi.X-lo.X, hi.Y-lo.Y))-4)
	x, y := hi.X-lo.X+m, hi.Y-lo.Y+m
	ring := []r2.Vec{{X: -m, Y: -m}, {X: x, Y: -m}, {X: x, Y: y}, {X: -m, Y: y}}
	return append(out, Item{Outer: ring, Holes: [][]r2.Vec{moved(c.Outer, r2.Scale(-1, lo))}})
}

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

func (s *site) measure(p *problem, c Container) {
	lo, hi := c.frame()
	s.corner, s.length, s.height = lo, hi.X-lo.X, hi.Y-lo.Y
	s.w, s.h = p.floor(s.length), p.floor(s.height)
	s.area = s.length * s.height
	if c.Outer != nil {
		s.area = math.Abs(area(c.Outer))
	}
}

// An outcome is what one lane made of all containers.
type outcome struct {
	placed  []filled
	left    []int32 // copies that found no place
	missing float64 // their area
	length  float64 // of the last container used
	iters   int
}

// filled is a container with its copies.
type filled struct {
	site   int
	copies []int32 // index of each copy in the list of all
	item   []int32
	layout layout
	length float64
}

func (o *outcome) better(b *outcome) bool {
	if o.missing != b.missing {
		return o.missing < b.missing
	}
	if len(o.placed) != len(b.placed) {
		return len(o.placed) < len(b.placed)
	}
	return o.length < b.length
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

func (o *outcome) result(r *fitRun) Result {
	items := copiesOf(r.p.items[:r.p.fixed])
	number := copyNumbers(items)
	var res Result
	sum, space := 0.0, 0.0
	for k, f := range o.placed {
		s := r.sites[f.site]
		for i, pl := range r.p.placements(f.item, f.layout) {
			pl.Copy = number[f.copies[i]]
			pl.Container = f.site
			pl.At = r2.Add(pl.At, s.corner)
			res.Placed = append(res.Placed, pl)
			sum += r.p.shapes[f.layout.o[i]].area
		}
		res.Containers = f.site + 1
		res.Length = f.length * r.p.unit
		if space += s.area; k == len(o.placed)-1 {
			space += (res.Length - s.length) * s.height
		}
	}
	if space > 0 {
		res.Density = sum / space
	}
	sort.SliceStable(res.Placed, func(i, j int) bool {
		a, b := res.Placed[i], res.Placed[j]
		return a.Item < b.Item || a.Item == b.Item && a.Copy < b.Copy
	})
	for _, c := range o.left {
		res.Unplaced = append(res.Unplaced, Unplaced{int(items[c]), number[c], r.reason(items[c])})
	}
	sort.SliceStable(res.Unplaced, func(i, j int) bool {
		a, b := res.Unplaced[i], res.Unplaced[j]
		return a.Item < b.Item || a.Item == b.Item && a.Copy < b.Copy
	})
	return res
}

// copyNumbers numbers the copies of each item from 0.
func copyNumbers(items []int32) []int {
	count := map[int32]int{}
	out := make([]int, len(items))
	for i, it := range items {
		out[i] = count[it]
		count[it]++
	}
	return out
}

func (r *fitRun) reason(item int32) Reason {
	for k, s := range r.sites {
		if r.allowed(item, k) && r.p.fits(item, s.w, s.h) {
			return NoRoom
		}
	}
	return TooLarge
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
