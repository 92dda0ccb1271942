package place

import (
	"context"
	"fmt"
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r2"
)

const lanes = 2 // searches side by side, whatever the workers

// strip runs the lanes through the phases: each explores on its own, all
// squeeze the shortest layout met, the shortest result wins and the lower
// lane among equals.
func strip(ctx context.Context, items []Item, height float64, opt Options) (Result, error) {
	stop := newStopper(ctx, opt)
	p, err := newProblem(ctx, "Strip", items, nil, []r2.Vec{{X: math.Inf(1), Y: height}}, nil)
	if p == nil {
		return Result{Stopped: true}, err
	}
	copies := copiesOf(items)
	h := p.floor(height)
	for i, it := range copies {
		if !p.fits(it, math.Inf(1), h) {
			return Result{}, &Error{"Strip", fmt.Sprintf("items[%d]", copies[i]), "a size within the strip's height", ErrTooLarge}
		}
	}
	if len(copies) == 0 {
		return Result{}, nil
	}
	run := &stripRun{p: p, opt: opt, stop: stop, height: height}
	for k := range lanes {
		l := newLane(p, copies, len(copies), opt.Seed, uint64(k+1), run.stop)
		l.h = h
		run.lanes = append(run.lanes, &shortener{lane: l, iters: opt.Iterations, until: 1, report: run.report})
	}
	run.each((*shortener).start)
	share, squeeze := p.shares()
	for k := range legs {
		run.each(func(l *shortener) { l.explore(share * float64(k+1) / legs) })
		run.adopt(lag)
	}
	run.adopt(0)
	run.each((*shortener).squeeze)
	if squeeze < 1 {
		run.adopt(lag)
		run.each((*shortener).tiltStrip)
	}
	return run.result(ctx, height), nil
}

func copiesOf(items []Item) []int32 {
	var c []int32
	for i, it := range items {
		for range it.demand() {
			c = append(c, int32(i))
		}
	}
	return c
}

func (p *problem) fits(item int32, w, h float64) bool {
	for _, o := range p.turns[item] {
		b := p.shapes[o].box
		if float64(b.x1-b.x0) <= w && float64(b.y1-b.y0) <= h {
			return true
		}
	}
	return false
}

type stripRun struct {
	p      *problem
	opt    Options
	stop   *stopper
	lanes  []*shortener
	height float64
	mu     sync.Mutex
	best   float64 // shortest length reported
}

// each runs f for all lanes on as many goroutines as there are workers.
func (r *stripRun) each(f func(*shortener)) {
	parallel(len(r.lanes), r.opt.Workers, func(k int) { f(r.lanes[k]) })
}

// parallel runs f(0) to f(n-1), at most workers at a time.
func parallel(n, workers int, f func(int)) {
	var wg sync.WaitGroup
	slots := make(chan struct{}, max(1, workers))
	for k := range n {
		slots <- struct{}{}
		wg.Go(func() {
			f(k)
			<-slots
		})
	}
	wg.Wait()
}

// adopt gives the shortest layout to the lanes that lag behind it.
func (r *stripRun) adopt(lag float64) {
	b := r.winner()
	for _, l := range r.lanes {
		if l.length > b.length*(1+lag) {
			l.legal.copyFrom(b.legal)
			l.length, l.fresh = b.length, true
		}
	}
}

func (r *stripRun) winner() *shortener {
	b := r.lanes[0]
	for _, l := range r.lanes[1:] {
		if l.length < b.length {
			b = l
		}
	}
	return b
}

func (r *stripRun) report(l *shortener) {
	if r.opt.Progress == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.best == 0 || l.length < r.best {
		r.best = l.length
		n := len(l.item)
		r.opt.Progress(Progress{l.length * r.p.unit, r.p.areaOf(l.item) / (r.height * l.length * r.p.unit), n, l.sweeps, r.stop.elapsed()})
	}
}

func (p *problem) areaOf(copies []int32) float64 {
	sum := 0.0
	for _, it := range copies {
		sum += p.shapes[p.turns[it][0]].area
	}
	return sum
}

func (r *stripRun) result(ctx context.Context, height float64) Result {
	b := r.winner()
	res := Result{Containers: 1, Stopped: ctx.Err() != nil, Placed: b.p.placements(b.item, b.legal)}
	for _, l := range r.lanes {
		res.Iterations += l.sweeps
	}
	res.Length = b.length * r.p.unit
	res.Density = r.p.areaOf(b.item) / (height * res.Length)
	return res
}

func (p *problem) placements(copies []int32, l layout) []Placement {
	var out []Placement
	count := map[int32]int{}
	for i, it := range copies {
		s := p.shapes[l.o[i]]
		out = append(out, Placement{Item: int(it), Copy: count[it], Rotation: s.angle, Mirrored: s.mirrored,
			At: r2.Vec{X: float64(l.x[i]*p.unit) + s.shift.X, Y: float64(l.y[i]*p.unit) + s.shift.Y}})
		count[it]++
	}
	return out
}
