// Package weary holds a context for tests that ends amid a piece of work.
package weary

import "context"

type weary struct {
	context.Context
	left int
}

// New returns a context that ends after Err has been asked asks times. It is
// for one goroutine; Done does not close.
func New(ctx context.Context, asks int) context.Context { return &weary{ctx, asks} }

func (w *weary) Err() error {
	if w.left--; w.left < 0 {
		return context.Canceled
	}
	return nil
}
