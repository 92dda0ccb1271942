package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
			rho := density(p.Material, 0)
			assert.InEpsilon(t, p.Mass, m.Volume()*rho*1e-9, 1e-3, "%s %s", corner, p.Name)
		}
	}
}
