package packet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

// A bare number of inches, a text with the unit and the constant are one length,
// to the last bit.
func TestInchesInOneWay(t *testing.T) {
	assert.Equal(t, 48*arc.Inch, mustSpec(t, `{"version": 2, "units": "in", "width": 48}`).Width)
	off := 0
	for n := range 4000 {
		x := float64(n+1) / 64
		bare := mustSpec(t, fmt.Sprintf(`{"version": 2, "units": "in", "width": %v}`, x)).Width
		text, err := arc.ParseLength(fmt.Sprintf("%v in", x), arc.Millimeters)
		require.NoError(t, err)
		assert.Equal(t, text, bare, x)
		if x*arc.Inch != text {
			off++
		}
	}
	assert.Positive(t, off, "a product rounds twice")
}
