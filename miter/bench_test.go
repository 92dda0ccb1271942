package miter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/sagitta/miter"
)

func BenchmarkCorner(b *testing.B) {
	c := miter.Corner{Plan: deg(97), First: miter.Board{Tilt: deg(70), Thickness: 19}, Second: miter.Board{Tilt: deg(81), Thickness: 12}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Cuts(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSeam solves the flared sweep and draws both blanks' edges.
func BenchmarkSeam(b *testing.B) {
	p := flared()
	segments := 0
	b.ReportAllocs()
	for b.Loop() {
		s, err := p.Seam()
		if err != nil {
			b.Fatal(err)
		}
		first, _, err := s.Edges(0.01)
		if err != nil {
			b.Fatal(err)
		}
		segments = first[0].Show.NumSegments()
	}
	b.ReportMetric(float64(segments), "segments/edge")
}

func BenchmarkSteps(b *testing.B) {
	s, err := flared().Seam()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := s.Steps(6); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRefit(b *testing.B) {
	p := flared()
	first, second := blanks(b, p, 0.01)
	var fit miter.Fit
	b.ReportAllocs()
	for b.Loop() {
		var err error
		if fit, err = miter.Refit(first, second, p.Plan); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(fit.Show.Max(), "mm-off/show")
	b.ReportMetric(fit.Back.Max(), "mm-off/back")
}
