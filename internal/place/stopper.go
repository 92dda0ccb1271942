package place

import (
	"context"
	"time"
)

// A stopper ends a search: by context, by clock or by sweeps.
type stopper struct {
	ctx      context.Context
	start    time.Time
	deadline time.Time // zero: none
}

func newStopper(ctx context.Context, start time.Time, limit time.Duration) *stopper {
	s := &stopper{ctx: ctx, start: start}
	if limit > 0 {
		s.deadline = s.start.Add(limit)
	}
	return s
}

func (s *stopper) done() bool {
	return s.ctx.Err() != nil || !s.deadline.IsZero() && !time.Now().Before(s.deadline)
}

// limited returns a context that ends with the time limit too, if there is one.
func limited(ctx context.Context, start time.Time, limit time.Duration) (context.Context, context.CancelFunc) {
	if limit == 0 {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, limit-time.Since(start))
}

// over reports whether the context has ended, or the time limit a while ago.
func (s *stopper) over(by time.Duration) bool {
	return s.ctx.Err() != nil || !s.deadline.IsZero() && time.Since(s.deadline) >= by
}

// used returns the part of the time limit that is spent.
func (s *stopper) used() float64 {
	if s.deadline.IsZero() {
		return 0
	}
	return float64(time.Since(s.start)) / float64(s.deadline.Sub(s.start))
}
