package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
)

// laminatedSpec is the checked front, of three plies of plywood.
var laminatedSpec = strings.Replace(checkedFront,
	`"bend": {"method": "kerf", "kerf_width": 3.2, "web": 1.6, "facet": 0.1, "strain": 0.008}`,
	`"bend": {"method": "laminate", "strain": 0.008, "trim": 10, "form": {"spacing": 300},
  "ply": {"material": "plywood", "thickness": 6.333333333333, "sheets": [{"length": 2440, "width": 1220, "price": 40}]}}`, 1)

// flaredPlies has plies on all sides, the back's rabbet in one of them, and a
// wall to scribe to.
var flaredPlies = strings.NewReplacer(
	`"width": 1050},`, `"width": 600}, "side_sweep": {"shape": "bow", "sag": 20}, "scribe": {"allowance": 8, "wall": [[0, 2], [500, 6]]},`,
	`"price": 40`, `"price": 0`).Replace(laminatedSpec)

// The cove of R 1622.5 and 27.051442940 degrees: a ply's middle at depth d
// keeps its length (R + d)·turn, and a pack of three springs back by 9/8.
func TestPliesInThePacket(t *testing.T) {
	files, all := made(t, laminatedSpec)
	var p struct {
		Front struct {
			FlatLength float64 `json:"flat_length"`
			Method     string
			Kerfs      struct{ Count int }
			Plies      struct {
				Count      int
				Thickness  float64
				FormRadius float64 `json:"form_radius"`
				Lengths    []float64
			}
		}
		Parts []struct {
			Name, Material string
			Qty            int
			Thickness      float64
			Outline        [][3]float64
			MassKg         float64 `json:"mass_kg"`
			Ply, Form      bool
			Trimmed        []struct{ Edge string }
			Bent           []struct{ From, To float64 }
			Label          string
		}
	}
	require.NoError(t, json.Unmarshal(files["packet.json"], &p))
	const radius, turn, ply = 1622.5, 27.051442940 * math.Pi / 180, 19.0 / 3
	assert.Equal(t, "laminate", p.Front.Method)
	assert.Zero(t, p.Front.Kerfs.Count)
	require.Equal(t, 3, p.Front.Plies.Count)
	assert.InDelta(t, (radius+9.5)*8/9-9.5, p.Front.Plies.FormRadius, 1e-6)
	assert.InDelta(t, p.Front.Plies.Lengths[0], p.Front.FlatLength, 1e-9)
	mass, plies, forms := 0.0, 0, 0
	for _, q := range p.Parts {
		switch {
		case q.Form:
			forms++
			assert.Equal(t, "mdf", q.Material)
			assert.Equal(t, 5, q.Qty, "1070 mm at 300 or less")
			continue
		case q.Ply:
			want := (radius + ply*(float64(plies)+0.5)) * turn
			box := path(q.Outline).Bounds()
			assert.InDelta(t, want, p.Front.Plies.Lengths[plies], 1e-6)
			assert.InDelta(t, want+2*10, box.Max.Y, 1e-6)
			assert.InDelta(t, 1050+2*10, box.Max.X, 1e-6)
			assert.Equal(t, "plywood", q.Material)
			assert.Len(t, q.Trimmed, 4)
			require.Len(t, q.Bent, 1)
			assert.InDelta(t, want, q.Bent[0].To-q.Bent[0].From, 1e-6)
			assert.Contains(t, q.Label, q.Name)
			plies++
		}
		mass += q.MassKg * float64(q.Qty)
	}
	assert.Equal(t, 3, plies)
	assert.Equal(t, 1, forms)
	assert.InDelta(t, mass, all.MassKg, 1e-7, "a form is not of the hood")
	for _, s := range all.Sheets {
		for _, q := range s.Placements {
			assert.Equal(t, strings.Contains(q.Part, "-ply-"), math.Abs(s.Thickness-ply) < 1e-6, q.Part)
		}
	}
	assert.Greater(t, all.Cost, 0.0)
	report := string(files["report.html"])
	for _, text := range []string{"net length of ply 3", "form-rib-front", "springs back", "Adhesives for bent laminations"} {
		assert.Contains(t, report, text)
	}
}

// Every part of plies is the same in every drawing, on its sheet and in the cut
// list, and its program has been replayed.
func TestPliesOnSheets(t *testing.T) {
	for _, spec := range []string{laminatedSpec, flaredPlies} {
		files, p := made(t, spec)
		rows, err := csv.NewReader(bytes.NewReader(files["cutlist.csv"])).ReadAll()
		require.NoError(t, err)
		listed := map[string]bool{}
		for _, r := range rows[1:] {
			listed[r[0]] = r[1] == r[2]
		}
		placed := map[string]int{}
		for _, s := range p.Sheets {
			assert.Contains(t, files, s.Program)
			for _, q := range s.Placements {
				placed[q.Part]++
			}
		}
		for _, q := range p.Parts {
			assert.True(t, listed[q.Name], q.Name)
			assert.Equal(t, q.Qty, placed[q.Name], q.Name)
			if len(q.Holes) == 0 {
				assert.InDelta(t, path(q.Outline).Area(), q.Area, 1e-5, q.Name)
			}
		}
		for _, c := range p.Checks {
			assert.True(t, c.OK, c.Name)
		}
	}
}

func TestPliesTooLargeForTheirSheets(t *testing.T) {
	s, err := ReadSpec(strings.NewReader(strings.Replace(laminatedSpec, `"length": 2440, "width": 1220`, `"length": 900, "width": 900`, 1)))
	require.NoError(t, err)
	_, err = Make(context.Background(), s, Options{})
	var faults hood.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, "bend.ply.sheets", faults[0].Param)
}

// Plies of a quarter of an inch make a board of three quarters, in inches.
func TestPliesInInches(t *testing.T) {
	s, err := ReadSpec(strings.NewReader(`{"version": 2, "units": "in", "width": 40, "height": "34 in", "depth": 21, "skirt": 6, "neck": {"depth": 12},
 "sweep": {"shape": "cove", "sag": 1.5, "method": "laminate"}, "board": {"material": "plywood", "thickness": 0.75},
 "back": {"material": "plywood", "thickness": "1/4 in"},
 "bend": {"trim": "1/2 in", "ply": {"thickness": "1/4 in"}, "form": {"spacing": 12}}}`))
	require.NoError(t, err)
	d, err := hood.Build(s)
	require.NoError(t, err)
	assert.Equal(t, 3, d.Front.Plies.Count)
	p, ok := d.Part("sweep-ply-2")
	require.True(t, ok)
	assert.InDelta(t, 41*25.4, p.Outline.Bounds().Max.X, 1e-9)
	form, ok := d.Part("form-rib-front")
	require.True(t, ok)
	assert.Equal(t, 5, form.Copies(), "41 in at 12 or less")
}
