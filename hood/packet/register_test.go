package packet

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/internal/readback"
	"example.com/sagitta/sheet/rs274"
)

// registered has tabs and pins: slots in the back, mortises for the ribs.
const registered = `{"version": 2, "title": "registered", "width": 1000, "height": 760, "depth": 520,
 "neck": {"depth": 300}, "sweep": {"shape": "cove", "sag": 30},
 "board": {"material": "mdf", "thickness": 18, "sheets": [{"length": 2465, "width": 1245}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9, "openings": [{"shape": "rectangle", "x": 0, "y": 170, "width": 120, "height": 80}]},
 "liner": {"length": 500, "width": 250, "y": 40}, "duct": {"diameter": 150},
 "ribs": {"spacing": 300, "depth": 75, "clearance": 0.3}, "cleat": {"height": 80},
 "tabs": {"width": 32, "clearance": 0.2, "spacing": 220}, "pins": {"diameter": 10, "depth": 8, "clearance": 0.1, "spacing": 300},
 "bend": {"kerf_width": 3.2, "web": 1.6, "facet": 0.1}, "cut": {"gap": 8, "margin": 10, "tool": 9.525}}`

// registeredFlared has two different sides and pinned corner blocks.
const registeredFlared = `{"version": 2, "title": "registered, flared", "width": 1000, "height": 760, "depth": 520, "skirt": 120,
 "neck": {"depth": 300, "width": 700, "offset": 20}, "sweep": {"shape": "cove", "sag": 30},
 "side_sweep": {"shape": "straight"}, "left_sweep": {"shape": "cove", "sag": 18},
 "board": {"material": "mdf", "thickness": 18, "sheets": [{"length": 2465, "width": 1245}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9},
 "liner": {"length": 500, "width": 250}, "blocks": {"leg": 80}, "cleat": {"height": 80},
 "tabs": {"width": 40, "clearance": 0.2, "spacing": 260}, "pins": {"diameter": 10, "depth": 8, "clearance": 0.1, "spacing": 300},
 "bend": {"kerf_width": 3.2, "web": 1.6, "facet": 0.1}, "cut": {"gap": 8, "margin": 10, "tool": 9.525}}`

// pocketsOf returns the pockets of each part in packet.json.
func pocketsOf(t *testing.T, spec string) map[string][]arc.Path {
	files, _ := made(t, spec)
	var p struct {
		Parts []struct {
			Name    string
			Pockets []struct {
				Outline [][3]float64
				Depth   float64
			}
		}
	}
	require.NoError(t, json.Unmarshal(files["packet.json"], &p))
	out := map[string][]arc.Path{}
	for _, part := range p.Parts {
		for _, k := range part.Pockets {
			out[part.Name] = append(out[part.Name], path(k.Outline))
		}
	}
	return out
}

// Counts of slots, mortises and holes are those worked out from the key's own
// words, in packet.json and read back from SVG and DXF.
func TestHolesAreCounted(t *testing.T) {
	// Registered: 6 slots of the shelf and the opening in the back, 5 pins in
	// back and cleat, 3 mortises for 3 ribs. Flared: blocks with 2 pins each,
	// 4 in the shelf; the shelf's slots are open at the bottom edge.
	for _, w := range []struct {
		spec           string
		holes, pockets map[string]int
	}{
		{registered, map[string]int{"back": 7, "deck": 1, "liner-shelf": 1, "cleat": 0},
			map[string]int{"back": 5, "cleat": 5, "liner-shelf": 3, "deck": 0}},
		{registeredFlared, map[string]int{"back": 0, "corner-block-left": 2, "corner-block-right": 2},
			map[string]int{"liner-shelf": 4, "corner-block-left": 0}},
	} {
		files, p := made(t, w.spec)
		pockets := pocketsOf(t, w.spec)
		for _, part := range p.Parts {
			svg, err := readback.SVG(bytes.NewReader(files["parts/"+part.Name+".svg"]))
			require.NoError(t, err)
			dxf, err := readback.DXF(bytes.NewReader(files["parts/"+part.Name+".dxf"]))
			require.NoError(t, err)
			for _, doc := range []readback.Doc{svg, dxf} {
				if n, ok := w.holes[part.Name]; ok {
					assert.Len(t, part.Holes, n, part.Name)
					assert.Len(t, doc.On(draw.Opening), n, part.Name)
				}
				if n, ok := w.pockets[part.Name]; ok {
					require.Len(t, pockets[part.Name], n, part.Name)
					got := doc.On(draw.Pocket)
					require.Len(t, got, n, part.Name)
					for i, k := range got {
						want := pockets[part.Name][i]
						assert.InDelta(t, want.Area(), math.Abs(k.Area()), 0.01*want.Length(), part.Name)
					}
				}
			}
		}
		for _, c := range p.Checks {
			assert.True(t, c.OK, c.Name)
		}
	}
}

// Every hole for a pin is bored by the program where packet.json has it: feed
// moves round its middle, no wider than the hole less the cutter, down to its
// floor and no deeper.
func TestProgramsBoreThePinHoles(t *testing.T) {
	for _, spec := range []string{registered, registeredFlared} {
		files, p := made(t, spec)
		pockets := pocketsOf(t, spec)
		bored := 0
		for _, s := range p.Sheets {
			moves, _, err := rs274.Read(bytes.NewReader(files[s.Program]), rs274.Options{})
			require.NoError(t, err)
			for _, pl := range s.Placements {
				for _, k := range pockets[pl.Part] {
					b := k.Bounds()
					if len(k.V) != 2 {
						continue
					}
					at := r2.Scale(0.5, r2.Add(b.Min, b.Max))
					m := arc.Rotate(arc.Angle(pl.RotateDeg) * arc.Degree).Then(arc.Shift(r2.Vec{X: pl.X, Y: pl.Y}))
					c := m.Apply(at)
					low, far := math.Inf(1), 0.0
					for _, v := range moves {
						q := r2.Vec{X: v.To.X, Y: v.To.Y}
						if d := r2.Norm(r2.Sub(q, c)); !v.Rapid && d < 5.05 {
							low, far = math.Min(low, v.To.Z), math.Max(far, d)
						}
					}
					assert.InDelta(t, s.Thickness-8, low, 1e-3, "%s %v", pl.Part, at)
					assert.InDelta(t, (10.1-9.525)/2, far, 2e-3, "%s %v", pl.Part, at)
					bored++
				}
			}
		}
		assert.Greater(t, bored, 7)
	}
}

// The steps speak of what registers the parts.
func TestStepsNameTabsAndPins(t *testing.T) {
	files, _ := made(t, registered)
	page := string(files["report.html"])
	for _, say := range []string{"Try the tabs of deck, liner-shelf, rib-1, rib-2, rib-3 in their slots", "Set pins of 10 mm into the holes of back, cleat", "from behind over the tabs of deck, liner-shelf"} {
		assert.Contains(t, page, say)
	}
	files, _ = made(t, checkedFront)
	assert.NotContains(t, string(files["report.html"]), "Try the tabs")
}

// The keys are in the schema with their words.
func TestSchemaHasTabsAndPins(t *testing.T) {
	var s struct {
		Properties map[string]struct {
			Description string
			Properties  map[string]struct{ Description string }
		}
	}
	require.NoError(t, json.Unmarshal(Schema(), &s))
	for key, fields := range map[string]string{"tabs": "width clearance spacing", "pins": "diameter depth clearance spacing", "left_sweep": "shape sag points"} {
		require.NotEmpty(t, s.Properties[key].Description, key)
		for _, f := range strings.Fields(fields) {
			assert.NotEmpty(t, s.Properties[key].Properties[f].Description, "%s.%s", key, f)
		}
	}
}
