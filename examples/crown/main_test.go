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
	pieces, err := room().Solve()
	if err != nil {
		panic(err)
	}
	if err := report(os.Stdout, pieces); err != nil {
		panic(err)
	}
	// Output:
	// piece 1: wall 2900, long point to long point 2900.0
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// piece 2: wall 1050, long point to long point 1050.0
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// piece 3: wall 400, long point to long point 470.8
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, outside corner: miter 31.6° left   tilt 33.9° right  keep left
	// piece 4: wall 1200, long point to long point 1341.7
	//   left  end, outside corner: miter 31.6° right  tilt 33.9° left   keep right
	//   right end, outside corner: miter 31.6° left   tilt 33.9° right  keep left
	// piece 5: wall 400, long point to long point 470.8
	//   left  end, outside corner: miter 31.6° right  tilt 33.9° left   keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// piece 6: wall 1050, long point to long point 1050.0
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// piece 7: wall 2900, long point to long point 2900.0
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// piece 8: wall 3300, long point to long point 3300.0
	//   left  end, inside  corner: miter 31.6° left   tilt 33.9° right  keep right
	//   right end, inside  corner: miter 31.6° right  tilt 33.9° left   keep left
	// all cut flat, show face up, upper edge against the fence
	// bar 1 of 3600 mm: pieces 8, 297 mm left
	// bar 2 of 3600 mm: pieces 1 3, 223 mm left
	// bar 3 of 3600 mm: pieces 7 5, 223 mm left
	// bar 4 of 3600 mm: pieces 4 2 6, 149 mm left
	// cost 124.00, no plan costs less than 124.00
	// Support both ends, keep hands clear of the tilted blade, and prove a corner in scrap first.
}

func TestFigure(t *testing.T) {
	pieces, err := room().Solve()
	require.NoError(t, err)
	d := figure(room(), pieces)
	require.NoError(t, svg.Encode(io.Discard, d, svg.Options{}))
	// The pieces cover a band as wide as the molding stands out; it loses a
	// square at an inside corner and gains one at an outside corner, and a
	// closed walk has four more of the one than of the other.
	out := 92*math.Sin(38*math.Pi/180) + 18*math.Cos(38*math.Pi/180)
	area, around := 0.0, 0.0
	for i, p := range d.Layers[1].Paths {
		area += math.Abs(p.Area())
		around += pieces[i].Wall
	}
	assert.InDelta(t, around*out-4*out*out, area, 1e-6)
}
