package hood

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// whole adds everything that can be added.
func whole(s Spec) Spec {
	s.Ribs = Ribs{Spacing: 350, Depth: 70, Clearance: 0.4}
	s.Dado = Dado{Depth: 6, Clearance: 0.3}
	s.Cleat = Cleat{Height: 90, Short: 20}
	s.Blocks = Blocks{Leg: 70}
	s.Chimney = Chimney{Height: 400}
	s.Scribe = Scribe{Allowance: 8, Wall: [][2]float64{{0, 0}, {400, 5}, {860, 2}}}
	s.Tabs = Tabs{Width: 40, Clearance: 0.3, Spacing: 250}
	s.Pins = Pins{Diameter: 10, Depth: 8, Clearance: 0.1, Spacing: 300}
	return s
}

func TestWhole(t *testing.T) {
	for _, s := range []Spec{whole(demo()), whole(flaredDemo()), whole(sidesDemo()), whole(leftDemo())} {
		d, err := Build(s)
		require.NoError(t, err)
		for _, c := range d.Checks {
			t.Logf("%-60s %.9f %.9f %v", c.Name, c.Value, c.Limit, c.OK)
		}
		checkModel(t, d)
		for _, p := range d.Parts {
			t.Logf("%-12s %.3f kg %.1f", p.Name, p.Mass, p.Outline.Bounds())
		}
	}
}
