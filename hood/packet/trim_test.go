package packet

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Moldings go into the record and the report: a crown of 38° spring takes the
// settings 31.62° and 33.86° that miter saws have detents for, a band 45°. Edges
// that show are named with their lengths.
func TestMoldingsAreRecorded(t *testing.T) {
	spec := strings.Replace(mixedSides, `"sweep":`, `"chimney": {"height": 300}, "molding": {"band": true, "crown": true, "spring": 38}, "sweep":`, 1)
	files, _ := made(t, spec)
	var f struct {
		Moldings []trimRecord
		Parts    []struct {
			Name string
			Show []bandRecord `json:"edges_that_show"`
		}
	}
	require.NoError(t, json.Unmarshal(files["packet.json"], &f))
	require.Len(t, f.Moldings, 6)
	for i, length := range []float64{520, 1000, 520, 300, 600, 300} {
		m := f.Moldings[i]
		assert.InDelta(t, length, float64(m.Length), 1e-9, m.Name)
		assert.Equal(t, 1+i%3%2, m.Miters, m.Name)
		if i < 3 {
			assert.InDelta(t, 45, float64(m.BevelDeg), 1e-6, m.Name)
			continue
		}
		assert.InDelta(t, 31.61901, float64(max(m.MiterDeg, -m.MiterDeg)), 5e-6, m.Name)
		assert.InDelta(t, 33.86291, float64(m.BevelDeg), 5e-6, m.Name)
	}
	show := map[string][]bandRecord{}
	for _, p := range f.Parts {
		show[p.Name] = p.Show
	}
	require.Len(t, show["skirt-front"], 1)
	assert.InDelta(t, 1000, float64(show["skirt-front"][0].Length), 1e-9)
	assert.Empty(t, show["deck"])
	page := string(files["report.html"])
	assert.Contains(t, page, "crown-front")
	assert.Contains(t, page, "31.6°")
	assert.Contains(t, page, "bottom edge shows, 1000 mm")
}
