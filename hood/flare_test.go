package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood/internal/boards"
	"example.com/sagitta/hood/spec"
)

// flaredDemo has both sides flared.
func flaredDemo() Spec {
	s := demo()
	s.Neck.Width = 500
	s.Sweep.Sag = 45
	s.SideSweep = Sweep{Shape: "cove", Sag: 30}
	return s
}

func TestFlared(t *testing.T) {
	d, err := Build(flaredDemo())
	require.NoError(t, err)
	for _, c := range d.Checks {
		t.Logf("%-60s %.9f %.9f %v", c.Name, c.Value, c.Limit, c.OK)
	}
	for _, p := range d.Parts {
		t.Logf("%-12s %.3f kg %.1f %v", p.Name, p.Mass, p.Outline.Bounds(), len(p.Outline.Outer.V))
	}
	model, err := d.Model()
	require.NoError(t, err)
	for i, m := range model {
		checkMesh(t, m)
		assert.InEpsilon(t, d.Parts[i].Mass, m.Volume()*spec.Density(d.Parts[i].Material, 0)*1e-9, 1e-3, m.Name)
	}
}

// The flared sweep: front z from 540 at y 140 to 300 at y 860, sag 45; side x
// from 525 to 250, sag 30; board 19. Derived from the offsets of both curves
// and checked with 40-digit arithmetic.
func TestFlaredSeam(t *testing.T) {
	h, err := boards.Make(flaredDemo().Sizes())
	require.NoError(t, err)
	at, err := h.Right.Seam.At(428)
	require.NoError(t, err)
	p := seamPoint(boards.Station{Y: 428, Station: at}, 140)
	assert.InDelta(t, 383.821, p.XShow, 5e-4)
	assert.InDelta(t, 397.786, p.ZShow, 5e-4)
	assert.InDelta(t, 321.726, p.UFront, 5e-4)
	assert.InDelta(t, 320.964, p.USide, 5e-4)
	assert.InDelta(t, 41.1439, p.Bevel.Degrees(), 5e-5)
	assert.InDelta(t, 363.281, p.XBack, 5e-4)
	assert.InDelta(t, 328.779, p.UFrontBack, 5e-4)
	list := flareOf(h.Front, h.Right, 140, 19).Seam
	assert.InDelta(t, 37.3723, list[0].Bevel.Degrees(), 5e-5)
	assert.InDelta(t, 44.4902, list[len(list)-1].Bevel.Degrees(), 5e-5)
}
