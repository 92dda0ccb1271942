package dxf_test

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/internal/readback"
)

func sample() draw.Drawing {
	bow := arc.Segment{A: r2.Vec{X: 0, Y: -40}, B: r2.Vec{X: 200, Y: -40}, K: -0.2}
	return draw.Drawing{
		Title: "Left cheek",
		Layers: []draw.Layer{
			{Name: draw.Outline, Weight: 0.5, Regions: []arc.Region{readback.Part()}},
			{Name: "saw marks/2", Dash: []float64{3, 1, 0.5}, Paths: []arc.Path{arc.Polyline(r2.Vec{X: 1, Y: 2}, r2.Vec{X: 1, Y: 80})}},
			{Name: draw.Dims, Weight: 0.18, Dimensions: []draw.Dimension{draw.ChordSag(bow, 12, draw.Style{Unit: arc.Inches})}},
			{Name: draw.Note, Texts: []draw.Text{
				{At: r2.Vec{X: 10, Y: 300}, Text: "90° ±1 é ≤ 5", Angle: -30 * arc.Degree, Align: draw.Right, Height: 5},
				{At: r2.Vec{X: 10, Y: 320}, Text: "a\nb^c", Align: draw.Middle},
			}},
		},
	}
}

func encode(t require.TestingT, d draw.Drawing, o dxf.Options) (string, readback.Doc) {
	var b bytes.Buffer
	require.NoError(t, dxf.Encode(&b, d, o))
	text := b.String()
	doc, err := readback.DXF(strings.NewReader(text))
	require.NoError(t, err)
	return text, doc
}

func TestEncodeReadsBack(t *testing.T) {
	for _, o := range []dxf.Options{{}, {R12: true}} {
		text, doc := encode(t, sample(), o)
		want := readback.Part()
		area, holes := readback.Net(doc.Loops(draw.Outline))
		assert.InDelta(t, want.Area(), area, 1e-3)
		assert.Equal(t, len(want.Holes), holes)
		b, w := doc.Loops(draw.Outline)[0].Bounds(), want.Bounds()
		assert.InDelta(t, w.Min.X, b.Min.X, 1e-5)
		assert.InDelta(t, w.Max.Y, b.Max.Y, 1e-5)
		for i, p := range want.Loops() {
			assert.InDelta(t, p.Area(), doc.Loops(draw.Outline)[i].Area(), 1e-3, "the sign of a turn")
		}
		assert.Len(t, doc.Layers, 5)
		assert.Len(t, doc.On("saw_marks_2"), 1)
		assert.Equal(t, 4, doc.Solids)
		texts := doc.Texts[len(doc.Texts)-2:]
		assert.Equal(t, `90%%d %%p1 \U+00E9 \U+2264 5`, texts[0].Text)
		assert.Equal(t, 330.0, texts[0].Degrees)
		assert.Equal(t, "a b^ c", texts[1].Text)
		assert.InDelta(t, 320-1.75, texts[1].Y, 1e-6)
		assert.Equal(t, "7 7/8 in", doc.Texts[0].Text)
		if dir := os.Getenv("SAGITTA_KEEP"); dir != "" {
			name := map[bool]string{true: "r12.dxf", false: "r2000.dxf"}[o.R12]
			require.NoError(t, os.WriteFile(dir+"/"+name, []byte(text), 0o644))
		}
	}
}

func TestHeaderSaysMillimetres(t *testing.T) {
	text, _ := encode(t, sample(), dxf.Options{})
	assert.Contains(t, text, "  9\n$INSUNITS\n 70\n4\n")
	assert.Contains(t, text, "  9\n$ACADVER\n  1\nAC1015\n")
	text, _ = encode(t, sample(), dxf.Options{R12: true})
	assert.True(t, strings.HasPrefix(text, "999\nAll lengths are in millimetres.\n  0\nSECTION\n"))
	assert.NotContains(t, text, "\n100\n", "release 12 knows no subclasses")
	assert.NotContains(t, text, "LWPOLYLINE")
}

// In release 12 names are capitals, digits, $, - and _, at most 31 of them.
func TestLayerNames(t *testing.T) {
	long := strings.Repeat("abc ", 12)
	one := arc.Rect(0, 0, 1, 1)
	_, doc := encode(t, draw.Drawing{Layers: []draw.Layer{{Name: long, Paths: []arc.Path{one}}}}, dxf.Options{R12: true})
	assert.Equal(t, []string{"0", "ABC_ABC_ABC_ABC_ABC_ABC_ABC_ABC"}, doc.Layers)
	var b bytes.Buffer
	for _, pair := range [][2]string{{"a b", "a_b"}, {"A", "a"}, {"0", "x"}} {
		err := dxf.Encode(&b, draw.Drawing{Layers: []draw.Layer{{Name: pair[0]}, {Name: pair[1]}}}, dxf.Options{})
		assert.ErrorIs(t, err, arc.ErrRange, pair)
		assert.Zero(t, b.Len())
	}
}

func TestPathsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "n")
		p := arc.Path{Closed: rapid.Bool().Draw(t, "closed")}
		for range n {
			k := rapid.Float64Range(-5, 5).Draw(t, "k")
			p.V = append(p.V, arc.V(rapid.Float64Range(-3e3, 3e3).Draw(t, "x"), rapid.Float64Range(-3e3, 3e3).Draw(t, "y"), k))
		}
		_, doc := encode(t, draw.Drawing{Layers: []draw.Layer{{Name: "a", Paths: []arc.Path{p}}}}, dxf.Options{R12: rapid.Bool().Draw(t, "r12")})
		q := doc.On("a")[0]
		require.Equal(t, p.Closed, q.Closed)
		require.InDelta(t, p.Length(), q.Length(), 1e-3)
		require.InDelta(t, p.Area(), q.Area(), 2e-6*(1+p.Length()))
	})
}

func TestEncodeRefuses(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), 1e300} {
		var b bytes.Buffer
		err := dxf.Encode(&b, draw.Drawing{Layers: []draw.Layer{{Name: "a", Paths: []arc.Path{arc.Rect(0, 0, 1, x)}}}}, dxf.Options{})
		var pe *arc.ParamError
		assert.ErrorAs(t, err, &pe)
		assert.Zero(t, b.Len())
	}
}

// TestExtentsAreThoseOfTheDrawing and not of the page around it.
func TestExtentsAreThoseOfTheDrawing(t *testing.T) {
	d := draw.Drawing{Page: r2.Box{Min: r2.Vec{X: -100, Y: -100}, Max: r2.Vec{X: 500, Y: 400}},
		Layers: []draw.Layer{{Name: "A", Paths: []arc.Path{arc.Rect(10, 20, 110, 70)}}}}
	for _, r12 := range []bool{false, true} {
		var b bytes.Buffer
		require.NoError(t, dxf.Encode(&b, d, dxf.Options{R12: r12}))
		for name, want := range map[string]string{"$EXTMIN": "10.0 20.0 0.0", "$EXTMAX": "110.0 70.0 0.0"} {
			_, after, ok := strings.Cut(b.String(), name+"\n")
			require.True(t, ok)
			f := strings.Fields(after)
			assert.Equal(t, want, f[1]+" "+f[3]+" "+f[5])
		}
	}
}
