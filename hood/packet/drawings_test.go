package packet

import (
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
)

// Drawings are read back from their SVG, as a printer gets them.

// A readText is a text of an SVG and the corners of the box that bounds it.
type readText struct {
	layer, text string
	box         [4]r2.Vec
}

// A readSVG is what a drawing shows, y upward.
type readSVG struct {
	desc  string
	page  r2.Box
	texts []readText
	paths map[string][][]r2.Vec // by layer, the points of each
}

var coordinate = regexp.MustCompile(`[ML](-?[\d.]+) (-?[\d.]+)|A[-\d.]+ [-\d.]+ 0 0 \d (-?[\d.]+) (-?[\d.]+)`)

func readBack(t *testing.T, data string) readSVG {
	out := readSVG{paths: map[string][][]r2.Vec{}}
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	d := xml.NewDecoder(strings.NewReader(data))
	layer, inDesc := "", false
	var now *readText
	var attrs map[string]string
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			attrs = map[string]string{}
			for _, a := range e.Attr {
				attrs[a.Name.Local] = a.Value
			}
			switch e.Name.Local {
			case "svg":
				v := strings.Fields(attrs["viewBox"])
				x, y, w, h := num(v[0]), num(v[1]), num(v[2]), num(v[3])
				out.page = r2.Box{Min: r2.Vec{X: x, Y: -y - h}, Max: r2.Vec{X: x + w, Y: -y}}
			case "g":
				layer = attrs["data-layer"]
			case "desc":
				inDesc = true
			case "path":
				var pts []r2.Vec
				for _, m := range coordinate.FindAllStringSubmatch(attrs["d"], -1) {
					i := 1
					if m[1] == "" {
						i = 3
					}
					pts = append(pts, r2.Vec{X: num(m[i]), Y: -num(m[i+1])})
				}
				out.paths[layer] = append(out.paths[layer], pts)
			case "text":
				now = &readText{layer: layer}
			}
		case xml.CharData:
			if inDesc {
				out.desc += string(e)
			}
			if now != nil {
				now.text += string(e)
			}
		case xml.EndElement:
			switch e.Name.Local {
			case "desc":
				inDesc = false
			case "text":
				now.box = boxOf(t, now.text, attrs)
				out.texts = append(out.texts, *now)
				now = nil
			}
		}
	}
}

// boxOf bounds a text by 0.8 of a capital's height a letter, which Helvetica and
// its like keep on average.
func boxOf(t *testing.T, text string, attrs map[string]string) [4]r2.Vec {
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	h := num(attrs["font-size"]) * 0.716
	w, x := 0.8*h*float64(len([]rune(text))), 0.0
	switch attrs["text-anchor"] {
	case "middle":
		x = -w / 2
	case "end":
		x = -w
	}
	m := arc.Shift(r2.Vec{X: num(attrs["x"]), Y: -num(attrs["y"])})
	if r, ok := strings.CutPrefix(attrs["transform"], "rotate("); ok {
		m = arc.Rotate(arc.Angle(-num(strings.Fields(r)[0])) * arc.Degree).Then(m)
	}
	return [4]r2.Vec{m.Apply(r2.Vec{X: x}), m.Apply(r2.Vec{X: x + w}), m.Apply(r2.Vec{X: x + w, Y: h}), m.Apply(r2.Vec{X: x, Y: h})}
}

// overlap reports whether two boxes share more than a hair: no line parts them.
func overlap(a, b [4]r2.Vec) bool {
	for _, box := range [2][4]r2.Vec{a, b} {
		for i := range 2 {
			n := r2.Sub(box[i+1], box[i])
			if n == (r2.Vec{}) {
				continue
			}
			n = r2.Unit(n)
			span := func(c [4]r2.Vec) (lo, hi float64) {
				lo, hi = math.Inf(1), math.Inf(-1)
				for _, p := range c {
					lo, hi = min(lo, r2.Dot(p, n)), max(hi, r2.Dot(p, n))
				}
				return lo, hi
			}
			a0, a1 := span(a)
			b0, b1 := span(b)
			if a1 < b0+0.01 || b1 < a0+0.01 {
				return false
			}
		}
	}
	return true
}

// checkTexts asks every text to lie on the page, clear of the others.
func checkTexts(t *testing.T, name string, s readSVG) {
	for i, a := range s.texts {
		for _, p := range a.box {
			assert.True(t, p.X > s.page.Min.X-0.01 && p.X < s.page.Max.X+0.01 && p.Y > s.page.Min.Y-0.01 && p.Y < s.page.Max.Y+0.01, "%s: %q is off the page: %v of %v", name, a.text, p, s.page)
		}
		for _, b := range s.texts[:i] {
			assert.False(t, overlap(a.box, b.box), "%s: %q and %q overlap", name, a.text, b.text)
		}
	}
}

// length reads a printed length of a drawing, mm.
func length(t *testing.T, text string, unit arc.Unit) float64 {
	text = strings.TrimPrefix(text, "sag ")
	mm, err := arc.ParseLength(text, unit)
	require.NoError(t, err, text)
	return mm
}

var scaleOf = regexp.MustCompile(`(?i)scale 1:(\d+)`)

// checkLengths asks every printed length to be the distance of the marks that it
// stands at: of the first mark of its row on the sheet of a part, of its two
// arrows in a view.
func checkLengths(t *testing.T, name string, s readSVG, unit arc.Unit) (n int) {
	m := scaleOf.FindStringSubmatch(s.desc)
	require.NotNil(t, m, s.desc)
	scale, _ := strconv.ParseFloat(m[1], 64)
	within := 0.051 + 0.0002*scale // what is rounded in print, and in the file
	if unit == arc.Inches {
		within = arc.Inch/64 + 0.0002*scale
	}
	for _, row := range []string{"along x", "along y"} {
		marks := s.paths[row]
		i := 0
		for _, text := range s.texts {
			if text.layer != row {
				continue
			}
			d := r2.Sub(marks[i][0], marks[0][0])
			assert.InDelta(t, scale*r2.Norm(d), length(t, text.text, unit), within, "%s, %s: %s", name, row, text.text)
			i++
			n++
		}
		assert.Equal(t, len(marks), i, name)
	}
	var arrows [][]r2.Vec
	for _, p := range s.paths[draw.Dims] {
		if len(p) == 3 { // a filled triangle with its tip first
			arrows = append(arrows, p)
		}
	}
	i := 0
	for _, text := range s.texts {
		if text.layer == draw.Dims {
			d := r2.Norm(r2.Sub(arrows[2*i][0], arrows[2*i+1][0]))
			assert.InDelta(t, scale*d, length(t, text.text, unit), within, "%s: %s", name, text.text)
			i++
			n++
		}
	}
	assert.Equal(t, len(arrows), 2*i, name)
	return n
}

// someHood draws a spec of any kind.
func someHood(r *rand.Rand) hood.Spec {
	between := func(a, b float64) float64 { return math.Round(10*(a+(b-a)*r.Float64())) / 10 }
	chance := func() bool { return r.IntN(2) == 0 }
	s := hood.Spec{Title: "some hood", Width: between(700, 1300), Height: between(600, 1000), Depth: between(430, 620), Fraction: []int{0, 64}[r.IntN(2)]}
	s.Neck = hood.Neck{Depth: math.Round(s.Depth * (0.5 + 0.2*r.Float64())), Width: s.Width}
	s.Board = hood.Board{Material: "mdf", Thickness: []float64{16, 18, 19.05}[r.IntN(3)], Sheets: []hood.Sheet{{Length: 2465, Width: 1245}}}
	s.Back = hood.Back{Material: "plywood", Thickness: 12, Rabbet: 9}
	s.Bend = hood.Bend{KerfWidth: []float64{2.4, 3.175, 3.2}[r.IntN(3)], Web: 1.6, Facet: 0.15}
	s.Cut = hood.Cut{Gap: 10, Margin: 10, Tool: 6.35}
	s.Sweep.Shape = []string{"cove", "bow", "ogee", "straight"}[r.IntN(4)]
	if s.Sweep.Shape != "straight" {
		s.Sweep.Sag = between(15, 45)
	}
	if chance() {
		s.Skirt = between(80, 160)
	}
	if chance() && s.Sweep.Shape != "straight" {
		s.Neck.Width = math.Round(s.Width * (0.6 + 0.2*r.Float64()))
		s.SideSweep.Shape, s.SideSweep.Sag = s.Sweep.Shape, between(8, 20)
	}
	if chance() {
		s.Back.Openings = []hood.Opening{{Shape: "circle", Y: math.Round(s.Height * 0.7), Diameter: 160}}
	}
	if chance() {
		s.Liner = hood.Liner{Length: math.Round(s.Width * 0.6), Width: 250, Y: []float64{0, 20}[r.IntN(2)]}
	}
	if chance() {
		s.Duct.Diameter = 125
	}
	if chance() {
		s.Ribs = hood.Ribs{Spacing: 350, Depth: 60, Clearance: 0.3}
	}
	if chance() {
		s.Cleat.Height = 80
	}
	if chance() {
		s.Chimney.Height = between(200, 500)
	}
	if chance() {
		s.Pins = hood.Pins{Diameter: 8, Depth: 6, Spacing: 250}
	}
	if chance() {
		s.Tabs = hood.Tabs{Width: 40, Clearance: 0.3, Spacing: 250}
	}
	if chance() {
		s.Cooktop.Distance = between(650, 900)
	}
	return s
}

// Every printed length of the views and of the sheets of parts is the distance
// between its marks; no two texts overlap, and none leaves its page.
func TestDrawingsReadBack(t *testing.T) {
	n := 12
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		n = 50
	case testing.Short():
		n = 4
	}
	r := rand.New(rand.NewPCG(17, 4))
	lengths := 0
	for i := 0; i < n; {
		spec := someHood(r)
		if i%2 == 1 {
			spec.Units = "in"
		}
		d, err := hood.Build(spec)
		if err != nil {
			continue
		}
		i++
		_, err = decide(&d, Options{}.shop())
		require.NoError(t, err)
		solids, err := d.Model()
		require.NoError(t, err)
		in := d.Spec.Format()
		drawings := map[string]draw.Drawing{}
		for _, v := range views(d, solids, in) {
			drawings[fmt.Sprintf("%d %s", i, v.name)] = v.drawing
		}
		for j, p := range d.Parts {
			drawings[fmt.Sprintf("%d part %s", i, p.Name)] = bench{in, len(d.Parts)}.sheet(p, j+1)
		}
		for name, dr := range drawings {
			var b strings.Builder
			require.NoError(t, svg.Encode(&b, dr, svg.Options{Inline: true}), name)
			s := readBack(t, b.String())
			checkTexts(t, name, s)
			lengths += checkLengths(t, name, s, in.Unit)
			if t.Failed() && os.Getenv("SAGITTA_KEEP") != "" {
				_ = os.WriteFile(os.Getenv("SAGITTA_KEEP"), []byte(b.String()), 0o666)
				t.FailNow()
			}
		}
	}
	assert.Greater(t, lengths, 80*n, "drawings that carry measures")
	t.Logf("%d hoods, %d lengths", n, lengths)
}

// The reading back sees a wrong length, texts on one another and off the page.
func TestReadBackSees(t *testing.T) {
	bad := func(s readSVG, unit arc.Unit) bool {
		inner := &testing.T{}
		func() {
			defer func() { _ = recover() }()
			checkTexts(inner, "", s)
			checkLengths(inner, "", s, unit)
		}()
		return inner.Failed()
	}
	d, err := hood.Build(mustSpec(t, demo(t)))
	require.NoError(t, err)
	p, _ := d.Part("sweep")
	var b strings.Builder
	require.NoError(t, svg.Encode(&b, bench{d.Spec.Format(), 1}.sheet(p, 1), svg.Options{Inline: true}))
	good := b.String()
	require.False(t, bad(readBack(t, good), arc.Millimeters))
	require.Contains(t, good, ">1130<")
	assert.True(t, bad(readBack(t, strings.Replace(good, ">1130<", ">1130.2<", 1)), arc.Millimeters))
	assert.True(t, bad(readBack(t, strings.Replace(good, ">1 of 1<", ">"+strings.Repeat("wide ", 40)+"<", 1)), arc.Millimeters))
	assert.True(t, bad(readBack(t, strings.Replace(good, `viewBox="0 -250 186 250"`, `viewBox="0 -250 186 200"`, 1)), arc.Millimeters))
}

func mustSpec(t *testing.T, text string) hood.Spec {
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	return s
}

// Labels of sheets lie inside their parts, clear of each other.
func TestLabelsOfSheets(t *testing.T) {
	for _, spec := range []string{checkedFront, registered, mixedSides} {
		s := mustSpec(t, spec)
		d, err := hood.Build(s)
		require.NoError(t, err)
		_, err = decide(&d, Options{}.shop())
		require.NoError(t, err)
		n, err := nest(context.Background(), d, Options{})
		require.NoError(t, err)
		for i, sh := range n.layout.Sheets {
			dr, leaders := sheetDrawing(d, n, i, d.Spec.Format())
			var b strings.Builder
			require.NoError(t, svg.Encode(&b, dr, svg.Options{Inline: true}))
			r := readBack(t, b.String())
			checkTexts(t, dr.Title, r)
			for _, text := range r.texts {
				if strings.HasPrefix(text.text, "offcut") {
					continue
				}
				in := false
				for _, pl := range sh.Placements {
					wood := d.Parts[pl.Part].Outline.Transform(pl.Motion())
					all := true
					for k := range 4 {
						for f := range 5 {
							q := r2.Add(text.box[k], r2.Scale(float64(f)/5, r2.Sub(text.box[(k+1)%4], text.box[k])))
							all = all && wood.Contains(q)
						}
					}
					in = in || all
				}
				assert.True(t, in, "%s: %q is not inside a part", dr.Title, text.text)
			}
			for _, pl := range sh.Placements { // every part is named, here or beside
				name := d.Parts[pl.Part].Name
				assert.True(t, strings.Contains(b.String(), ">"+name+"<") || strings.Contains(leaders, name), name)
			}
		}
	}
}
