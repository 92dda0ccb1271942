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
