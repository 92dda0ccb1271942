package sheet

import (
	"slices"
	"sync"
	"time"

	"example.com/sagitta/internal/place"
)

// A Gain says in what a layout is better than the one before.
type Gain int

const (
	NoGain       Gain = iota // none: the search is still at work
	MorePlaced               // it leaves less area out
	LowerCost                // its sheets cost less
	LessArea                 // its sheets have less area
	LargerOffcut             // it leaves larger offcuts, or a strip is shorter
)

// String returns the gain in words.
func (g Gain) String() string {
	return name(int(g), "nothing yet", "more placed", "lower cost", "less area of sheets", "larger offcut")
}

// A Progress describes the best layout so far.
type Progress struct {
	Gain       Gain // over the one before
	Placed     int  // copies
	Sheets     int
	Cost       float64 // price of the sheets
	Use        float64
	Iterations int
	Elapsed    time.Duration
}

const pulse = 400 * time.Millisecond // between reports, at most

// A reporter passes on what is reported and, where nothing is for a while, that
// the search is at work.
type reporter struct {
	mu    sync.Mutex
	call  func(Progress)
	last  Progress
	at    time.Time
	began time.Time
	quit  chan struct{}
	done  chan struct{}
}

// startReports begins to report and returns what ends it; there is nothing to
// do where nobody listens.
func (o *Options) startReports() (end func()) {
	if o.Progress == nil {
		return func() {}
	}
	r := &reporter{call: o.Progress, began: time.Now(), at: time.Now(), quit: make(chan struct{}), done: make(chan struct{})}
	o.news = r
	go r.beat()
	return func() {
		close(r.quit)
		<-r.done
	}
}

func (r *reporter) beat() {
	defer close(r.done)
	t := time.NewTicker(pulse / 4)
	defer t.Stop()
	for {
		select {
		case <-r.quit:
			return
		case <-t.C:
			r.mu.Lock()
			if time.Since(r.at) >= pulse*3/4 {
				r.last.Gain = NoGain
				r.send()
			}
			r.mu.Unlock()
		}
	}
}

// send passes on the last report; the lock is held.
func (r *reporter) send() {
	r.at = time.Now()
	r.last.Elapsed = r.at.Sub(r.began)
	r.call(r.last)
}

func (r *reporter) report(p Progress) {
	r.mu.Lock()
	defer r.mu.Unlock()
	p.Iterations = max(p.Iterations, r.last.Iterations)
	r.last = p
	r.send()
}

// counted notes iterations, which the next report tells.
func (r *reporter) counted(iterations int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.last.Iterations = max(r.last.Iterations, iterations)
}

// progress returns the engine's callback.
func (r *run) progress() func(place.Progress) {
	if r.opt.news == nil {
		return nil
	}
	return func(p place.Progress) {
		r.opt.news.counted(r.before.Iterations + r.iterations + p.Iterations)
	}
}

// report tells of the best plan so far, and in what it is better than another.
func (r *run) report(old *plan) {
	if r.opt.news == nil || r.best == nil || r.rival != nil && !r.better(r.best, r.rival) {
		return
	}
	p := Progress{Gain: r.gain(old, r.best), Iterations: r.before.Iterations + r.iterations}
	area, total := 0.0, 0.0
	for _, s := range slices.Concat(r.before.Sheets, r.best.sheets) {
		p.Sheets++
		p.Placed += len(s.Placements)
		p.Cost += r.stock[s.Stock].Price
		area += s.area(r.sizes)
		total += r.stock[s.Stock].Area()
	}
	if total > 0 {
		p.Use = area / total
	}
	r.opt.news.report(p)
}

// gain tells in what a plan is better than another.
func (r *run) gain(old, p *plan) Gain {
	a, b := r.price(old), r.price(p)
	switch {
	case r.leftArea(p.left) < r.leftArea(old.left):
		return MorePlaced
	case b[0] < a[0]:
		return LowerCost
	case b[1] < a[1]:
		return LessArea
	}
	return LargerOffcut
}
