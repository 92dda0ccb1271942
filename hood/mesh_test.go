package hood

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/hood/spec"
)

// checkMesh asks every directed edge to be there once, with its reverse.
func checkMesh(t require.TestingT, s Solid) {
	seen := map[[2]int]int{}
	for _, tri := range s.Triangles {
		for i := range 3 {
			seen[[2]int{tri[i], tri[(i+1)%3]}]++
		}
	}
	require.NotEmpty(t, seen, s.Name)
	for e, n := range seen {
		require.Equal(t, 1, n, "%s: edge %v", s.Name, e)
		require.Equal(t, 1, seen[[2]int{e[1], e[0]}], "%s: reverse of edge %v", s.Name, e)
	}
}

// The mass of a part comes from its flat area, bevels and grooves; the volume
// of its mesh is an independent figure for the same.
func TestMeshes(t *testing.T) {
	for _, corner := range []string{"miter", "front-covers", "cheek-covers"} {
		s := demo()
		s.Corner = corner
		d, err := Build(s)
		require.NoError(t, err)
		model, err := d.Model()
		require.NoError(t, err)
		require.Len(t, model, len(d.Parts))
		for i, m := range model {
			p := d.Parts[i]
			checkMesh(t, m)
			rho := spec.Density(p.Material, 0)
			assert.InEpsilon(t, p.Mass, m.Volume()*rho*1e-9, 1e-3, "%s %s", corner, p.Name)
		}
	}
}

// The frame is right-handed: x to the right as one faces the hood, y up, z out
// of the wall, and in every part Right × Up is In.
func TestFrame(t *testing.T) {
	for _, s := range []Spec{whole(demo()), whole(sidesDemo())} {
		d, err := Build(s)
		require.NoError(t, err)
		for _, p := range d.Parts {
			assert.InDelta(t, 0, r3.Norm(r3.Sub(p.Pose.In, r3.Cross(p.Pose.Right, p.Pose.Up))), 1e-12, p.Name)
			assert.InDelta(t, 1, r3.Norm(p.Pose.In), 1e-12, p.Name)
		}
		solids, err := d.Model()
		require.NoError(t, err)
		for _, m := range solids {
			assert.Positive(t, m.Volume(), m.Name)
			low, high := extent(m)
			assert.GreaterOrEqual(t, low.Y, -1e-9, "%s: above the bottom edge", m.Name)
			assert.GreaterOrEqual(t, low.Z, -s.Scribe.Allowance-1e-9, "%s: before the wall", m.Name)
			switch {
			case strings.HasSuffix(m.Name, "-right"):
				assert.Positive(t, low.X, m.Name)
			case strings.HasSuffix(m.Name, "-left"):
				assert.Negative(t, high.X, m.Name)
			case m.Name == "deck":
				assert.InDelta(t, s.Height, high.Y, 1e-9)
			case strings.HasPrefix(m.Name, "skirt"):
				assert.InDelta(t, s.Depth, high.Z, 1e-9)
			}
		}
	}
}
