package main

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/rs274"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The text goes around two trays at a radius of the cutter, 10 mm deep in
// their pockets' floors and through the sheet at their edges; the drawing holds
// as many ways as it has moves.
func TestTrays(t *testing.T) {
	program, drawing, report, err := write()
	require.NoError(t, err)
	assert.Contains(t, report, " 0 faults")
	moves, _, err := rs274.Read(bytes.NewReader(program), rs274.Options{Dwell: 5, Number: 10, Rewind: true})
	require.NoError(t, err)
	depths := map[float64]bool{}
	left, cuts := math.Inf(1), 0
	for _, m := range moves {
		if m.Rapid {
			continue
		}
		cuts++
		depths[m.To.Z] = true
		way := arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}
		left = math.Min(left, way.Bounds().Min.X)
	}
	assert.True(t, depths[10], "floor of the pockets: 18 less 8")
	assert.True(t, depths[-0.2], "into the spoilboard")
	// The left edge is an arc of K 0.2 over 180 mm: its sag is K times half the chord.
	assert.InDelta(t, 80-0.2*90-3, left, 1e-3)
	assert.GreaterOrEqual(t, strings.Count(string(drawing), "M"), cuts/2)
	assert.True(t, strings.HasSuffix(string(program), "M30\n"))
	again, _, _, err := write()
	require.NoError(t, err)
	assert.Equal(t, program, again)
}
