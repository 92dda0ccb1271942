package curve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/sagitta/bend"
	"example.com/sagitta/hood/curve"
)

// A section of nothing has no faces, and nobody panics over it.
func TestEmptySection(t *testing.T) {
	assert.NotPanics(t, func() {
		var s curve.Section
		assert.False(t, s.Fold(curve.Ends{}, 19))
		_, ok := s.CutBack(true, 19)
		assert.False(t, ok)
		_, ok = s.FaceSpan(19, 9)
		assert.False(t, ok)
		assert.Zero(t, s.Ends())
		assert.Zero(t, s.Developed(5))
		assert.NoError(t, s.PlanKerfs(bend.Board{}, bend.Limits{}))
		s.Along(3, 1)
		s.OffShow(3, 1)
		s.OnBlank(3)
	})
}
