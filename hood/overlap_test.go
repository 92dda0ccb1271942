package hood

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// No wood where there is wood already: points inside each part, drawn at
// random, are looked for in every other part by counting how often a ray
// leaves its mesh. Where faces touch, facets let single points lie in both.
func TestNoPartInAnother(t *testing.T) {
	for _, s := range []Spec{whole(demo()), whole(flaredDemo()), whole(sidesDemo()), whole(leftDemo()), registered()} {
		d, err := Build(s)
		require.NoError(t, err)
		model, err := d.Model()
		require.NoError(t, err)
		r := rand.New(rand.NewPCG(1, 2))
		both, all := map[string]int{}, 0
		for i, m := range model {
			if m.Name == "cleat-wall" {
				continue
			}
			low, high := extent(m)
			for range 150 {
				v := r3.Vec{X: low.X + r.Float64()*(high.X-low.X), Y: low.Y + r.Float64()*(high.Y-low.Y), Z: low.Z + r.Float64()*(high.Z-low.Z)}
				if !inside(m, v) {
					continue
				}
				all++
				for j, n := range model {
					if j != i && inside(n, v) {
						both[m.Name+" in "+n.Name]++
					}
				}
			}
		}
		require.Greater(t, all, 300)
		for k, n := range both {
			assert.LessOrEqual(t, n, 2, "%s: %d of %d points", k, n, all)
		}
	}
}

func extent(m Solid) (low, high r3.Vec) {
	low, high = m.Vertices[0], m.Vertices[0]
	for _, v := range m.Vertices {
		low = r3.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
		high = r3.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
	}
	return low, high
}

// inside counts the triangles that a ray in a skew direction passes.
func inside(m Solid, v r3.Vec) bool {
	dir := r3.Vec{X: 0.5377, Y: 0.8339, Z: 0.1234}
	odd := false
	for _, t := range m.Triangles {
		a, b, c := r3.Sub(m.Vertices[t[0]], v), r3.Sub(m.Vertices[t[1]], v), r3.Sub(m.Vertices[t[2]], v)
		u := r3.Dot(dir, r3.Cross(a, b))
		w := r3.Dot(dir, r3.Cross(b, c))
		x := r3.Dot(dir, r3.Cross(c, a))
		if (u > 0) != (w > 0) || (u > 0) != (x > 0) {
			continue
		}
		n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
		if r3.Dot(a, n)*r3.Dot(dir, n) > 0 {
			odd = !odd
		}
	}
	return odd
}
