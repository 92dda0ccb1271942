package dxf_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
)

// areas are those of the closed paths of a layer, whichever way they run.
func areas(f dxf.File, layer string) (out []float64) {
	for _, l := range f.Layers {
		for _, p := range l.Paths {
			if l.Name == layer && p.Closed {
				out = append(out, math.Abs(p.Area()))
			}
		}
	}
	return out
}

func near(t *testing.T, want, got []float64, tol float64) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		assert.InDelta(t, want[i], got[i], tol, "area %d", i)
	}
}

// TestDecodeOthersFiles reads files that the library ezdxf 0.18.1 wrote from
// shapes whose areas follow from their sizes.
func TestDecodeOthersFiles(t *testing.T) {
	cap := func(c, k float64) float64 { a, _ := arc.FromChordSag(c, c*k/2); return a.Area() }
	poly := 100 + cap(10, 0.5) - cap(10, 0.25)
	for name, unit := range map[string]float64{"r12": 1, "r2000": arc.Inch, "r2018": arc.Inch} {
		text, err := os.ReadFile("testdata/" + name + ".dxf")
		require.NoError(t, err)
		f, err := dxf.Decode(bytes.NewReader(text), dxf.DecodeOptions{Tolerance: 1e-4, Join: 1e-6})
		require.NoError(t, err, name)
		assert.Equal(t, unit, f.Unit, name)
		assert.Equal(t, name != "r12", f.Stated)
		want := []float64{50 + math.Pi*12.5, math.Pi * 4, poly}
		if name != "r12" {
			want = []float64{50 + math.Pi*12.5, math.Pi * 4, 80 + math.Pi*16, math.Pi * 20, math.Pi * 2, poly}
			near(t, []float64{math.Pi * 9 * unit * unit}, areas(f, "SPLINE"), 1e-4*6*math.Pi*unit)
		}
		for i := range want {
			want[i] *= unit * unit
		}
		near(t, want, areas(f, "PART"), 1e-4*40*unit)
		near(t, []float64{24 * unit * unit, 24 * unit * unit, 6 * unit * unit}, areas(f, "BLK"), 1e-6*unit*unit)
		require.Len(t, f.Skipped, 1, name)
		s := f.Skipped[0]
		assert.Equal(t, "TEXT", s.Type)
		assert.Equal(t, "NOTE", s.Layer)
		assert.Equal(t, "TEXT", strings.TrimSpace(strings.Split(string(text), "\n")[s.Line]), "the line below the 0 in line %d", s.Line)
		for _, l := range f.Layers {
			assert.Empty(t, l.LooseEnds(), l.Name)
		}
	}
}

// TestDecodeFilesOfConverters reads what the converters pstoedit 3.78, splines
// and lines of 1/72 inch, and GDAL 3.6, in the inches of its own header, wrote.
func TestDecodeFilesOfConverters(t *testing.T) {
	const pt = arc.Inch / 72
	for _, c := range []struct {
		name, layer string
		unit        float64
		want        []float64
		skipped     []string
	}{
		// A circle of cubic curves is 3e-4 off; under one with plumb ends h high
		// over a base b lies 3/5 b·h.
		{"pstoedit", "0", pt, []float64{90 * 50, math.Pi * 1600, 80 * 60 * 3 / 5, 60 * 50 / 2}, []string{"LINE"}},
		{"gdal", "PART", arc.Inch, []float64{100 * 50, 50 * 40 / 2}, []string{"HATCH", "POINT"}},
	} {
		text, err := os.ReadFile("testdata/" + c.name + ".dxf")
		require.NoError(t, err)
		f, err := dxf.Decode(bytes.NewReader(text), dxf.DecodeOptions{Tolerance: 1e-4, Join: 1e-3})
		require.NoError(t, err)
		assert.True(t, f.Stated)
		got := areas(f, c.layer)
		require.Len(t, got, len(c.want), c.name)
		for i, w := range c.want {
			assert.InEpsilon(t, w*c.unit*c.unit, got[i], 4e-4, "%s, area %d", c.name, i)
		}
		var skipped []string
		for _, s := range f.Skipped {
			skipped = append(skipped, s.Type)
		}
		assert.Equal(t, c.skipped, skipped)
		for _, l := range f.Layers {
			assert.Empty(t, l.LooseEnds(), l.Name)
		}
	}
}

// TestDecodeOwnFiles reads back what Encode writes.
func TestDecodeOwnFiles(t *testing.T) {
	want := arc.Path{V: []arc.Vertex{arc.V(0, 0, 0.25), arc.V(100, 0, 0), arc.V(100, 60, -0.1), arc.V(0, 60, 0)}, Closed: true}
	for _, r12 := range []bool{false, true} {
		var b bytes.Buffer
		require.NoError(t, dxf.Encode(&b, draw.Drawing{Layers: []draw.Layer{{Name: "A", Paths: []arc.Path{want}}}}, dxf.Options{R12: r12}))
		f, err := dxf.Decode(&b, dxf.DecodeOptions{})
		require.NoError(t, err)
		require.Len(t, f.Layers, 1)
		assert.Equal(t, []arc.Path{want}, f.Layers[0].Paths)
		assert.Equal(t, !r12, f.Stated)
		assert.Empty(t, f.Skipped)
	}
}

// entities returns a file of the tags given, one to a word.
func entities(tags string) string {
	return "0\nSECTION\n2\nENTITIES\n" + strings.Join(strings.Fields(tags), "\n") + "\n0\nENDSEC\n0\nEOF\n"
}

func decode(t *testing.T, text string, o dxf.DecodeOptions) dxf.File {
	t.Helper()
	f, err := dxf.Decode(strings.NewReader(text), o)
	require.NoError(t, err)
	return f
}

func TestDecodeLooseEnds(t *testing.T) {
	text := entities("0 LINE 8 P 10 0 20 0 11 10 21 0  0 LINE 8 P 10 10.01 20 0 11 10 21 5  0 LINE 8 Q 10 0 20 0 11 1 21 1")
	apart := decode(t, text, dxf.DecodeOptions{})
	assert.Len(t, apart.Layers[0].Paths, 2)
	joined := decode(t, text, dxf.DecodeOptions{Join: 0.02})
	require.Len(t, joined.Layers, 2, "layers are not joined to each other")
	assert.Len(t, joined.Layers[0].Paths, 1)
	assert.Equal(t, []r2.Vec{{}, {X: 10, Y: 5}}, joined.Layers[0].LooseEnds())
}

func TestDecodeFromBelow(t *testing.T) {
	// An arc on a plane that faces down: its x runs the other way.
	f := decode(t, entities("0 ARC 8 P 10 5 20 0 40 2 50 0 51 90 210 0 220 0 230 -1"), dxf.DecodeOptions{})
	p := f.Layers[0].Paths[0]
	assert.InDelta(t, -7, p.V[0].P.X, 1e-12)
	assert.InDelta(t, -5, p.V[2].P.X, 1e-12)
	assert.InDelta(t, math.Pi, p.Length(), 1e-12)
	f = decode(t, entities("0 CIRCLE 8 P 10 5 20 0 40 2 210 1 220 0 230 0"), dxf.DecodeOptions{})
	require.Len(t, f.Skipped, 1)
	assert.Empty(t, f.Layers)
}

// TestDecodeReportsWhatItSkips: nothing is dropped in silence.
func TestDecodeReportsWhatItSkips(t *testing.T) {
	for _, tags := range []string{
		"0 HATCH 8 P", "0 CIRCLE 8 P 10 0 20 0 40 -1", "0 CIRCLE 8 P 10 x 20 0 40 1", "0 LINE 8 P 10 1 20 1 11 1 21 1",
		"0 INSERT 8 P 2 NONE", "0 SPLINE 8 P 71 3", "0 SPLINE 8 P 71 -1 10 0 20 0", "0 ELLIPSE 8 P 11 0 21 0 40 1",
		"0 LINE 8 P 67 1 10 0 20 0 11 1 21 1", "0 POLYLINE 8 P 70 8 0 VERTEX 10 1 20 1 0 SEQEND", "0 LWPOLYLINE 8 P 10 1",
		"0 ARC 8 P 40 NaN", "0 LINE 8 P 10 Inf 20 0 11 0 21 0",
		"0 SPLINE 8 P 71 2 40 0 40 0 40 0 40 1 40 1 40 1 10 0 20 0 10 1 20 1 10 0 20 0", // turns back in a point
	} {
		f := decode(t, entities(tags), dxf.DecodeOptions{})
		require.Len(t, f.Skipped, 1, tags)
		assert.Equal(t, "P", f.Skipped[0].Layer)
		assert.Equal(t, 5, f.Skipped[0].Line)
		assert.NotEmpty(t, f.Skipped[0].Why)
		assert.Empty(t, f.Layers, tags)
	}
}

func TestDecodeRefuses(t *testing.T) {
	for text, kind := range map[string]error{
		"":                          arc.ErrSyntax,
		"x\ny\n":                    arc.ErrSyntax,
		"0\nSECTION\n2\nENTITIES\n": arc.ErrSyntax, // cut off
		bomb():                      arc.ErrRange,
		// A long line drawn again and again.
		"0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n0\nLWPOLYLINE\n" + strings.Repeat("10\n1\n20\n2\n", 1<<16) + "0\nENDBLK\n0\nENDSEC\n" + entities("0 INSERT 2 B 70 500 71 500"): arc.ErrRange,
	} {
		_, err := dxf.Decode(strings.NewReader(text), dxf.DecodeOptions{})
		require.ErrorIs(t, err, kind)
	}
	for _, x := range []float64{-1, math.NaN(), math.Inf(1)} {
		for _, o := range []dxf.DecodeOptions{{Unit: x}, {Tolerance: x}, {Join: x}} {
			_, err := dxf.Decode(strings.NewReader(entities("")), o)
			require.ErrorIs(t, err, arc.ErrRange)
		}
	}
}

func TestDecodeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := dxf.DecodeContext(ctx, strings.NewReader(entities("0 LINE 8 P 10 0 20 0 11 10 21 0")), dxf.DecodeOptions{})
	assert.ErrorIs(t, err, context.Canceled)
}

// bomb draws blocks of blocks, a hundred times each.
func bomb() string {
	b := "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB0\n0\nLINE\n11\n1\n0\nENDBLK\n"
	for i := 1; i < 8; i++ {
		b += fmt.Sprintf("0\nBLOCK\n2\nB%d\n", i) + strings.Repeat(fmt.Sprintf("0\nINSERT\n2\nB%d\n", i-1), 100) + "0\nENDBLK\n"
	}
	return b + "0\nENDSEC\n" + entities("0 INSERT 2 B7")
}

// TestDecodeBlockInItself ends, and says so.
func TestDecodeBlockInItself(t *testing.T) {
	f := decode(t, "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n0\nINSERT\n2\nB\n0\nENDBLK\n0\nENDSEC\n"+entities("0 INSERT 8 P 2 B"), dxf.DecodeOptions{})
	require.Len(t, f.Skipped, 1)
	assert.Contains(t, f.Skipped[0].Why, "themselves")
}

func FuzzDecode(f *testing.F) {
	f.Add(entities("0 LINE 8 P 10 0 20 0 11 10 21 0 0 ARC 40 2 50 0 51 90"))
	f.Add(entities("0 ELLIPSE 11 3 21 1 40 0.5 0 POLYLINE 70 1 0 VERTEX 10 1 0 VERTEX 20 1 42 1 0 SEQEND"))
	f.Add(entities("0 SPLINE 71 2 40 0 40 0 40 0 40 1 40 1 40 1 10 0 20 0 10 1 20 1 10 2 20 0"))
	f.Add("0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n0\nLINE\n11\n1\n0\nENDBLK\n0\nENDSEC\n" + entities("0 INSERT 2 B 70 3 44 5"))
	f.Fuzz(func(t *testing.T, text string) {
		out, err := dxf.Decode(strings.NewReader(text), dxf.DecodeOptions{Tolerance: 0.1, Join: 0.1})
		if err != nil {
			return
		}
		for _, l := range out.Layers {
			for _, p := range l.Paths {
				require.NoError(t, p.Usable())
			}
		}
	})
}

// A board drawn as loose lines and an arc, in inches.
func ExampleDecode() {
	text := "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n" + entities(`
		0 LINE 8 BOARD 10 0 20 0 11 10 21 0   0 LINE 8 BOARD 10 10 20 5 11 10 21 0
		0 LINE 8 BOARD 10 0 20 5 11 0 21 0    0 ARC 8 BOARD 10 5 20 5 40 5 50 0 51 180
		0 TEXT 8 NOTE 1 hello`)
	f, err := dxf.Decode(strings.NewReader(text), dxf.DecodeOptions{Join: 0.01})
	if err != nil {
		fmt.Println(err)
		return
	}
	regions, err := arc.Regions(f.Layers[0].Paths)
	fmt.Printf("%s: %d board of %.0f mm², %v\n", f.Layers[0].Name, len(regions), regions[0].Area(), err)
	fmt.Printf("skipped: %s in line %d, %s\n", f.Skipped[0].Type, f.Skipped[0].Line, f.Skipped[0].Why)
	// Output:
	// BOARD: 1 board of 57593 mm², <nil>
	// skipped: TEXT in line 65, not a kind that is read
}
