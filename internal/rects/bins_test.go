package rects

import (
	"context"
	"testing"
	"time"
)

type binCase struct {
	Name   string       `json:"name"`
	Bin    [2]float64   `json:"bin"`
	Items  [][2]float64 `json:"items"`
	Best   int          `json:"best_known_bins_rotation"`
	Staged int          `json:"best_known_3stage_guillotine_rotation"`
}

func benchmarkBins(b *testing.B, per time.Duration, best func(binCase) int, pack func([]Item, Size, Stop) int) {
	var cases []binCase
	readData(b, "class_bins.json", &cases)
	got, want := 0, 0
	for b.Loop() {
		got, want = 0, 0
		for _, c := range cases {
			ctx, cancel := context.WithTimeout(context.Background(), per)
			n := pack(turnable(c.Items), Size{c.Bin[0], c.Bin[1]}, Stop{Ctx: ctx})
			cancel()
			if n != best(c) {
				b.Logf("%s: %d bins, best known %d", c.Name, n, best(c))
			}
			got, want = got+n, want+best(c)
		}
	}
	b.ReportMetric(float64(got), "bins")
	b.ReportMetric(float64(got)/float64(want), "bins/best")
}

// BenchmarkBins packs the classes of Berkey and Wang 1987 and Martello and
// Vigo 1998, two seconds an instance, and reports the bins used beside the
// best published.
func BenchmarkBins(b *testing.B) {
	benchmarkBins(b, 2*time.Second, func(c binCase) int { return c.Best }, func(items []Item, bin Size, stop Stop) int {
		return len(Bins(items, bin, 1, stop))
	})
}

// BenchmarkStagedBins packs the same classes in three stages of straight cuts.
func BenchmarkStagedBins(b *testing.B) {
	for name, saw := range map[string]Saw{"trim": {Stages: 3}, "exact": {Stages: 3, Exact: true}} {
		b.Run(name, func(b *testing.B) {
			benchmarkBins(b, 2*time.Second, func(c binCase) int { return c.Staged }, func(items []Item, bin Size, stop Stop) int {
				return len(StagedBins(items, bin, saw, 1, stop))
			})
		})
	}
}
