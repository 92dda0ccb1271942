package bend

import (
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The curves a maker draws, kerfed as they come: every plan refolds to the
// drawn curve, from both sides of the board.
func TestDrawnCurves(t *testing.T) {
	must := func(p arc.Path, err error) arc.Path {
		require.NoError(t, err)
		return p
	}
	for name, p := range map[string]arc.Path{
		"elliptical arch": must(arc.EllipticalArch(1800, 600, 0.01)),
		"flat ellipse":    must(arc.EllipticalArch(2400, 300, 0.01)),
		"basket arch":     must(arc.BasketArch(2000, 600)),
		"ogee":            must(arc.Ogee(r2.Vec{X: 540, Y: 140}, r2.Vec{X: 300, Y: 860}, 45)),
		"through points": must(arc.SmoothThrough([]r2.Vec{
			{X: 0, Y: 0}, {X: 400, Y: 90}, {X: 900, Y: 120}, {X: 1500, Y: 40}, {X: 2000, Y: 60},
		}, false)),
	} {
		for side, profile := range map[string]arc.Path{"": p, ", other side": p.Reverse()} {
			lim := Limits{Facet: 0.2, Strain: 0.02, Land: 0.5}
			plan, err := KerfPlan(profile, Board{Thickness: 12, KerfWidth: 3, Web: 1}, lim)
			require.NoError(t, err, name+side)
			checkPlan(t, profile, plan, lim)
			assert.False(t, t.Failed(), name+side)
			t.Logf("%s%s: %d segments, %d kerfs in %d bends", name, side, profile.NumSegments(), len(plan.Kerfs), len(plan.Bends))
		}
	}
}
