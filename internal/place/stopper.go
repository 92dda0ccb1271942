package place

import (
	"context"
	"time"
)

// A stopper ends a search: by context, by clock or by sweeps.
type stopper struct {
	ctx      context.Context
	now      func() time.Time
	start    time.Time
	deadline time.Time // zero: none
}

// newStopper starts the clock of a search.
func newStopper(ctx context.Context, opt Options) *stopper {
	s := &stopper{ctx: ctx, now: opt.Now}
	if s.now == nil {
		s.now = time.Now
	}
	if s.start = s.now(); opt.Time > 0 {
		s.deadline = s.start.Add(opt.Time)
	}
	return s
}

func (s *stopper) done() bool {
	return s.ctx.Err() != nil || !s.deadline.IsZero() && !s.now().Before(s.deadline)
}

// elapsed returns the time since the start.
func (s *stopper) elapsed() time.Duration { return s.now().Sub(s.start) }

// over reports whether the context has ended, or the time limit a while ago.
func (s *stopper) over(by time.Duration) bool {
	return s.ctx.Err() != nil || !s.deadline.IsZero() && s.now().Sub(s.deadline) >= by
}

// used returns the part of the time limit that is spent.
func (s *stopper) used() float64 {
	if s.deadline.IsZero() {
		return 0
	}
	return float64(s.elapsed()) / float64(s.deadline.Sub(s.start))
}

// A reading is the context in which items are read: it ends with the time limit too.
type reading struct {
	context.Context
	stop *stopper
}

func (r reading) Err() error {
	if err := r.Context.Err(); err != nil || !r.stop.done() {
		return err
	}
	return context.DeadlineExceeded
}
