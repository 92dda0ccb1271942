package packet

import (
	"context"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
)

// Whatever cutter, boards, tabs and pins are, a hood that can be built has
// programs that cut its slots, mortises and holes as asked: their replay is in
// every packet.
func TestEveryCutterCutsTabsAndPins(t *testing.T) {
	n := 6
	if testing.Short() {
		n = 3
	}
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 150
	}
	r := rand.New(rand.NewPCG(17, 4))
	pick := func(v ...float64) float64 { return v[r.IntN(len(v))] }
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	made := 0
	for i := range n {
		s, err := ReadSpec(strings.NewReader(registered))
		require.NoError(t, err)
		if i%2 == 1 {
			s, err = ReadSpec(strings.NewReader(registeredFlared))
			require.NoError(t, err)
		}
		s.Sweep = hood.Sweep{} // straight, for speed
		s.LeftSweep = hood.Sweep{}
		s.Board.Thickness, s.Back.Thickness = pick(12, 15, 18, 19, 25), pick(9, 12, 15)
		s.Back.Rabbet = pick(0, 6)
		s.Cut.Tool = pick(3.175, 4, 6, 6.35, 8, 9.525)
		s.Tabs = hood.Tabs{Width: s.Cut.Tool * between(3, 9), Clearance: pick(0, 0.2, 0.5), Spacing: between(150, 500)}
		s.Pins = hood.Pins{Diameter: s.Cut.Tool * between(1.01, 2.5), Depth: between(3, 7), Clearance: pick(0, 0.1), Spacing: between(100, 400)}
		s.Dado = hood.Dado{Depth: pick(0, 4), Clearance: 0.2}
		files, err := Make(context.Background(), s, Options{})
		var faults hood.Faults
		if assert.NotErrorIs(t, err, hood.ErrOpen) && err != nil {
			require.ErrorAs(t, err, &faults)
			for _, f := range faults {
				assert.False(t, strings.HasPrefix(f.Param, "proof") || strings.HasPrefix(f.Param, "job"), "%d: %v with %+v %+v, cutter %g, board %g, back %g",
					i, f, s.Tabs, s.Pins, s.Cut.Tool, s.Board.Thickness, s.Back.Thickness)
			}
			t.Logf("%d: %v", i, err)
			continue
		}
		made++
		assert.NotEmpty(t, files)
	}
	t.Logf("%d of %d made", made, n)
	assert.Greater(t, made, n/3)
}
