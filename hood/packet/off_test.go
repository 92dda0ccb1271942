package packet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
)

// The figures are those of the closed forms, reckoned here from the spec.
func TestKerfsThatAreOff(t *testing.T) {
	spec, err := ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	d, err := hood.Build(spec)
	require.NoError(t, err)
	pages := offFacts(d, d.Spec.Format())
	require.Len(t, pages, 1)
	require.Len(t, pages[0].Facts, 5)
	b := spec.Bend
	want := "web 1.7 mm,"
	assert.Contains(t, pages[0].Facts[1].Value, want)
	closing := (b.KerfWidth - 0.1) / (spec.Board.Thickness - b.Web/2) * 180 / math.Pi
	assert.Contains(t, pages[0].Facts[4].Value, "closes at "+strings.TrimSuffix(fmt.Sprintf("%.2f", closing), "0"))
}
