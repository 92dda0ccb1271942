package bend

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

func BenchmarkKerfPlanOneArc(b *testing.B) {
	profile := sweep(-1)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := KerfPlan(profile, mdf19, common); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkKerfPlanRoundBottom(b *testing.B) {
	profile, board := sweep(1), mdf19
	board.Bottom = Round
	b.ReportAllocs()
	for b.Loop() {
		if _, err := KerfPlan(profile, board, common); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkKerfPlanTwelveArcs(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 2))
	var l, t []float64
	for i := range 12 {
		turn := 0.2 + 0.3*r.Float64()
		radius := 500 + 3000*r.Float64()
		l, t = append(l, radius*turn), append(t, math.Copysign(turn, float64(i%4)-1.5))
	}
	profile := chain(r2.Vec{}, 0, l, t)
	b.ReportAllocs()
	kerfs := 0
	for b.Loop() {
		p, err := KerfPlan(profile, mdf19, common)
		if err != nil {
			b.Fatal(err)
		}
		kerfs = len(p.Kerfs)
	}
	b.ReportMetric(float64(kerfs), "kerfs")
}

// A thousand arcs whose radius jumps by two thousand and back at every joint,
// under limits that none of the ways to cut them up keeps: as long as a
// refusal takes.
func BenchmarkKerfPlanHopeless(b *testing.B) {
	l, t := make([]float64, maxSegments), make([]float64, maxSegments)
	for i := range l {
		t[i] = 3.0 / maxSegments
		l[i] = t[i] * []float64{1e5, 50}[i%2]
	}
	profile := chain(r2.Vec{}, 0, l, t)
	for b.Loop() {
		if _, err := KerfPlan(profile, mdf19, Limits{Facet: 1e-4}); err == nil {
			b.Fatal("planned")
		}
	}
}

func BenchmarkRefold(b *testing.B) {
	profile := sweep(-1)
	p, err := KerfPlan(profile, mdf19, common)
	if err != nil {
		b.Fatal(err)
	}
	blank := p.Blank()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Refold(blank, r2.Vec{}, 0); err != nil {
			b.Fatal(err)
		}
	}
}
