package bend

import (
	"math/rand/v2"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Whatever the radii, one kerf fewer in any bend breaks the limit that the
// plan names for it.
func TestOneFewerFails(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	seen := map[Limit]int{}
	for range count(4000) {
		profile := randomProfile(r)
		b, lim := randomBoard(r)
		es, err := elements("", profile, lim.corner())
		require.NoError(t, err)
		cs, _ := curves(es)
		for i := range cs {
			p := planner{b: b, lim: lim, width: b.BendWidth()}
			n, by, err := p.count(&cs[i])
			if err != nil {
				continue
			}
			seen[by]++
			fewer := cs[i].turn / float64(n-1)
			switch by {
			case NoLimit:
				assert.Equal(t, 1, n)
			case FacetLimit:
				assert.Greater(t, p.try(&cs[i], n-1).facet, lim.Facet)
			case StrainLimit:
				assert.Greater(t, b.Web*fewer/(2*b.BendWidth()), lim.Strain)
			case TurnLimit:
				assert.Greater(t, fewer, float64(lim.Turn))
			case ClosingLimit:
				s, err := Refold(Blank{b, 1000, []Kerf{{At: 500, Turn: arc.Angle(fewer)}}}, r2.Vec{}, 0)
				require.NoError(t, err)
				assert.Negative(t, s.Mouths[0])
			}
		}
	}
	t.Logf("limits: %v", seen)
	for _, l := range []Limit{NoLimit, FacetLimit, StrainLimit, ClosingLimit, TurnLimit} {
		assert.Positive(t, seen[l], "%v", l)
	}
}
