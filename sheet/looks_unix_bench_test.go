//go:build unix

package sheet_test

import (
	"context"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/sheet"
)

// A lookout is a context that notes the longest stretch of work, in processor
// time, between two looks at it. So a busy machine does not count.
type lookout struct {
	context.Context
	mu      sync.Mutex
	last    time.Duration
	longest time.Duration
}

func watch(ctx context.Context) *lookout { return &lookout{Context: ctx, last: worked()} }

func (l *lookout) Err() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := worked()
	l.longest = max(l.longest, now-l.last)
	l.last = now
	return l.Context.Err()
}

// worked returns the processor time of this process.
func worked() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// processor returns a clock that goes by the processor time of this process, shared
// by a number of workers, so that a busy machine does not count.
func processor(workers int) func() time.Time {
	return func() time.Time { return time.Unix(0, 0).Add(worked() / time.Duration(workers)) }
}

// BenchmarkLooks reports the longest that Nest works between two looks at its
// context, and at the end after the last: a cancel takes at least as long.
func BenchmarkLooks(b *testing.B) {
	for b.Loop() {
		l := watch(context.Background())
		_, err := sheet.Nest(l, curvedCase(3), boards(), sheet.Options{Gap: 10, Margin: 10, Iterations: 60})
		require.NoError(b, err)
		l.Err()
		b.ReportMetric(float64(l.longest.Microseconds())/1000, "longest-ms")
	}
}

// An ender is a context that ends after an amount of work, in processor time.
type ender struct {
	context.Context
	from, after time.Duration
}

func (e ender) Err() error {
	if worked()-e.from > e.after {
		return context.Canceled
	}
	return nil
}

// BenchmarkStop measures how long a search of 2,000 copies works on once it is told
// to stop, and what one of a millisecond takes in all.
func BenchmarkStop(b *testing.B) {
	for name, plain := range map[string]bool{"rectangles": true, "outlines": false} {
		parts := crowd(plain)
		for way, saw := range map[string]bool{"saw": true, "free": false} {
			for _, after := range []time.Duration{time.Millisecond, 300 * time.Millisecond} {
				b.Run(name+"/"+way+"/"+after.String(), func(b *testing.B) {
					var over, worst, short time.Duration
					for range b.N {
						e := ender{context.Background(), worked(), after}
						nestCrowd(b, e, parts, saw, 20*time.Second)
						took := worked() - e.from - after
						over, worst = over+took, max(worst, took)
						from := worked()
						nestCrowd(b, context.Background(), parts, saw, time.Millisecond)
						short += worked() - from
					}
					b.ReportMetric(over.Seconds()*1e3/float64(b.N), "ms-over")
					b.ReportMetric(worst.Seconds()*1e3, "worst-ms-over")
					b.ReportMetric(short.Seconds()*1e3/float64(b.N), "ms-for-1")
				})
			}
		}
	}
}
