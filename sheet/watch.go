package sheet

import (
	"context"
	"time"
)

// watch makes the search of a group end when nothing was gained for a while, or,
// where it is the last, when the cost is low enough. It returns what to call when
// the search is over.
func (r *run) watch(last bool) (done func()) {
	if r.opt.Patience == 0 && r.opt.Enough == 0 {
		return func() {}
	}
	ctx, cancel := context.WithCancel(r.ctx)
	r.ctx = ctx
	done = cancel
	var timer *time.Timer
	if r.opt.Patience > 0 {
		timer = time.AfterFunc(r.opt.Patience, cancel)
		done = func() {
			timer.Stop()
			cancel()
		}
	}
	r.gainedBy = func(p *plan) {
		if timer != nil {
			timer.Reset(r.opt.Patience)
		}
		if last && r.opt.Enough > 0 && p != nil && r.done(p) && r.costWith(p) <= r.opt.Enough {
			cancel()
		}
	}
	r.gained = func() { r.gainedBy(r.best) }
	return done
}

// costWith returns the cost of the sheets of a plan and of those before it.
func (r *run) costWith(p *plan) float64 {
	sum := 0.0
	for _, list := range [2][]Sheet{r.before.Sheets, p.sheets} {
		for _, s := range list {
			sum += r.stock[s.Stock].Price
		}
	}
	return sum
}
