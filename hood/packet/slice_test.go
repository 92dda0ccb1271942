package packet

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
)

// The section of a skirt is a rectangle less the triangle its bevel takes; that
// of a ply a strip of its thickness along its trimmed middle.
func TestSliceAreas(t *testing.T) {
	for _, spec := range []string{checkedFront, laminatedSpec, flaredPlies} {
		s, err := ReadSpec(strings.NewReader(spec))
		require.NoError(t, err)
		d, err := hood.Build(s)
		require.NoError(t, err)
		model, err := d.Model()
		require.NoError(t, err)
		seen := 0
		for i, m := range model {
			p := d.Parts[i]
			want := 0.0
			switch {
			case strings.HasPrefix(p.Name, "skirt") && !strings.HasSuffix(p.Name, "t-left") && !strings.HasSuffix(p.Name, "-right"):
				want = 19*140 - 19*19*math.Tan(float64(d.Front.SkirtBevel))/2
			case p.Ply > 0 && !strings.Contains(p.Name, "left") && !strings.Contains(p.Name, "right"):
				middle := 0.0 // between the trimmed edges, half way through
				for _, e := range p.Edges {
					y := (e.Show.V[0].P.Y + e.Back.V[0].P.Y) / 2
					switch e.Name {
					case "bottom":
						middle -= y
					case "top":
						middle += y
					}
				}
				want = middle * p.Thickness
			default:
				continue
			}
			seen++
			got := 0.0
			for _, path := range slice(m, upright(1)) {
				got += math.Abs(path.Area())
			}
			assert.InEpsilon(t, want, got, 1e-4, p.Name)
		}
		assert.Positive(t, seen)
	}
}
