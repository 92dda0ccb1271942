package main

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The outer edge is longer than the inner by the width times the turn of a half
// circle, whatever the arch: that is what parallels of a smooth curve do.
func TestCasing(t *testing.T) {
	var out, figure bytes.Buffer
	require.NoError(t, run(&out, &figure))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 6)
	var in, by float64
	_, err := fmt.Sscanf(lines[0], "inner edge %f mm, outer edge %f mm", &in, &by)
	require.NoError(t, err)
	assert.InDelta(t, width*math.Pi, by-in, 0.11)
	turns, legs := 0.0, 0
	for _, l := range lines[1:] {
		var ri, ro, turn, long, wide float64
		if strings.HasPrefix(l, "leg") {
			legs++
			continue
		}
		_, err := fmt.Sscanf(l, "arc: radius %f inside, %f outside, turn %f°, from a board %f × %f mm", &ri, &ro, &turn, &long, &wide)
		require.NoError(t, err, l)
		assert.InDelta(t, width, ro-ri, 0.11)
		// A ring sector of less than half a turn stands in 2·R·sin(a/2) by R − r·cos(a/2).
		a := turn * math.Pi / 360
		assert.InDelta(t, 2*ro*math.Sin(a), long, 1)
		assert.InDelta(t, ro-ri*math.Cos(a), wide, 1)
		turns += turn
	}
	assert.Equal(t, 2, legs)
	assert.InDelta(t, 180, turns, 0.02)
	assert.Contains(t, figure.String(), "</svg>")
}
