package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// A box of boards has its center of gravity where the sum over its plates puts
// it: a hood with a straight plumb front, worked out by hand.
func TestHangOfABox(t *testing.T) {
	s := demo()
	s.Sweep, s.Neck.Depth, s.Back.Openings, s.Liner, s.Duct = Sweep{}, s.Depth, nil, Liner{}, Duct{}
	s.Corner = "front-covers"
	d, err := Build(s)
	require.NoError(t, err)
	h, err := d.Hang()
	require.NoError(t, err)
	const mdf, ply = 769e-9, 600e-9
	type slab struct{ mass, z, y float64 }
	cheek := slab{mdf * (521*860*19 - 12*860*9), 0, 430}
	cheek.z = (521*19*521/2.0 - 12*9*6) / (521*19 - 12*9)
	list := []slab{
		cheek, cheek,
		{mdf * 1050 * 140 * 19, 540 - 9.5, 70},
		{mdf * 1050 * 720 * 19, 540 - 9.5, 500},
		{ply * 1030 * 860 * 12, 6, 430},
		{mdf * 1012 * 509 * 19, 12 + 509/2.0, 860 - 9.5},
	}
	var mass, z, y float64
	for _, s := range list {
		mass, z, y = mass+s.mass, z+s.mass*s.z, y+s.mass*s.y
	}
	assert.InEpsilon(t, mass, h.Mass, 1e-9)
	assert.InDelta(t, 0, h.Center.X, 1e-6)
	assert.InDelta(t, y/mass, h.Center.Y, 1e-6)
	assert.InDelta(t, z/mass, h.Center.Z, 1e-6)
	assert.InEpsilon(t, mass*9.80665*(z/mass)/841, h.Pull, 1e-9)
	assert.InDelta(t, 0, r3.Norm(r3.Sub(h.Size, r3.Vec{X: 1050, Y: 860, Z: 540})), 1e-6)
	assert.Equal(t, "sweep", h.Heaviest)
}

func TestDoorway(t *testing.T) {
	s := demo()
	for _, w := range []struct {
		width, height float64
		passes        bool
	}{{0, 0, true}, {760, 2000, true}, {545, 865, true}, {530, 2000, false}, {545, 855, false}} {
		s.Doorway = Doorway{Width: w.width, Height: w.height}
		d, err := Build(s)
		require.NoError(t, err)
		h, err := d.Hang()
		require.NoError(t, err)
		assert.Equal(t, w.passes, h.Passes, "%v", w)
	}
}

func TestClearanceCautions(t *testing.T) {
	for _, w := range []struct {
		distance float64
		says     string
	}{{0, "not known"}, {600, "less than 610 mm"}, {700, "between 610 mm"}, {800, "800 mm above"}} {
		s := demo()
		s.Cooktop.Distance = w.distance
		d, err := Build(s)
		require.NoError(t, err)
		assert.Contains(t, d.Cautions[0].Text, w.says)
		for _, c := range d.Cautions {
			assert.NotEmpty(t, c.Source)
		}
	}
}

func TestStepsNameTheParts(t *testing.T) {
	d, err := Build(whole(flaredDemo()))
	require.NoError(t, err)
	all := ""
	for _, s := range d.Steps() {
		all += s.Text + "\n"
	}
	for _, p := range d.Parts {
		if p.Name != "back" && p.Name != "deck" && p.Name != "cleat" {
			assert.Contains(t, all, p.Name)
		}
	}
	t.Log(all)
}
