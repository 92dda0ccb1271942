package hood

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

// Crown of 38° spring around a right corner: tan M = sin s / tan(C/2) and
// sin B = cos s cos(C/2); detents at 31.6° and 33.9° are printed on miter saws.
func TestTrim(t *testing.T) {
	s := demo()
	s.Molding = Molding{Band: true, Crown: true, Spring: 38 * arc.Degree}
	_, err := Build(s)
	assert.Equal(t, []string{"chimney.height"}, params(err), "a crown on faces that lean")
	s.Chimney = Chimney{Height: 300}
	d, err := Build(s)
	require.NoError(t, err)
	require.Len(t, d.Trim, 6)
	for _, m := range d.Trim[:3] {
		assert.InDelta(t, 0, m.End.Miter.Degrees(), 1e-9, m.Name)
		assert.InDelta(t, 45, m.End.Bevel.Degrees(), 1e-9, m.Name)
	}
	for _, m := range d.Trim[3:] {
		assert.InDelta(t, 31.61901, absolute(m.End.Miter).Degrees(), 5e-6, m.Name)
		assert.InDelta(t, 33.86291, absolute(m.End.Bevel).Degrees(), 5e-6, m.Name)
	}
	assert.Equal(t, []float64{540, 1050, 540, 300, 1050, 300}, []float64{
		d.Trim[0].Length, d.Trim[1].Length, d.Trim[2].Length, d.Trim[3].Length, d.Trim[4].Length, d.Trim[5].Length})
	s.Molding.Spring = 0
	_, err = Build(s)
	assert.Contains(t, params(err), "molding.spring")
}
