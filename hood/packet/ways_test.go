package packet

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
)

// Hoods of every shape come off the machine with no edge left to the saw, but
// for few, and each of those has its reason. The table is of minutes by way, as
// the plan reckons them.
func TestStraightOffTheMachine(t *testing.T) {
	n := 40
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		n = 200
	case testing.Short():
		n = 12
	}
	r := rand.New(rand.NewPCG(23, 6))
	free := 0
	edges, minutes := map[cut.Way]int{}, map[cut.Way]float64{}
	why := map[string]int{}
	for i := 0; i < n; {
		s := someHood(r)
		if i%4 == 3 {
			s.Corner = "cheek-covers"
		}
		d, err := hood.Build(s)
		if err != nil {
			continue
		}
		i++
		ways, err := decide(&d, Options{}.shop())
		require.NoError(t, err)
		left := 0
		for k, p := range d.Parts {
			for _, m := range ways[k] {
				edges[m.Way]++
				minutes[m.Way] += m.Minutes
				if m.Way == cut.BySteps {
					assert.LessOrEqual(t, m.Stands, 0.2+1e-9)
					assert.Zero(t, m.Behind)
				}
			}
			for _, e := range p.Edges {
				if e.Saw && p.Ply == 0 {
					left++
					assert.NotEmpty(t, e.Why, "%s of %s", e.Name, p.Name)
					why[p.Name+" "+e.Name+": "+e.Why]++
				}
			}
		}
		if left == 0 {
			free++
		}
	}
	var table strings.Builder
	for w := cut.BySquare; w <= cut.BySaw; w++ {
		fmt.Fprintf(&table, "%-10s %5d edges %8.1f minutes, %6.2f each hood\n", w, edges[w], minutes[w], minutes[w]/float64(n))
	}
	t.Logf("%d of %d hoods are free of the saw\n%s%v", free, n, &table, why)
	assert.GreaterOrEqual(t, float64(free), 0.95*float64(n), "%v", why)
}

// What a packet says of a beveled face is what its replay measured, within what
// the plan promised, of every program with a bevel.
func TestPacketTellsOfFaces(t *testing.T) {
	_, p := made(t, checkedFront)
	most := map[string]float64{"wood stands off a beveled face by at most": 0.22, "a beveled face is bitten by at most": 0.02}
	found := 0
	for _, c := range p.Checks {
		for what, limit := range most {
			if strings.Contains(c.Name, what) {
				found++
				assert.LessOrEqual(t, c.Value, limit, c.Name)
			}
		}
	}
	assert.GreaterOrEqual(t, found, 2)

	// One whose steps are bitten, or stand too far off, is not passed.
	m := &maker{}
	made := cut.Program{Bevels: []cut.Beveled{{Made: cut.Made{Way: cut.BySteps, Stands: 0.2}}}}
	for _, f := range []cut.Face{{Stand: 0.3}, {Bite: 0.05}} {
		m.rec.Checks = nil
		m.faces("x", made, cut.Report{Bevels: []cut.Face{f}})
		bad := 0
		for _, c := range m.rec.Checks {
			if !c.OK {
				bad++
			}
		}
		assert.Equal(t, 2, bad, "%+v", f)
	}
}
