package main

import (
	"io"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc/svg"
)

func Example() {
	boards, err := hopper().Solve()
	if err != nil {
		panic(err)
	}
	report(os.Stdout, boards)
	// Output:
	// long side, make two
	//   show face: 120.0 mm below, 520.0 above, 364.0 up the slope
	//   rip both long edges at 20.92°, parallel, so that they lie level: the back is longer below, shorter above
	//   left end: flat, show face up, lower edge against the fence
	//     miter 28.79° to the right, tilt 39.78° to the right, keep the left (direct)
	//   right end: flat, show face up, lower edge against the fence
	//     miter 28.79° to the left, tilt 39.78° to the left, keep the right (direct)
	// short side, make two
	//   show face: 120.0 mm below, 380.0 above, 394.5 up the slope
	//   rip both long edges at 30.47°, parallel, so that they lie level: the back is longer below, shorter above
	//   left end: flat, show face up, lower edge against the fence
	//     miter 18.24° to the right, tilt 39.78° to the right, keep the left (direct)
	//   right end: flat, show face up, lower edge against the fence
	//     miter 18.24° to the left, tilt 39.78° to the left, keep the right (direct)
	// Clamp the boards, keep hands clear of the tilted blade, and prove each setting in scrap first.
}

func TestFigure(t *testing.T) {
	boards, err := hopper().Solve()
	require.NoError(t, err)
	d := figure(boards)
	require.NoError(t, svg.Encode(io.Discard, d, svg.Options{}))
	// What is drawn is a trapezoid between outlet and mouth.
	for i, run := range []float64{mouthY - outlet, mouthX - outlet} {
		mouth := []float64{mouthX, mouthY}[i]
		slope := math.Hypot(run/2, height)
		assert.InDelta(t, (outlet+mouth)/2*slope, d.Layers[0].Regions[i].Area(), 1e-6)
	}
}
