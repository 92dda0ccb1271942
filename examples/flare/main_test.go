package main

import (
	"io"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc/svg"
	"example.com/sagitta/miter"
)

func Example() {
	if _, _, err := work(os.Stdout); err != nil {
		panic(err)
	}
	// Output:
	// height   front: up  along   side: up  along   bevel
	//    0.0        0.00 450.00       0.00 520.00   38.29°
	//   80.0       93.70 414.41      87.56 471.26   39.48°
	//  160.0      184.11 382.48     173.71 429.16   40.55°
	//  240.0      271.88 354.03     258.62 393.09   41.51°
	//  320.0      357.52 328.93     342.47 362.57   42.34°
	//  400.0      441.44 307.07     425.41 337.25   43.07°
	//  480.0      524.01 288.35     507.57 316.84   43.68°
	//  560.0      605.55 272.68     589.10 301.14   44.17°
	//  640.0      686.33 260.00     670.10 290.00   44.56°
	// cut with 1 bevel(s), from 44.56° to 44.56°, the back stands open by up to 5.52 mm
	// cut with 2 bevel(s), from 41.51° to 44.56°, the back stands open by up to 2.70 mm
	// cut with 4 bevel(s), from 39.91° to 44.56°, the back stands open by up to 1.34 mm
	// cut with 8 bevel(s), from 39.11° to 44.56°, the back stands open by up to 0.67 mm
	// edges of 10 and 8 lines and arcs; bent back they meet within 0.01 mm
	// The tilted blade and the sharp edge both cut: use a carriage or clamps, and prove the bevel in scrap.
}

func TestFigure(t *testing.T) {
	front, side, err := work(io.Discard)
	require.NoError(t, err)
	d := figure(front, side)
	require.NoError(t, svg.Encode(io.Discard, d, svg.Options{}))
	for i, b := range []miter.Blank{front, side} {
		box := d.Layers[0].Paths[i].Bounds()
		assert.InDelta(t, b.Profile.Length(), box.Max.Y-box.Min.Y, 1e-9)
		assert.Less(t, d.Layers[1].Paths[i].Length(), d.Layers[0].Paths[i].Length())
	}
}
