//go:build unix

package arc_test

import (
	"math"
	"runtime"
	"syscall"
	"testing"
	"time"
)

// cpu returns the time that the process has spent on its own work, in seconds:
// what else the machine does leaves it alone.
func cpu() float64 {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano()).Seconds()
}

// leastTime returns the least time of several runs of f.
func leastTime(b *testing.B, f func() error) float64 {
	best := math.Inf(1)
	for run, spent := 0, 0.0; run < 5 && spent < 10 || spent < 0.1; run++ {
		runtime.GC()
		// The clock ticks every 4 ms or so: many runs where one is short.
		start, n := cpu(), 0
		for ; n == 0 || cpu()-start < 0.05; n++ {
			if err := f(); err != nil {
				b.Fatal(err)
			}
		}
		t := cpu() - start
		best, spent = math.Min(best, t/float64(n)), spent+t
	}
	return best
}

// BenchmarkGrowth prints the processor's time for 1,000 and for the most
// segments, and the exponent between them: the slope of the line through the
// logarithms. It is 1.1 for n log n.
func BenchmarkGrowth(b *testing.B) {
	sizes := []int{1000, 3162, 10000, 31623, 100000}
	for _, g := range growth {
		b.Run(g.name, func(b *testing.B) {
			var x, y []float64
			for b.Loop() {
				x, y = nil, nil
				for _, n := range sizes {
					t := leastTime(b, g.make(n))
					x, y = append(x, math.Log(float64(n))), append(y, math.Log(t))
					if t > 20 { // what is left would not end
						break
					}
				}
			}
			b.ReportMetric(slope(x, y), "exponent")
			b.ReportMetric(1e3*math.Exp(y[0]), "ms/1k")
			b.ReportMetric(math.Exp(y[len(y)-1]), "s/last")
			b.ReportMetric(math.Exp(x[len(x)-1]), "last")
		})
	}
}
