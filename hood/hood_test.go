package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// demo is the hood most tests start from.
func demo() Spec {
	return Spec{
		Version: Version, Width: 1050, Height: 860, Depth: 540, Skirt: 140,
		Neck:  Neck{Depth: 300, Width: 1050},
		Sweep: Sweep{Shape: "cove", Sag: 45},
		Board: Board{Material: "mdf", Thickness: 19, Sheets: []Sheet{{Length: 2465, Width: 1245}}},
		Back: Back{Material: "plywood", Thickness: 12, Rabbet: 9,
			Openings: []Opening{{Shape: "circle", Y: 580, Diameter: 160}}},
		Liner: Liner{Length: 760, Width: 300}, Duct: Duct{Diameter: 200},
		Bend: Bend{KerfWidth: 3.2, Web: 1.6, Facet: 0.1, Strain: 0.008},
		Cut:  Cut{Gap: 10, Margin: 10, Tool: 9.525},
	}
}

func TestDemo(t *testing.T) {
	d, err := Build(demo())
	require.NoError(t, err)
	for _, c := range d.Checks {
		t.Logf("%-60s %.9f %.9f %v", c.Name, c.Value, c.Limit, c.OK)
	}
	for _, p := range d.Parts {
		t.Logf("%-12s %.3f kg %.1f", p.Name, p.Mass, p.Outline.Bounds())
	}
	t.Logf("%+v", d.Front)
	assert.NotEmpty(t, d.Parts)
}
