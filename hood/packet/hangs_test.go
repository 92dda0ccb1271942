package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"html"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/internal/hangs"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// Hoods whose ribs, cleats and decks were once cut loose.
var looseOnce = [...]string{`{"version": 2, "units": "in", "width": 41.41338582677166, "height": 35.275590551181104,
 "depth": 19.77952755905512, "neck": {"depth": 12.192913385826772, "width": 41.41338582677166}, "sweep": {"shape": "straight"},
 "corner": "front-covers", "board": {"material": "mdf", "thickness": 0.6259842519685039, "sheets": [{"length": 97.04724409448819, "width": 49.01574803149607}]},
 "back": {"material": "plywood", "thickness": 0.2362204724409449, "rabbet": 0.35433070866141736,
 "openings": [{"shape": "rectangle", "x": 0, "y": 19.401574803149607, "width": 4.724409448818898, "height": 1.968503937007874}]},
 "bend": {"method": "kerf", "kerf_width": 0.15748031496062992, "web": 0.07874015748031496, "facet": 0.011811023622047244, "strain": 0.03},
 "cut": {"gap": 0.15748031496062992, "margin": 0.1968503937007874, "tool": 0.31496062992125984}, "duct": {"diameter": 5.905511811023622},
 "ribs": {"spacing": 9.84251968503937, "depth": 1.968503937007874, "clearance": 0.011811023622047244}, "cleat": {"height": 2.7559055118110236},
 "tabs": {"width": 1.2598425196850394, "clearance": 0.007874015748031498, "spacing": 9.448818897637796}}`,
	closeRibs(`{"shape": "cove", "sag": 48}`, 100), closeRibs(`{"shape": "straight"}`, 60)}

func closeRibs(sweep string, spacing int) string {
	return fmt.Sprintf(`{"version": 2, "width": 1130, "height": 905, "depth": 520, "skirt": 135, "neck": {"depth": 290, "width": 1130},
 "sweep": %s, "corner": "cheek-covers", "board": {"material": "mdf", "thickness": 19, "sheets": [{"length": 2465, "width": 1245, "price": 46}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9, "openings": [{"shape": "circle", "x": 0, "y": 690, "diameter": 160}]},
 "liner": {"length": 820, "width": 290, "y": 40}, "duct": {"diameter": 160}, "ribs": {"spacing": %d, "depth": 60, "clearance": 0.3},
 "cooktop": {"distance": 780}, "bend": {"method": "kerf", "kerf_width": 3.2, "web": 1.6, "facet": 0.1, "strain": 0.008},
 "cut": {"gap": 8, "margin": 10, "tool": 9.525}}`, sweep, spacing)
}

func TestNothingIsCutLooseAnyMore(t *testing.T) {
	list := looseOnce[:]
	if testing.Short() {
		list = list[:1]
	}
	for _, spec := range list {
		requireHangs(t, spec)
	}
}

// Random hoods: nothing that is cut hangs on nothing, and all that tells of edges
// left to the saw tells of the same. All 200 with SAGITTA_FULL=1.
func TestRandomPacketsHang(t *testing.T) {
	n := 3
	switch {
	case os.Getenv("SAGITTA_FULL") != "":
		n = 200
	case testing.Short():
		n = 1
	}
	made := 0
	for seed := range n {
		if requireHangs(t, randomHood(rand.New(rand.NewPCG(uint64(seed), 3)))) {
			made++
		}
	}
	t.Logf("%d of %d hoods made", made, n)
	assert.GreaterOrEqual(t, made, (n+1)/2)
}

// randomHood is a spec of a hood in sizes that are usual.
func randomHood(r *rand.Rand) string {
	in := func(a, b float64) float64 { return math.Round(10*(a+(b-a)*r.Float64())) / 10 }
	w, d, h := in(700, 1300), in(430, 620), in(600, 950)
	s := map[string]any{
		"version": 2, "width": w, "height": h, "depth": d, "skirt": in(80, 180), "corner": []string{"miter", "front-covers", "cheek-covers"}[r.IntN(3)],
		"neck":  map[string]any{"depth": math.Round(d * (0.5 + 0.25*r.Float64())), "width": w},
		"sweep": map[string]any{"shape": []string{"cove", "bow", "ogee"}[r.IntN(3)], "sag": in(15, 50)},
		"board": map[string]any{"material": "mdf", "thickness": []int{16, 18, 19}[r.IntN(3)], "sheets": []any{map[string]any{"length": 2465, "width": 1245}}},
		"back":  map[string]any{"material": "plywood", "thickness": 12, "rabbet": 9},
		"bend":  map[string]any{"method": "kerf", "kerf_width": []float64{3.2, 2.4}[r.IntN(2)], "web": 1.6, "facet": 0.1, "strain": 0.008},
		"cut":   map[string]any{"gap": []int{10, 12, 16}[r.IntN(3)], "margin": []int{10, 12}[r.IntN(2)], "tool": []float64{6.35, 8, 9.525}[r.IntN(3)]},
	}
	if r.IntN(2) == 0 {
		s["ribs"] = map[string]any{"spacing": []int{250, 350, 450}[r.IntN(3)], "depth": 80}
	}
	if r.IntN(2) == 0 {
		s["liner"] = map[string]any{"length": math.Round(w * 0.6), "width": 280}
	}
	if r.IntN(3) == 0 { // flared, with edges that lean out
		s["neck"].(map[string]any)["width"] = math.Round(w * (0.5 + 0.3*r.Float64()))
		s["corner"] = "miter"
		s["side_sweep"] = map[string]any{"shape": s["sweep"].(map[string]any)["shape"], "sag": in(10, 30)}
	}
	b, err := json.Marshal(s)
	if err != nil {
		panic(err)
	}
	return string(b)
}

// requireHangs makes a packet and cuts its sheets by the texts of its programs
// alone. It reports whether the hood can be built; whatever else is wrong with
// the packet is an error.
func requireHangs(t *testing.T, text string) bool {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	d, err := hood.Build(s)
	if err != nil {
		return false
	}
	list, err := Make(context.Background(), s, Options{})
	require.NoError(t, err, text)
	files := map[string][]byte{}
	for _, f := range list {
		files[f.Name] = f.Data
	}
	var p packetFile
	require.NoError(t, json.Unmarshal(files["packet.json"], &p))
	for i, sh := range p.Sheets {
		var parts []arc.Region
		for _, pl := range sh.Placements {
			for _, q := range p.Parts {
				if q.Name == pl.Part {
					o := arc.Region{Outer: path(q.Outline)}
					for _, h := range q.Holes {
						o.Holes = append(o.Holes, path(h))
					}
					at := sheet.Placement{At: r2.Vec{X: pl.X, Y: pl.Y}, Rotate: arc.Angle(pl.RotateDeg) * arc.Degree}
					parts = append(parts, o.Transform(at.Motion()))
				}
			}
		}
		require.Len(t, parts, len(sh.Placements))
		g, err := hangs.New(sh.Length, sh.Width, sh.Thickness, 1, parts)
		require.NoError(t, err)
		moves, _, err := rs274.Read(bytes.NewReader(files[sh.Program]), rs274.Options{})
		require.NoError(t, err)
		for _, m := range moves {
			if !m.Rapid {
				g.Cut(cutterOf(m, d.Spec))
			}
		}
		high := math.Min(3, sh.Thickness/3) - 0.1 // of a tab, less what a replay allows twice
		require.Empty(t, g.Loose(high, 0, 500), "sheet %d of %s", i+1, text)
		require.Empty(t, g.Loose(high, 2, math.Inf(1)), "sheet %d of %s", i+1, text)
	}
	requireSaws(t, files)
	return true
}

// cutterOf is a move with its cutter, of the plain router that holds where no
// shop file is given: 1 is for outlines, 2 for kerfs, 3 is pointed.
func cutterOf(m cut.Move, s hood.Spec) hangs.Move {
	out := hangs.Move{Way: arc.Segment{A: r2.Vec{X: m.From.X, Y: m.From.Y}, B: r2.Vec{X: m.To.X, Y: m.To.Y}, K: m.K}, From: m.From.Z, To: m.To.Z, Radius: s.Cut.Tool / 2}
	switch m.Tool {
	case 2:
		out.Radius = s.Bend.KerfWidth / 2
	case 3:
		out.Radius, out.Half = 30, 1
	}
	return out
}

// requireSaws compares what tells of the edges left to the saw: packet.json,
// the cut list, the report and the programs.
func requireSaws(t *testing.T, files map[string][]byte) {
	t.Helper()
	var p struct {
		Parts []struct {
			Name string
			Saw  []struct{ Edge string } `json:"finish_by_saw"`
		}
		Sheets []struct {
			Program    string
			Placements []struct{ Part string }
		}
	}
	require.NoError(t, json.Unmarshal(files["packet.json"], &p))
	report := html.UnescapeString(string(files["report.html"]))
	rows, err := csv.NewReader(bytes.NewReader(files["cutlist.csv"])).ReadAll()
	require.NoError(t, err)
	for _, q := range p.Parts {
		lines := len(q.Saw)
		for _, e := range q.Saw {
			assert.Regexp(t, "finish by saw: "+regexp.QuoteMeta(q.Name)+`\.\d+, `+regexp.QuoteMeta(e.Edge)+" edge, bevel", report, "%s in the report", q.Name)
		}
		for _, r := range rows[1:] {
			if all := strings.Join(r, " "); strings.Contains(all, q.Name) && r[0] == q.Name {
				assert.Equal(t, lines, strings.Count(all, "finish by saw:"), "%s in the cut list", q.Name)
			}
		}
		for _, s := range p.Sheets {
			copies := 0
			for _, pl := range s.Placements {
				if pl.Part == q.Name {
					copies++
				}
			}
			n := strings.Count(strings.ReplaceAll(strings.ReplaceAll(string(files[s.Program]), ")\n(", " "), ")\r\n(", " "), "Finish by saw: "+q.Name+".")
			assert.Equal(t, lines*copies, n, "%s in %s", q.Name, s.Program)
		}
	}
}
