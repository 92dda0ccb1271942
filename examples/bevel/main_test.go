package main

import (
	"math"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Three ways, no fault in any; the V cutter leaves no step and takes the least
// time, and the face drawn of the steps stands off the true one by at most a scallop.
func TestThreeWays(t *testing.T) {
	drawing, report, err := compare()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(report), "\n")
	require.Len(t, lines, 4)
	assert.Contains(t, lines[1], "V cutter")
	assert.Contains(t, lines[1], " 0.000")
	assert.Contains(t, string(drawing), "<svg")
}

// The profile of a flat cutter that goes along two lines has two steps.
func TestProfile(t *testing.T) {
	tools := cut.Tools(10, 0, thick)
	line := func(y, z float64) cut.Move {
		m := cut.Move{Tool: 1, Feed: 1000}
		m.From.X, m.From.Y, m.From.Z = 0, y, z
		m.To.X, m.To.Y, m.To.Z = 1000, y, z
		return m
	}
	p := profile([]cut.Move{line(at, 9), line(at-5, 0)}, tools, 0)
	height := func(in float64) float64 {
		z := math.NaN()
		for i := range p.NumSegments() {
			if s := p.Segment(i); s.A.X <= in && in <= s.B.X && s.A.Y == s.B.Y {
				z = s.A.Y
			}
		}
		return z
	}
	assert.InDelta(t, 9, height(2), 1e-9)
	assert.InDelta(t, thick, height(7), 1e-9)
	assert.Equal(t, arc.V(0, 9, 0).P, p.V[0].P)
}
