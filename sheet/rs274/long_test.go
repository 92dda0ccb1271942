package rs274_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// TestFlatArcs reads back arcs from flat beyond telling to a quarter circle: a
// sag that vanishes in the last digit is a line, a radius beyond a control's
// digits is lines, and all stay by the arc that was asked.
func TestFlatArcs(t *testing.T) {
	for _, c := range []struct {
		sag  float64
		arcs bool
	}{{1e-300, false}, {1e-9, false}, {4.9e-5, false}, {1e-3, false}, {0.02, false}, {1.35, false}, {1.37, true}, {50, true}} {
		s := arc.Segment{A: r2.Vec{X: 10, Y: 20}, B: r2.Vec{X: 1010, Y: 320}, K: 2 * c.sag / math.Hypot(1000, 300)}
		from, to := r3.Vec{X: s.A.X, Y: s.A.Y, Z: -1}, r3.Vec{X: s.B.X, Y: s.B.Y, Z: -3}
		p := cut.Program{
			Safe:  25,
			Tools: []cut.Tool{{Number: 1, Diameter: 6}},
			Operations: []cut.Operation{{Tool: 1, Name: "flat", Moves: []cut.Move{
				{From: r3.Vec{Z: 25}, To: r3.Vec{X: from.X, Y: from.Y, Z: 25}, Rapid: true, Tool: 1, Speed: 9000},
				{From: r3.Vec{X: from.X, Y: from.Y, Z: 25}, To: from, Feed: 500, Tool: 1, Speed: 9000},
				{From: from, To: to, K: s.K, Feed: 500, Tool: 1, Speed: 9000},
			}}},
		}
		var b bytes.Buffer
		require.NoError(t, rs274.Encode(&b, p, rs274.Options{}), "sag %g", c.sag)
		moves, _, err := rs274.Read(&b, rs274.Options{})
		require.NoError(t, err)
		arcs, length := false, 0.0
		for _, m := range moves {
			if m.Rapid || m.From.Z > -1 {
				continue
			}
			arcs = arcs || m.K != 0
			g := arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}
			length += g.Length()
			assert.Less(t, s.Distance(g.Mid()), 1.2e-3, "sag %g", c.sag)
			l, _ := s.Closest(g.B)
			assert.InDelta(t, -1-2*l/s.Length(), m.To.Z, 1e-3, "the height keeps pace")
		}
		assert.Equal(t, c.arcs, arcs, "sag %g", c.sag)
		assert.InDelta(t, s.Length(), length, 1e-3)
	}
}
