package arc_test

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

// Four and five copies of one rounded shape, turned and some 1e-7 mm off each
// other, as found among ten thousands: their union is about one copy.
func TestUnionOfManyCopies(t *testing.T) {
	for _, name := range []string{"four", "five"} {
		data, err := os.ReadFile("testdata/copies-" + name + ".txt")
		require.NoError(t, err)
		var all []arc.Region
		least, most := 1e9, 0.0
		for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n\n") {
			p, err := arc.ParsePath(line)
			require.NoError(t, err)
			r := arc.Region{Outer: p}
			require.NoError(t, r.Check(0))
			all = append(all, r)
			least, most = min(least, r.Area()), max(most, r.Area())
		}
		r := rand.New(rand.NewPCG(1, 2))
		for range 6 {
			r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			u, err := arc.Union(all, nil, 0)
			require.NoError(t, err, name)
			require.Len(t, u, 1)
			length := u[0].Length()
			assert.GreaterOrEqual(t, u[0].Area(), most-1e-6*length)
			assert.LessOrEqual(t, u[0].Area(), least+2e-6*length)
			for k := 1; k < len(all); k++ {
				d, err := arc.SymmetricDifference(all[:k], all[k:], 0)
				require.NoError(t, err, name)
				for _, s := range d {
					assert.Less(t, s.Area(), 2e-6*length)
				}
			}
		}
	}
}
