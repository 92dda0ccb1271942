package place

import (
	"context"
	"math/rand/v2"
	"testing"
	"time"
)

// Best known densities in percent: Gardeyn, Vanden Berghe, Wauters 2025
// (arXiv:2509.13329), tables 2 and 3.
var bestKnown = []struct {
	name    string
	density float64
}{
	{"albano", 89.82}, {"dagli", 90.17}, {"fu", 92.41}, {"jakobs1", 89.26}, {"shapes0", 69.98},
	{"shirts", 90.92}, {"swim", 79.83}, {"gardeyn0", 89.85}, {"gardeyn4", 79.92},
}

// BenchmarkIrregular packs the open sets in 60 s on two workers and reports
// the density beside the best known.
func BenchmarkIrregular(b *testing.B) {
	for _, c := range bestKnown {
		b.Run(c.name, func(b *testing.B) {
			in := loadInstance(b, c.name)
			var r Result
			seed := uint64(0)
			for b.Loop() {
				seed++
				var err error
				r, err = Strip(context.Background(), in.items(), in.Height, Options{Seed: seed, Time: 60 * time.Second, Workers: 2})
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*in.Area/(in.Height*r.Length), "density-%")
			b.ReportMetric(c.density, "best-known-%")
			b.ReportMetric(float64(r.Iterations), "sweeps")
		})
	}
}

// A shop's job: 40 parts of a few outlines on sheets, one second.
func BenchmarkFit40(b *testing.B) { benchmarkFit(b, 8, 5, time.Second) }

// A large job: 500 parts.
func BenchmarkFit500(b *testing.B) { benchmarkFit(b, 50, 10, 60*time.Second) }

func benchmarkFit(b *testing.B, kinds, demand int, limit time.Duration) {
	items := shopItems(kinds, demand)
	var sheets []Container
	for range 60 {
		sheets = append(sheets, Container{Width: 2440, Height: 1220})
	}
	b.ReportAllocs()
	var r Result
	for b.Loop() {
		var err error
		if r, err = Fit(context.Background(), items, sheets, Options{Time: limit, Workers: 2}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(r.Containers), "sheets")
	b.ReportMetric(float64(len(r.Unplaced)), "unplaced")
	b.ReportMetric(r.Length, "last-length-mm")
	b.ReportMetric(100*r.Density, "density-%")
}

// shopItems invents parts: plain and notched rectangles and curved fronts.
func shopItems(kinds, demand int) []Item {
	rng := rand.New(rand.NewPCG(11, 12))
	var items []Item
	for k := range kinds {
		w, h := 200+500*rng.Float64(), 100+300*rng.Float64()
		p := rect(w, h)
		switch k % 3 {
		case 1:
			p = append(p[:2:2], p[2], p[3])
			p[2].X *= 0.6
		case 2:
			p = append(p[:3:3], p[2], p[3])
			p[3].X, p[3].Y = w/2, h*0.7
			p[4].X, p[4].Y = 0, h
		}
		items = append(items, Item{Outer: p, Demand: demand, Rotations: rightAngles})
	}
	return items
}

// One evaluation of a place in a layout of 99 copies.
func BenchmarkEval(b *testing.B) {
	in := loadInstance(b, "shirts")
	p, err := newProblem(context.Background(), "Strip", in.items(), nil, nil, nil)
	if err != nil {
		b.Fatal(err)
	}
	copies := copiesOf(p.items)
	l := newLane(p, copies, len(copies), 1, 1, newStopper(context.Background(), Options{}))
	l.h = p.floor(in.Height)
	l.shelves()
	l.w = l.used() / 2
	for i := range copies {
		l.setInside(i, l.x[i]/2, l.y[i])
	}
	l.measure()
	b.ReportAllocs()
	for b.Loop() {
		l.eval(0, l.o[0], l.randX(l.o[0]), l.randY(l.o[0]), 1e300)
	}
}
