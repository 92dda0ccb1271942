package miter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/miter"
)

// TestBest holds the way to cut ends that every shop has met (common practice).
func TestBest(t *testing.T) {
	for name, c := range map[string]struct {
		miter, bevel float64
		saw          miter.Saw
		onEdge       bool
		way          miter.Way
		set          [2]float64
	}{
		"plumb box":                    {0, 45, miter.Saw{}, false, miter.Direct, [2]float64{0, 45}},
		"picture frame":                {45, 0, miter.Saw{}, false, miter.Direct, [2]float64{45, 0}},
		"crown":                        {31.62, -33.86, miter.Saw{}, false, miter.Direct, [2]float64{31.62, 33.86}},
		"bevel over 45, on edge":       {0, 48, miter.Saw{}, true, miter.Direct, [2]float64{48, 0}},
		"saw that does not tilt":       {0, 45, miter.Saw{Tilt: deg(0.001)}, true, miter.Direct, [2]float64{45, 0}},
		"plumb triangle":               {0, 60, miter.Saw{}, false, miter.TallFence, [2]float64{0, 30}},
		"plumb triangle, good saw":     {0, 60, miter.Saw{Miter: deg(60)}, true, miter.Direct, [2]float64{60, 0}},
		"frame of a triangle":          {-60, 0, miter.Saw{}, false, miter.SquareFence, [2]float64{30, 0}},
		"needle":                       {70, 70, miter.Saw{}, false, miter.BothFences, [2]float64{20, 20}},
		"tall frame on a tilting head": {60, 0, miter.Saw{Tilt: deg(60)}, true, miter.Direct, [2]float64{0, 60}},
	} {
		e := miter.End{Hand: miter.Right, Miter: deg(c.miter), Bevel: deg(c.bevel)}
		set, way := c.saw.Best(e)
		assert.Equal(t, c.way, way, name)
		assert.Equal(t, c.onEdge, set.Stand.OnEdge, name)
		m, tilt := way.Angles(set)
		assert.InDelta(t, c.set[0], m.Degrees(), 1e-9, name)
		assert.InDelta(t, c.set[1], tilt.Degrees(), 1e-9, name)
	}
}

// TestHands: the two ends of a crown piece mirror each other at the saw.
func TestHands(t *testing.T) {
	c, err := miter.Crown(deg(38), deg(90), true)
	require.NoError(t, err)
	cuts, err := c.Cuts()
	require.NoError(t, err)
	right, left := cuts.First.Setting(miter.Stand{}), cuts.Second.Setting(miter.Stand{})
	assert.NotEqual(t, right.MiterTo, left.MiterTo)
	assert.NotEqual(t, right.TiltTo, left.TiltTo)
	assert.NotEqual(t, right.Keep, left.Keep)
	assert.Equal(t, right.Miter, left.Miter)
	// Turned end for end, to its other edge, one tilt serves both ends.
	other := cuts.Second.Setting(miter.Stand{UpperEdge: true})
	assert.Equal(t, right.TiltTo, other.TiltTo)
	assert.Equal(t, right.Keep, other.Keep)
	assert.NotEqual(t, right.MiterTo, other.MiterTo)
}

// TestCrownHands holds the table in the manuals of miter saws for crown lying
// flat, show face up, on a saw that tilts to the left (from memory): which edge
// goes to the fence, which way the table turns, and which side is kept.
func TestCrownHands(t *testing.T) {
	for name, c := range map[string]struct {
		inside, second, top bool
		turn, keep          miter.Hand
	}{
		"inside corner, left side":   {true, false, true, miter.Right, miter.Left},
		"inside corner, right side":  {true, true, false, miter.Left, miter.Left},
		"outside corner, left side":  {false, false, false, miter.Left, miter.Right},
		"outside corner, right side": {false, true, true, miter.Right, miter.Right},
	} {
		corner, err := miter.Crown(deg(38), deg(90), c.inside)
		require.NoError(t, err)
		cuts, err := corner.Cuts()
		require.NoError(t, err)
		e := cuts.First
		if c.second {
			e = cuts.Second
		}
		set := e.Setting(miter.Stand{UpperEdge: c.top})
		assert.Equal(t, miter.Left, set.TiltTo, name)
		assert.Equal(t, c.turn, set.MiterTo, name)
		assert.Equal(t, c.keep, set.Keep, name)
	}
}
