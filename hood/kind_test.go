package hood

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A part's kind, hand, panel and ply say what its name says to people.
func TestKinds(t *testing.T) {
	for _, s := range []Spec{whole(demo()), whole(flaredDemo()), laminated(demo(), 8), laminated(flaredDemo(), 8), leftDemo()} {
		d, err := Build(s)
		require.NoError(t, err)
		seen := map[string]bool{}
		for _, p := range d.Parts {
			require.False(t, seen[p.Name], p.Name)
			seen[p.Name] = true
			for _, h := range []Hand{Left, Right} {
				if p.Kind != KindForm {
					assert.Equal(t, strings.Contains(p.Name+"-", "-"+string(h)+"-"), p.Hand == h, p.Name)
				}
			}
			switch {
			case p.Kind == KindForm:
				assert.True(t, strings.HasPrefix(p.Name, "form-rib-"), p.Name)
				assert.True(t, seen[p.Panel+"-ply-1"], "%s bends %s", p.Name, p.Panel)
			case p.Ply > 0:
				assert.Equal(t, fmt.Sprintf("%s-ply-%d", p.Panel, p.Ply), p.Name)
				assert.Equal(t, KindSweep, p.Kind, p.Name)
			default:
				assert.Equal(t, p.Name, p.Panel)
			}
			if p.Kind != KindChimneySide {
				assert.True(t, strings.HasPrefix(p.Name, string(p.Kind)), "%s is %s", p.Name, p.Kind)
			}
		}
	}
}

// A joint over its limit is told as such by where the limit comes from, not by
// its value: a facet limit as large as the joint's is another thing.
func TestOnlySeamsNameTheJoint(t *testing.T) {
	s := flaredDemo()
	d, err := Build(s)
	require.NoError(t, err)
	for _, c := range d.Checks {
		want := ""
		switch c.Name {
		case "sweep-front to sweep-left", "sweep-front to sweep-right", // and where panels stand on their skirts
			"sweep-front to cheek-left", "sweep-front to cheek-right", "skirt-front to sweep-front", "skirt-left to sweep-left", "skirt-right to sweep-right":
			want = "joint"
		}
		assert.Equal(t, want, c.Param, c.Name)
	}
}
