package packet

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/readback"
	"example.com/sagitta/sheet/rs274"
)

// flatSpec is a hood whose front and neck are to be filled in.
const flatSpec = `{"version": 2, "width": 1130, "height": 905, "depth": 520, "skirt": 135,
 "neck": {"depth": 290, "width": %s}, "sweep": %s, "corner": %q,
 "board": {"material": "mdf", "thickness": 19, "sheets": [{"length": 2465, "width": 1245}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9},
 "liner": {"length": 820, "width": 290, "y": 40}, "duct": {"diameter": 160}, "cleat": {"height": 90},
 "ribs": {"spacing": 380, "depth": 60, "clearance": 0.3},
 "bend": {"method": "kerf", "kerf_width": %s, "web": 1.6, "facet": 0.1, "strain": 0.05, "ply": {"thickness": 9.5}},
 "cut": {"gap": 8, "margin": 10, "tool": 9.525}%s}`

// TestFlatCurves makes packets of curves, necks and bevels that are flat but
// for rounding, and a little more: each is made, and no file has an arc that
// is a line within its last digit, a center out of reach or a bevel of no
// angle.
func TestFlatCurves(t *testing.T) {
	cove, kerf := `{"shape": "cove", "sag": 48}`, "3.2"
	for name, spec := range map[string]string{
		"no sag to speak of":   fmt.Sprintf(flatSpec, "455", `{"shape": "ogee", "sag": 5e-324, "method": "laminate"}`, "miter", kerf, `, "side_sweep": {"shape": "cove", "sag": 24}`),
		"a point on the chord": fmt.Sprintf(flatSpec, "1130", `{"shape": "points", "points": [[405, 520]]}`, "miter", kerf, ""),
		"plumb but for digits": fmt.Sprintf(flatSpec, "1129.9999999997", cove, "front-covers", kerf, ""),
		"half a mm narrower":   fmt.Sprintf(flatSpec, "1129.5", cove, "miter", kerf, ""),
		"40 mm narrower":       fmt.Sprintf(flatSpec, "1090", cove, "miter", kerf, ""),
		"plumb at the neck":    fmt.Sprintf(flatSpec, "1130", `{"shape": "ellipse"}`, "miter", "6", `, "tabs": {"width": 38.3, "clearance": 0.2, "spacing": 240}`),
	} {
		t.Run(name, func(t *testing.T) {
			s, err := ReadSpec(strings.NewReader(spec))
			require.NoError(t, err)
			files, err := Make(context.Background(), s, Options{Budget: 20 * time.Millisecond})
			require.NoError(t, err)
			for _, f := range files {
				if strings.HasSuffix(f.Name, "report.html") || strings.HasSuffix(f.Name, ".txt") {
					assert.NotContains(t, string(f.Data), "0.00 deg", f.Name)
				}
				arcs, least := writtenArcs(t, f)
				if f.Name == "packet.json" || strings.HasSuffix(f.Name, "1.nc") {
					assert.NotEmpty(t, arcs, f.Name) // the duct is round
				}
				for _, g := range arcs {
					assert.GreaterOrEqual(t, g.Sag(), least, "%s: %v", f.Name, g)
				}
			}
		})
	}
}

// writtenArcs reads the arcs of a file back, and says how small a sag it can
// tell from none: half a last digit, less what rounding took.
func writtenArcs(t *testing.T, f File) (out []arc.Segment, least float64) {
	keep := func(p arc.Path) {
		for i := range p.NumSegments() {
			if s := p.Segment(i); s.K != 0 {
				out = append(out, s)
			}
		}
	}
	r := bytes.NewReader(f.Data)
	switch {
	case strings.HasSuffix(f.Name, ".dxf"):
		paths, err := readback.DXFPaths(r)
		require.NoError(t, err, f.Name)
		for _, p := range paths {
			keep(p)
		}
		return out, 4.9e-7
	case strings.HasSuffix(f.Name, ".nc"):
		moves, _, err := rs274.Read(r, rs274.Options{})
		require.NoError(t, err, f.Name)
		for _, m := range moves {
			s := arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}
			if s.K != 0 {
				out = append(out, s)
				assert.Less(t, s.Radius(), 1.01e5, f.Name)
			}
		}
		return out, 4e-5
	case f.Name == "packet.json":
		var v any
		require.NoError(t, json.Unmarshal(f.Data, &v))
		for _, p := range recordPaths(v, nil) {
			keep(p)
		}
		return out, 5e-5
	}
	return nil, 0
}

// recordPaths finds the lists of [x, y, k] in a decoded record.
func recordPaths(v any, out []arc.Path) []arc.Path {
	switch v := v.(type) {
	case map[string]any:
		for _, x := range v {
			out = recordPaths(x, out)
		}
	case []any:
		var p arc.Path
		for _, x := range v {
			n, ok := x.([]any)
			if !ok || len(n) != 3 {
				return appendAll(v, out)
			}
			k, _ := n[2].(float64)
			x0, _ := n[0].(float64)
			y0, _ := n[1].(float64)
			p.V = append(p.V, arc.Vertex{P: r2.Vec{X: x0, Y: y0}, K: k})
		}
		if len(p.V) > 1 && !math.IsNaN(p.V[0].K) {
			out = append(out, p)
		}
	}
	return out
}

func appendAll(v []any, out []arc.Path) []arc.Path {
	for _, x := range v {
		out = recordPaths(x, out)
	}
	return out
}
