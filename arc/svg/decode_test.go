package svg_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
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

const pt = arc.Inch / 72

// at returns points of a Bézier curve by its control points.
func at(c [4]r2.Vec, t float64) r2.Vec {
	var p r2.Vec
	for i, w := range [4]float64{(1 - t) * (1 - t) * (1 - t), 3 * t * (1 - t) * (1 - t), 3 * t * t * (1 - t), t * t * t} {
		p = r2.Add(p, r2.Scale(w, c[i]))
	}
	return p
}

func vec(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func decode(t *testing.T, text string, o svg.DecodeOptions) svg.File {
	t.Helper()
	f, err := svg.Decode(strings.NewReader(text), o)
	require.NoError(t, err)
	return f
}

// page puts elements on a page on which the user unit is one millimetre.
func page(elements string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200mm" height="100mm" viewBox="0 0 200 100">` + elements + `</svg>`
}

// closedAreas are those of all closed paths.
func closedAreas(f svg.File) (out []float64) {
	for _, l := range f.Layers {
		for _, p := range l.Paths {
			if p.Closed {
				out = append(out, math.Abs(p.Area()))
			}
		}
	}
	return out
}

func sameAreas(t *testing.T, want, got []float64, tol float64, name string) {
	t.Helper()
	require.Len(t, got, len(want), name)
	for i := range want {
		assert.InDelta(t, want[i], got[i], tol, "%s, area %d", name, i)
	}
}

// TestDecodeOthersFiles reads files that the vector library cairo 1.16 and the
// plotting library matplotlib 3.6.3 wrote from shapes whose areas follow from
// their sizes. Both draw circles as Bézier curves, which leave them by up to
// 3e-4 of the radius, and round to 1e-6 of their unit.
func TestDecodeOthersFiles(t *testing.T) {
	for name, want := range map[string][]float64{
		// Under a cubic with plumb ends h high over a base b lies 3/5 b·h.
		"cairo": {4000, math.Pi * 900, math.Pi * 800, 80 * 60 * 3 / 5, 2500, 1600},
		// Its unit is 0.72 of the drawing's; under a parabola 2/3 of b times half h.
		"matplotlib": {400 * 300, 100 * 60, math.Pi * 1600, math.Pi * 1250, 80 * 100 / 3, 100 * 100 * 3 / 5, 80 * 80 / 2},
	} {
		text, err := os.ReadFile("testdata/" + name + ".svg")
		require.NoError(t, err)
		f, err := svg.Decode(bytes.NewReader(text), svg.DecodeOptions{Tolerance: 1e-4})
		require.NoError(t, err)
		assert.InEpsilon(t, pt, f.Unit, 1e-12)
		assert.True(t, f.Stated)
		unit := pt
		if name == "matplotlib" {
			unit *= 0.72
		}
		require.Len(t, f.Layers, 1)
		got := closedAreas(f)
		require.GreaterOrEqual(t, len(got), len(want)) // letters come after
		for i := range want {
			assert.InEpsilon(t, want[i]*unit*unit, got[i], 4e-4, "%s, area %d", name, i)
		}
		assert.Empty(t, f.Layers[0].LooseEnds())
		if name == "cairo" {
			assert.Empty(t, f.Skipped)
			assert.Equal(t, "surface1", f.Layers[0].Name)
			continue
		}
		kinds := map[string]int{}
		for _, s := range f.Skipped {
			kinds[s.Type]++
		}
		assert.Equal(t, 6, kinds["clip-path"], "said of every path that is cut off by the axes")
		assert.Len(t, f.Skipped, 6)
	}
}

// TestDecodeOwnFiles reads back what Encode writes, layer by layer.
func TestDecodeOwnFiles(t *testing.T) {
	part := readback.Part()
	text, _ := encode(t, draw.Drawing{Title: "t", Layers: []draw.Layer{
		{Name: draw.Outline, Regions: []arc.Region{part}},
		{Name: draw.Kerf, Paths: []arc.Path{arc.Polyline(vec(1, 2), vec(1, 80))}},
		{Name: draw.Note, Texts: []draw.Text{{At: vec(10, 300), Text: "x", Height: 5}}},
	}}, svg.Options{})
	f := decode(t, text, svg.DecodeOptions{})
	assert.True(t, f.Stated)
	assert.InDelta(t, 1, f.Unit, 1e-12)
	require.Len(t, f.Layers, 2)
	assert.Equal(t, draw.Outline, f.Layers[0].Name)
	assert.Equal(t, draw.Kerf, f.Layers[1].Name)
	got, err := arc.Regions(f.Layers[0].Paths)
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.Len(t, got[0].Holes, len(part.Holes))
	assert.InDelta(t, part.Area(), got[0].Area(), 1e-4*part.Length())
	b, w := got[0].Bounds(), part.Bounds()
	assert.InDelta(t, 0, r2.Norm(r2.Sub(w.Min, b.Min))+r2.Norm(r2.Sub(w.Max, b.Max)), 1e-3)
	assert.InDelta(t, 78, f.Layers[1].Paths[0].Length(), 1e-9)
	require.Len(t, f.Skipped, 1)
	assert.Equal(t, "text", f.Skipped[0].Type)
	assert.Equal(t, draw.Note, f.Skipped[0].Layer)
}

// TestDecodeSize reads the same square under every way to state a size.
func TestDecodeSize(t *testing.T) {
	const px = arc.Inch / 96
	for head, side := range map[string]float64{
		`width="100mm" height="100mm" viewBox="0 0 100 100"`:                               10,
		`width="10cm" height="10cm" viewBox="0 0 100 100"`:                                 10,
		`width="400Q" height="400Q" viewBox="0 0 100 100"`:                                 10,
		`width="10in" height="10in" viewBox="0 0 100 100"`:                                 25.4,
		`width="72pt" height="72pt" viewBox="0 0 100 100"`:                                 2.54,
		`width="6pc" height="6pc" viewBox="0 0 100 100"`:                                   2.54,
		`width="100mm" viewBox="0 0 100 50"`:                                               10,
		`height="100mm" viewBox="-50 -50 200 100"`:                                         10,
		`width="100mm" height="100mm" viewBox="0 0 100 200"`:                               5,
		`width="100mm" height="100mm" viewBox="0 0 100 200" preserveAspectRatio="x slice"`: 10,
		`width="96" height="96" viewBox="0 0 96 96"`:                                       10 * px,
		`width="192px" height="192px" viewBox="0 0 96 96"`:                                 20 * px,
		`width="100mm" height="100mm"`:                                                     10 * px,
		`width="100%" height="100%" viewBox="0 0 100 100"`:                                 10 * px,
		`viewBox="0 0 100 100"`:                                                            10 * px,
		``:                                                                                 10 * px,
	} {
		f := decode(t, `<svg xmlns="http://www.w3.org/2000/svg" `+head+`><rect x="20" y="30" width="10" height="10"/></svg>`, svg.DecodeOptions{})
		require.Len(t, f.Layers, 1, head)
		b := f.Layers[0].Paths[0].Bounds()
		assert.InDelta(t, side, b.Max.X-b.Min.X, 1e-9, head)
		assert.InDelta(t, side, b.Max.Y-b.Min.Y, 1e-9, head)
		assert.InDelta(t, 2*side, b.Min.X, 1e-9, head)
		assert.InDelta(t, -4*side, b.Min.Y, 1e-9, "y is up: %s", head)
	}
	f := decode(t, `<svg width="96" height="96" viewBox="0 0 96 96"><rect width="10" height="10"/></svg>`, svg.DecodeOptions{Unit: 2})
	assert.InDelta(t, 400, closedAreas(f)[0], 1e-9)
	f = decode(t, `<svg width="100mm" height="50mm" viewBox="0 0 100 100" preserveAspectRatio="none"><circle r="10"/></svg>`, svg.DecodeOptions{})
	assert.InDelta(t, math.Pi*50, closedAreas(f)[0], 0.05)
}

// TestDecodeShapes compares areas, and lengths of open paths, with closed forms.
func TestDecodeShapes(t *testing.T) {
	corner := 4 * (1 - math.Pi/4)
	for text, want := range map[string]float64{
		`<rect x="1" y="2" width="30" height="20"/>`:                                                               600,
		`<rect width="30" height="20" rx="3"/>`:                                                                    600 - corner*9,
		`<rect width="30" height="20" rx="6" ry="2"/>`:                                                             600 - corner*12,
		`<rect width="30" height="20" ry="100"/>`:                                                                  600 - corner*150,
		`<rect width="50%" height="10%"/>`:                                                                         1000,
		`<rect width="10mm" height="1in"/>`:                                                                        10 * 25.4 * (96 / 25.4) * (96 / 25.4),
		`<circle cx="5" cy="5" r="4"/>`:                                                                            16 * math.Pi,
		`<ellipse cx="5" cy="5" rx="4" ry="9"/>`:                                                                   36 * math.Pi,
		`<polygon points="0,0 10,0 10,10"/>`:                                                                       50,
		`<polygon points="0,0,10,0-5,10"/>`:                                                                        50,
		`<path d="M10 10h20v10h-20z"/>`:                                                                            200,
		`<path d="M10,10 30,10 30,20 L10 20Z"/>`:                                                                   200,
		`<path d="m10-10 20 0 0 10 l-20 0z"/>`:                                                                     200,
		`<path d="M0 0 H 20 V.5e1 H0 Z"/>`:                                                                         100,
		`<path d="M0 0 A10 10 0 0 1 20 0 Z"/>`:                                                                     50 * math.Pi,
		`<path d="M0 0 a10 10 0 0120 0Z"/>`:                                                                        50 * math.Pi, // flags without spaces
		`<path d="M0 0 A1 1 0 0 1 20 0 Z"/>`:                                                                       50 * math.Pi, // too small: grows
		`<path d="M10 0 A10 10 0 1 1 0 10 Z"/>`:                                                                    75*math.Pi + 50,
		`<path d="M10 0 A10 10 0 1 0 0 10 Z"/>`:                                                                    75*math.Pi + 50,
		`<path d="M10 0 A10 10 0 0 1 0 10 Z"/>`:                                                                    25*math.Pi - 50,
		`<path d="M-8 0 A8 3 0 0 1 8 0 Z"/>`:                                                                       12 * math.Pi,
		`<path d="M0 -8 A8 3 90 0 1 0 8 Z"/>`:                                                                      12 * math.Pi,
		`<path d="M0 0 Q10 20 20 0 Z"/>`:                                                                           20 * 10 * 2.0 / 3,
		`<path d="M0 0 Q5 10 10 10 T 20 0 Z"/>`:                                                                    100.0/3*2 - 0 + 100.0/3*2 - 0 - 0, // set below
		`<path d="M0 0 C0 20 20 20 20 0 Z"/>`:                                                                      20 * 20 * 3.0 / 5,
		`<path d="M0 0 C0 10 5 15 10 15 S20 10 20 0 Z"/>`:                                                          0, // set below
		`<g transform="translate(5) scale(2 3)"><rect width="3" height="4"/></g>`:                                  72,
		`<g transform="rotate(30)"><g transform="skewX(20),scale(2)"><circle r="3"/></g></g>`:                      36 * math.Pi,
		`<g transform="matrix(1 .5 -.25 2 3 4)"><path d="M0 0 A1 1 0 0 1 20 0 Z"/></g>`:                            50 * math.Pi * 2.125,
		`<g transform="matrix(-1 0 0 1 0 0)"><path d="M10 0 A10 5 30 0 1 0 10 Z"/></g>`:                            0, // set below
		`<svg x="10" y="10" width="50" height="50" viewBox="0 0 100 100"><circle r="8"/></svg>`:                    16 * math.Pi,
		`<svg width="50" height="25" viewBox="0 0 100 100"><rect width="8" height="8"/></svg>`:                     4,
		`<defs><rect id="a" width="2" height="3"/></defs><use href="#a" transform="scale(2)"/>`:                    24,
		`<symbol id="s" viewBox="0 0 10 10"><circle r="1"/></symbol><use xlink:href="#s" width="20" height="20"/>`: 4 * math.Pi,
	} {
		switch {
		case strings.Contains(text, "T 20 0"):
			want = polygonOf(200, [4]r2.Vec{vec(0, 0), vec(10.0/3, 20.0/3), vec(20.0/3, 10), vec(10, 10)}, [4]r2.Vec{vec(10, 10), vec(40.0/3, 10), vec(50.0/3, 20.0/3), vec(20, 0)})
		case strings.Contains(text, "S20 10"):
			want = polygonOf(200, [4]r2.Vec{vec(0, 0), vec(0, 10), vec(5, 15), vec(10, 15)}, [4]r2.Vec{vec(10, 15), vec(15, 15), vec(20, 10), vec(20, 0)})
		case strings.Contains(text, "A10 5 30"):
			// The same without the mirroring.
			want = closedAreas(decode(t, page(`<path d="M10 0 A10 5 30 0 1 0 10 Z"/>`), svg.DecodeOptions{Tolerance: 1e-5}))[0]
		}
		f := decode(t, page(text), svg.DecodeOptions{Tolerance: 1e-5})
		assert.Empty(t, f.Skipped, text)
		sameAreas(t, []float64{want}, closedAreas(f), 2e-3, text)
	}
	for text, want := range map[string]float64{
		`<line x1="1" y1="1" x2="4" y2="5"/>`:           5,
		`<polyline points="0 0 3 4 3 10"/>`:             11,
		`<path d="M0 0 L3 4"/>`:                         5,
		`<path d="M0 0 A10 10 0 0 0 10 10"/>`:           5 * math.Pi,
		`<path d="M0 0 C0 0 10 0 10 0"/>`:               10,
		`<path d="M0 0 C20 0 -10 0 10 0"/>`:             10 + 4*turnBack, // goes back on itself
		`<path d="M0 0 A0 5 0 0 0 10 0"/>`:              10,
		`<path d="M0 0 A5 5 0 0 0 0 0 L 7 0"/>`:         7,
		`<path d="M0 0 10 0 M 50 50 50 60"/>`:           20,
		`<g transform="scale(1 0)"><circle r="2"/></g>`: -1, // without width: told
		`<path d="M0 0 L1 0 L"/>`:                       -1,
		`<path d="L1 0"/>`:                              -1,
		`<path d="M0 0 L1 0 A1 1 0 2 0 5 5"/>`:          -1,
		`<path d="M0 0 X"/>`:                            -1,
	} {
		f := decode(t, page(text), svg.DecodeOptions{Tolerance: 1e-5})
		if want < 0 {
			require.Len(t, f.Skipped, 1, text)
			assert.NotEmpty(t, f.Skipped[0].Why)
			continue
		}
		assert.Empty(t, f.Skipped, text)
		sum := 0.0
		for _, p := range f.Layers[0].Paths {
			sum += p.Length()
		}
		assert.InDelta(t, want, sum, 1e-4, text)
	}
}

// turnBack is how far the curve of x = 3·20·t(1−t)²−3·10·t²(1−t)+10t³ overshoots
// at each of its two ends: to the t where its derivative 60 − 300t + 300t² is
// zero, half of it there and back.
var turnBack = func() float64 {
	t := (300 - math.Sqrt(300*300-4*60*300)) / 600
	x := at([4]r2.Vec{{}, {X: 20}, {X: -10}, {X: 10}}, t).X
	y := at([4]r2.Vec{{}, {X: 20}, {X: -10}, {X: 10}}, 1-t).X
	return (x - y) / 2
}()

// polygonOf returns the area under curves by the trapezia of many chords,
// bettered by Richardson's step.
func polygonOf(n int, curves ...[4]r2.Vec) float64 {
	by := func(n int) float64 {
		sum := 0.0
		for _, c := range curves {
			for i := range n {
				sum += r2.Cross(at(c, float64(i)/float64(n)), at(c, float64(i+1)/float64(n))) / 2
			}
		}
		return sum
	}
	return math.Abs((4*by(2*n) - by(n)) / 3)
}

// TestDecodeCurves holds every arc against points of the Bézier curve that it
// stands for, both ways: cusps, loops, inflections, ends that coincide and
// curves along a line are among them.
func TestDecodeCurves(t *testing.T) {
	const tol = 0.01
	n := 1500
	if testing.Short() {
		n = 300
	}
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 41))
		var c [4]r2.Vec
		for i := range c {
			c[i] = vec(math.Round(rng.Float64()*100), math.Round(rng.Float64()*100))
		}
		switch seed % 8 {
		case 1:
			c[1] = c[0]
		case 2:
			c[2] = c[3]
		case 3:
			c[1], c[2] = c[0], c[3]
		case 4: // a cusp: 2(b − a) = … with the ends crossing
			c = [4]r2.Vec{vec(0, 0), vec(100, 100), vec(0, 100), vec(100, 0)}
			c[1].X += float64(seed%5) * 1e-6
		case 5: // along a line
			u := vec(3, 4)
			for i := range c {
				c[i] = r2.Scale(math.Round(rng.Float64()*20), u)
			}
		case 6:
			c[3] = c[0]
		}
		f := decode(t, page(fmt.Sprintf(`<path d="M%v %vC%v %v %v %v %v %v"/>`, c[0].X, c[0].Y, c[1].X, c[1].Y, c[2].X, c[2].Y, c[3].X, c[3].Y)), svg.DecodeOptions{Tolerance: tol})
		if c[0] == c[1] && c[1] == c[2] && c[2] == c[3] {
			continue
		}
		require.Empty(t, f.Skipped, "seed %d", seed)
		p := f.Layers[0].Paths[0]
		var pts []r2.Vec
		for i := range 501 {
			q := at(c, float64(i)/500)
			pts = append(pts, vec(q.X, -q.Y))
			require.LessOrEqual(t, p.Distance(pts[i]), tol*1.02, "seed %d: the curve from the path", seed)
		}
		curve := arc.Polyline(pts...)
		for i := range 40 {
			q, _ := p.At(p.Length() * float64(i) / 39)
			require.LessOrEqual(t, curve.Distance(q), tol*1.02+0.02, "seed %d: the path from the curve", seed)
		}
		require.Less(t, len(p.V), 200, "seed %d", seed)
	}
}

// TestDecodeReportsWhatItSkips: nothing is dropped in silence.
func TestDecodeReportsWhatItSkips(t *testing.T) {
	for text, kind := range map[string]string{
		"\n<text>a</text>":                                                     "text",
		"\n<image width='5' height='5'/>":                                      "image",
		"\n<foreignObject/>":                                                   "foreignObject",
		"\n<switch><rect width='1' height='1'/></switch>":                      "switch",
		"\n<rect width='-1' height='5'/>":                                      "rect",
		"\n<rect width='x' height='5'/>":                                       "rect",
		"\n<rect width='1em' height='5'/>":                                     "rect",
		"\n<circle r='0'/>":                                                    "circle",
		"\n<path/>":                                                            "",
		"\n<path d='M0 0'/>":                                                   "",
		"\n<polygon points='1 2 3'/>":                                          "polygon",
		"\n<polyline points='1 2'/>":                                           "polyline",
		"\n<line x1='1' x2='1'/>":                                              "line",
		"\n<g display='none'><rect width='1' height='1'/></g>":                 "g",
		"\n<g style='display : none'><rect width='1' height='1'/></g>":         "g",
		"\n<g visibility='hidden'><rect width='1' height='1'/></g>":            "rect",
		"\n<g transform='spin(3)'><rect width='1' height='1'/></g>":            "g",
		"\n<g transform='scale(1,2,3)'><rect width='1' height='1'/></g>":       "g",
		"\n<g style='transform:scale(3)'><circle r='1'/></g>":                  "g",
		"\n<g transform='scale(2)' transform-origin='5 5'><circle r='1'/></g>": "g",
		"\n<circle r='1' style='fill:none; r : 5'/>":                           "circle",
		"\n<use href='#none'/>":                                                "use",
		"\n<use href='other.svg#a'/>":                                          "use",
		"\n<style>.a{display:none}</style>":                                    "style",
		"\n<svg width='-1' height='2'><circle r='1'/></svg>":                   "svg",
		"\n<svg viewBox='0 0 0 1'><circle r='1'/></svg>":                       "svg",
		"\n<g transform='scale(1e300)'><rect width='1e300' height='1'/></g>":   "rect",
	} {
		f := decode(t, page("<g data-layer='P'>"+text+"</g>"), svg.DecodeOptions{})
		if kind == "" { // draws nothing by the standard
			assert.Empty(t, f.Skipped, text)
			assert.Empty(t, f.Layers, text)
			continue
		}
		require.Len(t, f.Skipped, 1, text)
		assert.Equal(t, kind, f.Skipped[0].Type, text)
		assert.Equal(t, 2, f.Skipped[0].Line, text)
		assert.NotEmpty(t, f.Skipped[0].Why)
		assert.Empty(t, f.Layers, text)
	}
	for _, a := range []string{"clip-path='url(#a)'", "style='mask:url(#a)'", "marker-end='url(#a)'"} {
		f := decode(t, page("<path d='M0 0L5 5' "+a+"/>"), svg.DecodeOptions{})
		require.Len(t, f.Skipped, 1, a)
		assert.Len(t, f.Layers, 1, "the line is read all the same")
	}
	f := decode(t, page("<g visibility='hidden'><rect visibility='visible' width='1' height='1'/></g>"), svg.DecodeOptions{})
	assert.Empty(t, f.Skipped)
	assert.Len(t, f.Layers, 1)
}

// TestDecodeGivesBackArcs that Encode wrote, flat ones and nearly whole circles.
func TestDecodeGivesBackArcs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := arc.Angle(rapid.Float64Range(0, 6.3).Draw(t, "at"))
		p := arc.Path{V: []arc.Vertex{arc.V(0, 0, rapid.Float64Range(-20, 20).Draw(t, "k")), arc.V(rapid.Float64Range(0.5, 5000).Draw(t, "chord"), 0, 0)}}
		p = p.Transform(arc.Rotate(at))
		var b bytes.Buffer
		require.NoError(t, svg.Encode(&b, draw.Drawing{Title: "t", Layers: []draw.Layer{{Name: "a", Paths: []arc.Path{p}}}}, svg.Options{}))
		f, err := svg.Decode(&b, svg.DecodeOptions{})
		require.NoError(t, err)
		require.Empty(t, f.Skipped)
		q := f.Layers[0].Paths[0]
		require.InDelta(t, p.Length(), q.Length(), 0.005)
		for i := range 9 {
			m, _ := p.At(p.Length() * float64(i) / 8)
			n, _ := q.At(q.Length() * float64(i) / 8)
			require.InDelta(t, 0, r2.Norm(r2.Sub(m, n)), 0.01)
		}
	})
}

// TestDecodeTransforms: a path under a list of transforms is where its points
// are when mapped one by one.
func TestDecodeTransforms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := func(n string) float64 { return rapid.Float64Range(-30, 30).Draw(t, n) }
		c := [4]r2.Vec{vec(x("a"), x("b")), vec(x("c"), x("d")), vec(x("e"), x("f")), vec(x("g"), x("h"))}
		deg, skew, sx, sy, dx, dy := x("turn")*6, x("skew"), x("sx")/10, x("sy")/10, x("dx"), x("dy")
		if math.Abs(sx) < 0.1 || math.Abs(sy) < 0.1 {
			t.Skip("flat")
		}
		reach := 0.0
		for _, q := range c[1:] {
			reach = math.Max(reach, r2.Norm(r2.Sub(q, c[0])))
		}
		if reach < 1 {
			t.Skip("may lie within the tolerance of a point, which is no path and told so")
		}
		text := page(fmt.Sprintf(`<g transform="translate(%v,%v) rotate(%v)"><path transform="skewX(%v)scale(%v %v)" d="M%v %vC%v %v %v %v %v %v"/></g>`,
			dx, dy, deg, skew, sx, sy, c[0].X, c[0].Y, c[1].X, c[1].Y, c[2].X, c[2].Y, c[3].X, c[3].Y))
		f, err := svg.Decode(strings.NewReader(text), svg.DecodeOptions{Tolerance: 0.01})
		require.NoError(t, err)
		require.Empty(t, f.Skipped)
		p := f.Layers[0].Paths[0]
		sin, cos := math.Sincos(deg * math.Pi / 180)
		for i := range 60 {
			q := at(c, float64(i)/59)
			q = vec(sx*q.X, sy*q.Y)
			q.X += math.Tan(skew*math.Pi/180) * q.Y
			q = vec(cos*q.X-sin*q.Y+dx, -(sin*q.X + cos*q.Y + dy))
			require.LessOrEqual(t, p.Distance(q), 0.0102)
		}
	})
}

// TestDecodeLooseEnds joins within a layer and tells what stays open.
func TestDecodeLooseEnds(t *testing.T) {
	text := page(`<g id="p"><g id="q"><path d="M0 0H10"/></g><path d="M10.01 0V5"/></g><line x2="1" y2="1"/>`)
	apart := decode(t, text, svg.DecodeOptions{})
	require.Len(t, apart.Layers, 2)
	assert.Equal(t, "p", apart.Layers[0].Name)
	assert.Len(t, apart.Layers[0].Paths, 2)
	joined := decode(t, text, svg.DecodeOptions{Join: 0.02})
	require.Len(t, joined.Layers[0].Paths, 1)
	assert.Equal(t, []r2.Vec{{}, {X: 10.01, Y: -5}}, joined.Layers[0].LooseEnds())
}

func TestDecodeRefuses(t *testing.T) {
	deep := strings.Repeat("<g>", 1000)
	bomb := "<g id='a0'><path d='M0 0H1'/></g>"
	for i := 1; i < 8; i++ {
		bomb += fmt.Sprintf("<g id='a%d'>%s</g>", i, strings.Repeat(fmt.Sprintf("<use href='#a%d'/>", i-1), 100))
	}
	for text, kind := range map[string]error{
		"":                  arc.ErrSyntax,
		"x":                 arc.ErrSyntax,
		"<html></html>":     arc.ErrSyntax,
		"<svg>":             arc.ErrSyntax,
		"<svg><g></svg>":    arc.ErrSyntax,
		"<svg>&none;</svg>": arc.ErrSyntax,
		"<svg>" + deep:      arc.ErrRange,
		page(bomb):          arc.ErrRange,
		page("<g id='p'><path d='M0 0" + strings.Repeat("H1H2", 1<<16) + "'/></g>" + strings.Repeat("<use href='#p'/>", 3000)): arc.ErrRange,
	} {
		_, err := svg.Decode(strings.NewReader(text), svg.DecodeOptions{})
		require.ErrorIs(t, err, kind, text[:min(len(text), 40)])
	}
	for _, x := range []float64{-1, math.NaN(), math.Inf(1)} {
		for _, o := range []svg.DecodeOptions{{Unit: x}, {Tolerance: x}, {Join: x}} {
			_, err := svg.Decode(strings.NewReader(page("")), o)
			require.ErrorIs(t, err, arc.ErrRange)
		}
	}
	f := decode(t, page("<g id='a'><use href='#a'/><circle r='1'/></g>"), svg.DecodeOptions{})
	assert.Contains(t, f.Skipped[0].Why, "themselves")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := svg.DecodeContext(ctx, strings.NewReader(page(strings.Repeat("<path d='M0 0Q5 5 9 0'/>", 300))), svg.DecodeOptions{})
	assert.ErrorIs(t, err, context.Canceled)
}

func FuzzDecode(f *testing.F) {
	f.Add(page(`<g transform="rotate(20)skewX(3)"><path d="M0 0Q5 5 9 0T3 3S1 2 3 4 5 6 7 8zm1 1h5v5z"/></g>`))
	f.Add(page(`<path d="M0 0A5 3 20 1 0 9 9a1 1 0 01.5.5C1 2 3 4 5 6"/><circle r="3"/><ellipse rx="2" ry="1"/>`))
	f.Add(page(`<symbol id="s" viewBox="0 0 9 9"><rect width="5" height="50%" rx="1"/></symbol><use href="#s" width="5"/><use href="#s"/>`))
	f.Add(page(`<svg viewBox="0 0 1 2" width="3cm"><polygon points="0 0 1 1 2 0"/><text>x</text><line x2="1in"/></svg>`))
	f.Fuzz(func(t *testing.T, text string) {
		out, err := svg.Decode(strings.NewReader(text), svg.DecodeOptions{Tolerance: 0.1, Join: 0.1})
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

// A board with a hole, drawn in points.
func ExampleDecode() {
	text := `<svg xmlns="http://www.w3.org/2000/svg" width="720pt" height="360pt" viewBox="0 0 720 360">
		<g id="board" transform="translate(72 72)">
			<path d="M0 0 H576 V144 C384 216 192 216 0 144 Z"/>
			<circle cx="144" cy="72" r="36"/>
			<text x="10" y="20">cheek</text>
		</g></svg>`
	f, err := svg.Decode(strings.NewReader(text), svg.DecodeOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	board, err := arc.Regions(f.Layers[0].Paths)
	b := board[0].Bounds()
	fmt.Printf("%s: %.1f by %.1f mm, %.0f mm², %d hole, %v\n", f.Layers[0].Name, b.Max.X-b.Min.X, b.Max.Y-b.Min.Y, board[0].Area(), len(board[0].Holes), err)
	fmt.Printf("skipped: %s in line %d, %s\n", f.Skipped[0].Type, f.Skipped[0].Line, f.Skipped[0].Why)
	// Output:
	// board: 203.2 by 69.9 mm, 12396 mm², 1 hole, <nil>
	// skipped: text in line 5, not a kind that is read
}
