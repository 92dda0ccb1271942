package rects

import (
	"context"
	"testing"
	"time"
)

type stripCase struct {
	Name    string       `json:"name"`
	Width   float64      `json:"strip_width"`
	Optimal float64      `json:"optimal_height"`
	Items   [][2]float64 `json:"items"`
}

// BenchmarkHopperTurton reports how far above the known optimum the strips of
// Hopper and Turton 2001 end after ten seconds.
func BenchmarkHopperTurton(b *testing.B) {
	var cases []stripCase
	readData(b, "hopper_turton_C.json", &cases)
	for _, c := range cases {
		b.Run(c.Name, func(b *testing.B) {
			h := 0.0
			for b.Loop() {
				ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
				_, h = Strip(turnable(c.Items), c.Width, 1, Stop{Ctx: ctx})
				cancel()
			}
			b.ReportMetric(h/c.Optimal, "height/optimum")
		})
	}
}
