package arc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/sagitta/arc"
)

// wavy returns a loop of n lines and arcs that wobbles around a circle by
// about as much as its segments are long.
func wavy(n int) arc.Path {
	rng := rand.New(rand.NewPCG(1, 2))
	p := arc.Path{Closed: true}
	r := float64(n)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d := r + 4*rng.Float64()
		p.V = append(p.V, arc.V(d*cos, d*sin, 0.3*float64(i%2)*(rng.Float64()-0.5)))
	}
	return p
}

func BenchmarkOffset(b *testing.B) {
	for _, n := range []int{1000, 10000, 100000} {
		for _, d := range []float64{-3, 3} {
			b.Run(fmt.Sprintf("%d/%g", n, d), func(b *testing.B) {
				p := wavy(n)
				b.ReportAllocs()
				for b.Loop() {
					out, err := p.Offset(d, arc.OffsetOptions{})
					if err != nil || len(out) == 0 {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/segment")
			})
		}
	}
}
