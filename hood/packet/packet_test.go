package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/hood"
	"example.com/sagitta/internal/readback"
)

// A packetFile mirrors packet.json as another program would read it.
type packetFile struct {
	Version int
	Title   string
	Front   struct {
		Chord, Sag, Radius float64
		TurnDeg            float64 `json:"turn_deg"`
		LeanDeg            float64 `json:"lean_deg"`
		ShowLength         float64 `json:"show_length"`
		FlatLength         float64 `json:"flat_length"`
		SkirtBevelDeg      float64 `json:"skirt_bevel_deg"`
		Kerfs              struct {
			Count                int
			Pitch, First         float64
			TurnDeg              float64 `json:"turn_deg"`
			Facet, Strain, Mouth float64
		}
	}
	Parts []struct {
		Name, Material string
		Qty            int
		Thickness      float64
		Outline        [][3]float64
		Holes          [][][3]float64
		Area           float64
		MassKg         float64 `json:"mass_kg"`
	}
	Sheets []struct {
		Material                       string
		Thickness, Length, Width, Used float64
		Placements                     []struct {
			Part      string
			X, Y      float64
			RotateDeg float64 `json:"rotate_deg"`
		}
		Program string
		Minutes float64
	}
	Checks []struct {
		Name         string
		Value, Limit float64
		Unit         string
		OK           bool
	}
	Cautions []struct{ Text, Source string }
	MassKg   float64 `json:"mass_kg"`
	Cost     float64
	Files    []string
}

func path(v [][3]float64) arc.Path {
	p := arc.Path{Closed: true}
	for _, x := range v {
		p.V = append(p.V, arc.V(x[0], x[1], x[2]))
	}
	return p
}

// A packet made once serves every test that reads it.
var (
	madeLock sync.Mutex
	madeOnce = map[string]map[string][]byte{}
)

// made is a packet by file name, with packet.json read back.
func made(t testing.TB, spec string) (map[string][]byte, packetFile) {
	madeLock.Lock()
	defer madeLock.Unlock()
	files := madeOnce[spec]
	if files == nil {
		files = makeFiles(t, spec)
		madeOnce[spec] = files
	}
	var p packetFile
	require.NoError(t, json.Unmarshal(files["packet.json"], &p))
	return files, p
}

func makeFiles(t testing.TB, spec string) map[string][]byte {
	s, err := ReadSpec(strings.NewReader(spec))
	require.NoError(t, err)
	list, err := Make(context.Background(), s, Options{})
	require.NoError(t, err)
	files := map[string][]byte{}
	for _, f := range list {
		require.NotContains(t, files, f.Name)
		files[f.Name] = f.Data
	}
	return files
}

// The front of the check value: chord √(240²+720²), sag 45, worked out from
// first principles with 40 digits: 21 kerfs.
const checkedFront = `{"version": 2, "title": "check", "width": 1050, "height": 860, "depth": 540, "skirt": 140,
 "neck": {"depth": 300, "width": 1050}, "sweep": {"shape": "cove", "sag": 45}, "corner": "miter",
 "board": {"material": "mdf", "thickness": 19, "sheets": [{"length": 2465, "width": 1245}]},
 "back": {"material": "plywood", "thickness": 12, "rabbet": 9, "openings": [{"shape": "circle", "x": 0, "y": 650, "diameter": 160}]},
 "duct": {"diameter": 200},
 "bend": {"method": "kerf", "kerf_width": 3.2, "web": 1.6, "facet": 0.1, "strain": 0.008},
 "cut": {"gap": 8, "margin": 10, "tool": 9.525}}`

func TestFrontAgreesWithTheCheckedFigures(t *testing.T) {
	_, p := made(t, checkedFront)
	f := p.Front
	assert.InDelta(t, math.Hypot(240, 720), f.Chord, 1e-8)
	assert.InDelta(t, 45, f.Sag, 1e-8)
	assert.InDelta(t, 1622.5, f.Radius, 1e-6)
	assert.InDelta(t, 27.051442940, f.TurnDeg, 1e-8)
	assert.InDelta(t, 766.041871557, f.ShowLength, 1e-8)
	assert.InDelta(t, math.Atan2(240, 720)*180/math.Pi, f.LeanDeg, 1e-8)
	assert.InDelta(t, (f.LeanDeg+f.TurnDeg/2)/2, f.SkirtBevelDeg, 1e-8)
	assert.Equal(t, 21, f.Kerfs.Count)
	assert.InDelta(t, 36.497573116, f.Kerfs.Pitch, 1e-8)
	assert.InDelta(t, 36.497573116/2, f.Kerfs.First, 1e-8)
	assert.InDelta(t, 766.449035431, f.FlatLength, 1e-8)
	assert.InDelta(t, 0.0935784, f.Kerfs.Facet, 1e-7)
	assert.InDelta(t, 0.00562067, f.Kerfs.Strain, 1e-8)
	a := f.Kerfs.TurnDeg * math.Pi / 180
	assert.InDelta(t, 3.2+a*(19-0.8), f.Kerfs.Mouth, 1e-8)
}

// Areas of the parts from closed forms: the cheek is a trapezoid less the
// circular segment of the cove.
func TestPartsAgreeWithClosedForms(t *testing.T) {
	_, p := made(t, checkedFront)
	turn := 4 * math.Atan(2*45/math.Hypot(240, 720))
	segment := 1622.5 * 1622.5 / 2 * (turn - math.Sin(turn))
	want := map[string]float64{
		"cheek-left":  540*140 + (540+300)/2*720 - segment,
		"cheek-right": 540*140 + (540+300)/2*720 - segment,
		"skirt":       1050 * 140,
		"sweep":       1050 * p.Front.FlatLength,
		"back":        (1050-2*19+2*9)*860 - math.Pi*80*80,
	}
	found := 0
	mass := 0.0
	for _, part := range p.Parts {
		area := path(part.Outline).Area()
		for _, h := range part.Holes {
			area += path(h).Area()
		}
		assert.InDelta(t, area, part.Area, 1e-4, part.Name)
		if w, ok := want[part.Name]; ok {
			found++
			assert.InDelta(t, w, part.Area, 1e-4, part.Name)
		}
		mass += part.MassKg * float64(part.Qty)
	}
	assert.Equal(t, len(want), found)
	assert.InDelta(t, mass, p.MassKg, 1e-9)
}

// The parts in packet.json, SVG and DXF are the same: area, extents and count
// of holes of what each file holds, read back by readers that share nothing
// with the writers. Programs are compared in their own test.
func TestSamePartInEveryDrawing(t *testing.T) {
	for _, spec := range []string{checkedFront, demo(t), laminatedSpec, flaredPlies, registered, registeredFlared} {
		files, p := made(t, spec)
		for _, part := range p.Parts {
			outline := path(part.Outline)
			svg, err := readback.SVG(bytes.NewReader(files["parts/"+part.Name+".svg"]))
			require.NoError(t, err)
			dxf, err := readback.DXF(bytes.NewReader(files["parts/"+part.Name+".dxf"]))
			require.NoError(t, err)
			for format, doc := range map[string]readback.Doc{"svg": svg, "dxf": dxf} {
				where := part.Name + "." + format
				got := doc.On(draw.Outline)
				require.Len(t, got, 1, where)
				assert.InDelta(t, outline.Area(), math.Abs(got[0].Area()), 0.01*outline.Length(), where)
				a, b := outline.Bounds(), got[0].Bounds()
				for _, d := range []float64{a.Min.X - b.Min.X, a.Min.Y - b.Min.Y, a.Max.X - b.Max.X, a.Max.Y - b.Max.Y} {
					assert.InDelta(t, 0, d, 0.01, where)
				}
				holes := doc.On(draw.Opening)
				require.Len(t, holes, len(part.Holes), where)
				for i, h := range holes {
					want := path(part.Holes[i])
					assert.InDelta(t, math.Abs(want.Area()), math.Abs(h.Area()), 0.01*want.Length(), where)
				}
			}
		}
	}
}

// Every placement keeps its part on its sheet, and each part is placed as
// often as it is wanted.
func TestSheetsHoldEveryPart(t *testing.T) {
	_, p := made(t, demo(t))
	count := map[string]int{}
	outlines := map[string]arc.Path{}
	for _, part := range p.Parts {
		count[part.Name] = part.Qty
		outlines[part.Name] = path(part.Outline)
	}
	for _, s := range p.Sheets {
		area := 0.0
		for _, pl := range s.Placements {
			count[pl.Part]--
			q := outlines[pl.Part].Transform(arc.Rotate(arc.Angle(pl.RotateDeg) * arc.Degree))
			b := q.Bounds()
			assert.GreaterOrEqual(t, b.Min.X+pl.X, 10-1e-6)
			assert.GreaterOrEqual(t, b.Min.Y+pl.Y, 10-1e-6)
			assert.LessOrEqual(t, b.Max.X+pl.X, s.Length-10+1e-6)
			assert.LessOrEqual(t, b.Max.Y+pl.Y, s.Width-10+1e-6)
			area += q.Area()
		}
		assert.Greater(t, s.Used, 0.9*(area-1e5)/(s.Length*s.Width))
	}
	for name, n := range count {
		assert.Zero(t, n, name)
	}
}

func TestEveryFileIsThere(t *testing.T) {
	files, p := made(t, demo(t))
	require.Len(t, p.Files, len(files))
	for _, name := range p.Files {
		assert.NotEmpty(t, files[name], name)
	}
	for _, name := range []string{"packet.json", "report.html", "cutlist.csv", "model.glb", "sheets/sheet-1.svg", "sheets/sheet-1.dxf", "drawings/section.svg"} {
		assert.Contains(t, files, name)
	}
	rows, err := csv.NewReader(bytes.NewReader(files["cutlist.csv"])).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+len(p.Parts))
	for _, c := range p.Checks {
		assert.True(t, c.OK, c.Name)
		assert.LessOrEqual(t, c.Value, c.Limit, c.Name)
	}
	for _, c := range p.Cautions {
		assert.NotEmpty(t, c.Source, c.Text)
		assert.Contains(t, string(files["report.html"]), htmlEscaped(c.Source))
	}
}

func htmlEscaped(s string) string {
	return strings.NewReplacer("&", "&amp;", "'", "&#39;", "\"", "&#34;").Replace(s)
}

func TestSameSpecSameBytes(t *testing.T) {
	a, _ := made(t, checkedFront)
	assert.Equal(t, a, makeFiles(t, checkedFront))
}

func TestTooLargeForEverySheet(t *testing.T) {
	s, err := ReadSpec(strings.NewReader(strings.Replace(checkedFront, `"length": 2465, "width": 1245`, `"length": 1000, "width": 900`, 1)))
	require.NoError(t, err)
	_, err = Make(context.Background(), s, Options{})
	var faults hood.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, "board.sheets", faults[0].Param)
	assert.Contains(t, fmt.Sprint(faults[0].Value), "larger")
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s, err := ReadSpec(strings.NewReader(checkedFront))
	require.NoError(t, err)
	files, err := Make(ctx, s, Options{})
	assert.Error(t, err)
	assert.Nil(t, files)
}
