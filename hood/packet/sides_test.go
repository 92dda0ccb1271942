package packet

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const mixedSides = `{"version": 2, "title": "mixed", "width": 1000, "height": 760, "depth": 520, "skirt": 120,
 "neck": {"depth": 300, "width": 600}, "sweep": {"shape": "straight"},
 "side_sweep": {"shape": "cove", "sag": 24}, "left_sweep": {"shape": "straight"},
 "board": {"material": "mdf", "thickness": 18, "sheets": [{"length": 2465, "width": 1245}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9},
 "bend": {"kerf_width": 3.2, "web": 1.6, "facet": 0.1}, "cut": {"gap": 8, "margin": 10, "tool": 9.525}}`

type sideFile struct {
	Side, SideLeft, SideRight *struct {
		Chord, Sag float64
		Kerfs      struct{ Count int }
	}
	Seam, SeamLeft, SeamRight []struct {
		Y     float64
		XShow float64 `json:"x_show"`
	}
}

func sidesOf(t *testing.T, spec string) (sideFile, map[string]any, string) {
	files, _ := made(t, spec)
	var raw map[string]any
	require.NoError(t, json.Unmarshal(files["packet.json"], &raw))
	var f sideFile
	for from, to := range map[string]any{"side": &f.Side, "side_left": &f.SideLeft, "side_right": &f.SideRight,
		"seam": &f.Seam, "seam_left": &f.SeamLeft, "seam_right": &f.SeamRight} {
		if v, ok := raw[from]; ok {
			b, err := json.Marshal(v)
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(b, to))
		}
	}
	return f, raw, string(files["report.html"])
}

// Where the sides differ both are recorded and shown; side and seam stay those
// of the right one.
func TestBothSidesAreRecorded(t *testing.T) {
	f, _, page := sidesOf(t, mixedSides)
	require.NotNil(t, f.SideLeft)
	require.NotNil(t, f.SideRight)
	for _, s := range []float64{f.Side.Chord, f.SideLeft.Chord, f.SideRight.Chord} {
		assert.InDelta(t, math.Hypot(200, 640), s, 1e-9)
	}
	assert.Equal(t, f.Side, f.SideRight)
	assert.Equal(t, f.Seam, f.SeamRight)
	assert.InDelta(t, 24, f.SideRight.Sag, 1e-9)
	assert.Zero(t, f.SideLeft.Sag)
	assert.Zero(t, f.SideLeft.Kerfs.Count)
	assert.Positive(t, f.SideRight.Kerfs.Count)
	for _, q := range f.SeamLeft { // straight
		assert.InDelta(t, 500-200*(q.Y-120)/640, q.XShow, 2e-8, "of rounded heights")
	}
	assert.Contains(t, page, "Left side")
	assert.Contains(t, page, "Right side")

	// Alike: once, as before.
	_, raw, page := sidesOf(t, strings.Replace(mixedSides, `"left_sweep": {"shape": "straight"},`, "", 1))
	assert.Contains(t, raw, "side")
	for _, key := range []string{"side_left", "side_right", "seam_left", "seam_right"} {
		assert.NotContains(t, raw, key)
	}
	assert.Contains(t, page, "<caption>Sides</caption>")
	assert.NotContains(t, page, "Left side")

	// One plumb: the other by its hand.
	_, raw, _ = sidesOf(t, strings.Replace(strings.Replace(mixedSides, `"side_sweep": {"shape": "cove", "sag": 24}, `, "", 1),
		`"width": 600`, `"width": 800, "offset": 100`, 1))
	assert.Contains(t, raw, "side_left")
	assert.NotContains(t, raw, "side_right")
	assert.Equal(t, raw["side"], raw["side_left"])
}
