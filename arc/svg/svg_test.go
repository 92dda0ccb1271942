package svg_test

import (
	"bytes"
	"errors"
	"image/color"
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
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/internal/readback"
)

func sample() draw.Drawing {
	bow := arc.Segment{A: r2.Vec{X: 0, Y: -40}, B: r2.Vec{X: 200, Y: -40}, K: -0.2}
	return draw.Drawing{
		Title: "Left cheek <1> & \"more\"", Desc: "A part, drawn to size",
		Layers: []draw.Layer{
			{Name: draw.Outline, Weight: 0.5, Regions: []arc.Region{readback.Part()}, Fill: color.NRGBA{R: 240, G: 230, B: 200, A: 128}},
			{Name: draw.Kerf, Dash: []float64{3, 1}, Color: color.NRGBA{R: 200, A: 255}, Paths: []arc.Path{
				arc.Polyline(r2.Vec{X: 1, Y: 2}, r2.Vec{X: 1, Y: 80}),
				{V: []arc.Vertex{{P: bow.A, K: bow.K}, {P: bow.B}}},
			}},
			{Name: draw.Dims, Weight: 0.18, Dimensions: []draw.Dimension{
				draw.Horizontal(r2.Vec{X: -120, Y: 10}, r2.Vec{X: 300, Y: 10}, -20, draw.Style{}), draw.ChordSag(bow, 12, draw.Style{}),
			}},
			{Name: draw.Note, Texts: []draw.Text{{At: r2.Vec{X: 10, Y: 300}, Text: "90° <&>", Angle: 30 * arc.Degree, Align: draw.Middle, Height: 5}}},
		},
	}
}

func encode(t require.TestingT, d draw.Drawing, o svg.Options) (string, readback.Doc) {
	var b bytes.Buffer
	require.NoError(t, svg.Encode(&b, d, o))
	text := b.String()
	doc, err := readback.SVG(strings.NewReader(text))
	require.NoError(t, err, text)
	return text, doc
}

// area, extents and holes of a part must come back within 0.01 mm.
func samePart(t require.TestingT, want arc.Region, got []arc.Path) {
	area, holes := readback.Net(got)
	length := 0.0
	for _, p := range want.Loops() {
		length += p.Length()
	}
	require.InDelta(t, want.Area(), area, 2e-4*length)
	require.Equal(t, len(want.Holes), holes)
	b, w := got[0].Bounds(), want.Bounds()
	require.InDelta(t, w.Min.X, b.Min.X, 1e-3)
	require.InDelta(t, w.Min.Y, b.Min.Y, 1e-3)
	require.InDelta(t, w.Max.X, b.Max.X, 1e-3)
	require.InDelta(t, w.Max.Y, b.Max.Y, 1e-3)
}

func TestEncodeReadsBack(t *testing.T) {
	d := sample()
	text, doc := encode(t, d, svg.Options{})
	samePart(t, readback.Part(), doc.Loops(draw.Outline))
	assert.Equal(t, d.Title, doc.Title)
	assert.Equal(t, d.Desc, doc.Desc)
	assert.Equal(t, []string{draw.Outline, draw.Kerf, draw.Dims, draw.Note}, doc.Layers)
	sheet := d.Sheet()
	assert.InDelta(t, sheet.Max.X-sheet.Min.X, doc.Width, 1e-4)
	assert.InDelta(t, sheet.Max.Y-sheet.Min.Y, doc.Height, 1e-4)
	assert.Len(t, doc.On(draw.Kerf), 2)
	assert.InDelta(t, 20, arc.Segment{A: doc.On(draw.Kerf)[1].V[0].P, B: doc.On(draw.Kerf)[1].V[1].P, K: doc.On(draw.Kerf)[1].V[0].K}.Mid().Y+40, 1e-3)
	assert.Equal(t, 6, doc.Solids)
	note := doc.Texts[len(doc.Texts)-1]
	assert.Equal(t, "90° <&>", note.Text)
	assert.InDelta(t, 30, note.Degrees, 1e-4)
	assert.InDelta(t, 5, note.Height, 1e-3)
	assert.Equal(t, []string{"420", "200", "sag 20"}, []string{doc.Texts[0].Text, doc.Texts[1].Text, doc.Texts[2].Text})
	assert.True(t, strings.HasPrefix(text, "<?xml"))
	assert.NotRegexp(t, ` d="[^"]*e`, text)
	again, _ := encode(t, d, svg.Options{})
	assert.Equal(t, text, again)
	if dir := os.Getenv("SAGITTA_KEEP"); dir != "" {
		require.NoError(t, os.WriteFile(dir+"/sample.svg", []byte(text), 0o644))
	}
}

func TestInlineHasNoDeclaration(t *testing.T) {
	text, _ := encode(t, sample(), svg.Options{Inline: true})
	assert.True(t, strings.HasPrefix(text, "<svg "))
}

func TestCheckBarIs100(t *testing.T) {
	d := draw.WithCheckBar(draw.Drawing{Title: "t", Layers: []draw.Layer{{Name: "x", Paths: []arc.Path{arc.Rect(0, 0, 20, 20)}}}}, arc.Millimeters)
	_, doc := encode(t, d, svg.Options{})
	bar := doc.On(draw.Check)[0]
	assert.InDelta(t, 100, bar.Length(), 1e-9)
	assert.InDelta(t, 110, doc.Width, 1e-9)
	assert.InDelta(t, 20+5+5+16, doc.Height, 1e-9)
}

// An arc's piece in the file is at most a quarter turn, so no renderer has to
// scale a radius, and every middle lies where it did.
func TestArcsKeepTheirSag(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chord := rapid.Float64Range(0.5, 5000).Draw(t, "chord")
		k := rapid.Float64Range(-20, 20).Draw(t, "k")
		at := arc.Angle(rapid.Float64Range(0, 6.3).Draw(t, "at"))
		p := arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(chord, 0, 0)}}.Transform(arc.Rotate(at))
		_, doc := encode(t, draw.Drawing{Title: "t", Layers: []draw.Layer{{Name: "a", Paths: []arc.Path{p}}}}, svg.Options{})
		q := doc.On("a")[0]
		require.InDelta(t, p.Length(), q.Length(), 0.005)
		m, _ := p.At(p.Length() / 2)
		n, _ := q.At(q.Length() / 2)
		require.InDelta(t, 0, r2.Norm(r2.Sub(m, n)), 0.005)
	})
}

func TestEncodeRefuses(t *testing.T) {
	line := func(x float64) []draw.Layer {
		return []draw.Layer{{Name: "a", Paths: []arc.Path{{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(1, x, 0)}}}}}
	}
	for name, d := range map[string]draw.Drawing{
		"NaN":     {Layers: line(math.NaN())},
		"Inf":     {Layers: line(math.Inf(-1))},
		"huge":    {Layers: line(1e300)},
		"twice":   {Layers: append(line(0), line(0)...)},
		"noname":  {Layers: []draw.Layer{{}}},
		"empty":   {Layers: []draw.Layer{{Name: "a", Paths: []arc.Path{{}}}}},
		"weight":  {Layers: []draw.Layer{{Name: "a", Weight: -1}}},
		"dash":    {Layers: []draw.Layer{{Name: "a", Dash: []float64{0, 0}}}},
		"page":    {Page: r2.Box{Max: r2.Vec{X: 5}}},
		"pageNaN": {Page: r2.Box{Max: r2.Vec{X: math.NaN(), Y: 1}}},
		"text":    {Layers: []draw.Layer{{Name: "a", Texts: []draw.Text{{Height: math.Inf(1)}}}}},
		"region":  {Layers: []draw.Layer{{Name: "a", Regions: []arc.Region{{}}}}},
	} {
		var b bytes.Buffer
		var pe *arc.ParamError
		assert.ErrorAs(t, svg.Encode(&b, d, svg.Options{}), &pe, name)
		assert.Zero(t, b.Len(), name)
	}
}

func TestEmptyDrawingIsAPage(t *testing.T) {
	_, doc := encode(t, draw.Drawing{Title: "nothing"}, svg.Options{})
	assert.Equal(t, 10.0, doc.Width)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestEncodePassesOnTheWritersError(t *testing.T) {
	assert.EqualError(t, svg.Encode(full{}, sample(), svg.Options{}), "disk full")
}
