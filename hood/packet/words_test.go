package packet

import (
	"context"
	"encoding/json"
	"encoding/xml"
	"html"
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

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

var (
	numbered = regexp.MustCompile(`(tab |rib-|pin |hole |foot )\d+ in `) // a part and what it is in
	tags     = regexp.MustCompile(`(?s)<(style|script)\b.*?</(style|script)>|<path[^>]*>`)
	anyTag   = regexp.MustCompile(`<[^>]*>`)
	noise    = regexp.MustCompile(`\d\.\d{5,}|\d[eE][-+]?\d`)
	aMetric  = regexp.MustCompile(`\d (mm|cm|m|N|mm/min)\b[^³]`)
	anInch   = regexp.MustCompile(`\d ?(in|ft|lb|lbf|in/min|ft³|cfm)\b|\d"`)
)

// shownTexts returns what people read of a packet's files: every text of a page or
// a drawing, and the words of the record.
func shownTexts(t *testing.T, files []File) map[string]string {
	out := map[string]string{}
	for _, f := range files {
		text := string(f.Data)
		switch {
		case strings.HasSuffix(f.Name, ".html"), strings.HasSuffix(f.Name, ".svg"):
			// Every tag ends a text of its own.
			out[f.Name] = html.UnescapeString(anyTag.ReplaceAllString(tags.ReplaceAllString(text, "\n"), "\n"))
		case f.Name == "packet.json":
			var r struct {
				Steps    []string
				Cautions []struct{ Text string }
				Parts    []struct{ Notes []string }
			}
			require.NoError(t, json.Unmarshal(f.Data, &r))
			lines := r.Steps
			for _, c := range r.Cautions {
				lines = append(lines, c.Text)
			}
			for _, p := range r.Parts {
				lines = append(lines, p.Notes...)
			}
			out[f.Name] = strings.Join(lines, "\n")
		}
	}
	return out
}

// checkWords looks for digits that are noise, and for the other unit.
func checkWords(t *testing.T, name, text string, unit arc.Unit) {
	other := anInch
	if unit == arc.Inches {
		other = aMetric
	}
	for _, line := range strings.Split(text, "\n") {
		line = numbered.ReplaceAllString(line, "")
		if strings.Contains(line, "Uniform Mechanical Code") || strings.Contains(line, "OSHA") { // names of sources, and limits in mg/m³
			continue
		}
		assert.False(t, noise.MatchString(line), "%s: %s", name, line)
		assert.False(t, other.MatchString(line+" "), "%s: %s", name, line)
	}
}

// No text of a packet holds noise, or the unit that was not asked for.
func TestWordsOfPackets(t *testing.T) {
	n := 2
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		n = 20
	case testing.Short():
		n = 1
	}
	r := rand.New(rand.NewPCG(2, 8))
	for i := 0; i < n; {
		spec := someHood(r)
		files, err := Make(context.Background(), spec, Options{})
		if err != nil {
			checkWords(t, "fault", err.Error(), arc.Millimeters)
			continue
		}
		i++
		for name, text := range shownTexts(t, files) {
			checkWords(t, name, text, arc.Millimeters)
		}
		files, err = Make(context.Background(), spec, Options{Unit: arc.Inches})
		require.NoError(t, err)
		for name, text := range shownTexts(t, files) {
			checkWords(t, name, text, arc.Inches)
		}
	}
}

// Faults of specs in inches speak of inches, in the numbers of the file.
func TestFaultsSpeakTheUnitOfTheSpec(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	n := 0
	for range 300 {
		s := someHood(r)
		s.Units = "in"
		switch r.IntN(6) {
		case 0:
			s.Sweep.Shape, s.Sweep.Sag = "cove", s.Height
		case 1:
			s.Bend.Web = s.Board.Thickness
		case 2:
			s.Neck.Depth = s.Depth + 25.4*0.75
		case 3:
			s.Duct.Diameter = s.Depth
		case 4:
			s.Ribs.Spacing = 10
		case 5:
			s.Back.Openings = []hood.Opening{{Shape: "circle", X: 9, Y: s.Height, Diameter: 60}}
		}
		if _, err := hood.Build(s); err != nil {
			n++
			checkWords(t, "fault", err.Error(), arc.Inches)
		}
	}
	assert.Greater(t, n, 200)
	s := someHood(r)
	s.Units, s.Neck.Depth, s.Depth = "in", 25.4*20.75, 25.4*20
	assert.ErrorContains(t, s.Validate(), "neck.depth = 20.75 in: need at most 20 in")
}

// The words test sees what it looks for.
func TestWordsTestSees(t *testing.T) {
	assert.True(t, noise.MatchString("19.049999999999997 mm"))
	assert.True(t, noise.MatchString("1e-05 mm"))
	assert.True(t, aMetric.MatchString("30 mm high"))
	assert.True(t, anInch.MatchString("4 1/2 in high"))
	assert.False(t, aMetric.MatchString("5 mg/m³ "))
}

// Pages are built as they should be read: one main part, headings in order, a
// caption to each table and a scope to each head cell, an alternative to each
// picture, no script and nothing from elsewhere.
func TestStructureOfPages(t *testing.T) {
	files, _ := made(t, mixedSides)
	for _, name := range []string{"report.html", "bench.html"} {
		page := string(files[name])
		assert.Less(t, len(page), 2<<20, name)
		assert.Equal(t, 1, strings.Count(page, "<main>"), name)
		assert.Equal(t, 1, strings.Count(page, "<h1>"), name)
		assert.NotContains(t, page, "<script")
		assert.NotRegexp(t, `(src|href)="(https?:|/)`, page)
		d := xml.NewDecoder(strings.NewReader(page))
		d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		level, tables, captions := 0, 0, 0
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
			e, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			attr := map[string]string{}
			for _, a := range e.Attr {
				attr[a.Name.Local] = a.Value
			}
			switch e.Name.Local {
			case "h1", "h2", "h3":
				n := int(e.Name.Local[1] - '0')
				assert.LessOrEqual(t, n, level+1, "a heading skips a level")
				level = n
			case "table":
				tables++
			case "caption":
				captions++
			case "th":
				assert.NotEmpty(t, attr["scope"], name)
			case "img":
				assert.NotEmpty(t, attr["alt"])
			}
		}
		assert.Equal(t, tables, captions, name)
		assert.Equal(t, strings.Count(page, "<svg"), strings.Count(page, `role="img"`), "each drawing is an image with a title")
	}
}

// Ink, quiet words, warnings and drawings stand out from the paper by 4.5:1 and
// more (Web Content Accessibility Guidelines 2.2, 1.4.3), in both schemes.
func TestContrast(t *testing.T) {
	vars := regexp.MustCompile(`--(\w+): (#[0-9a-f]{6})`)
	schemes := 0
	for _, root := range regexp.MustCompile(`:root \{[^}]*\}`).FindAllString(reportText, -1) {
		c := map[string]string{}
		for _, m := range vars.FindAllStringSubmatch(root, -1) {
			c[m[1]] = m[2]
		}
		if len(c) == 0 {
			continue
		}
		schemes++
		for _, name := range []string{"ink", "quiet", "mark", "good"} {
			assert.GreaterOrEqual(t, contrast(t, c[name], c["paper"]), 4.5, name)
		}
	}
	assert.Equal(t, 2, schemes)
	hex := func(c [3]uint8) string {
		out := "#"
		for _, v := range c {
			out += strconv.FormatUint(uint64(v)+256, 16)[1:]
		}
		return out
	}
	for _, text := range [][3]uint8{{ink.R, ink.G, ink.B}, {far.R, far.G, far.B}} {
		for _, paper := range [][3]uint8{{0xff, 0xff, 0xff}, {wood.R, wood.G, wood.B}} {
			assert.GreaterOrEqual(t, contrast(t, hex(text), hex(paper)), 4.5)
		}
	}
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
}

// contrast is the ratio of the relative luminances of two colors.
func contrast(t *testing.T, a, b string) float64 {
	light := func(hex string) float64 {
		sum := 0.0
		for i, w := range [3]float64{0.2126, 0.7152, 0.0722} {
			v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
			require.NoError(t, err)
			x := float64(v) / 255
			if x <= 0.04045 {
				x /= 12.92
			} else {
				x = math.Pow((x+0.055)/1.055, 2.4)
			}
			sum += w * x
		}
		return sum
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Kerfs stand in the report as the record has them, from one end.
func TestKerfAndSeamTables(t *testing.T) {
	s := mustSpec(t, mixedSides)
	d, err := hood.Build(s)
	require.NoError(t, err)
	rows := 0
	var places []string
	for _, table := range kerfTables(d, d.Spec.Format()) {
		rows += len(table.Rows)
		for _, r := range table.Rows {
			places = append(places, r.At)
		}
	}
	kerfs := 0
	for _, p := range d.Parts {
		for _, k := range p.Kerfs {
			at, err := strconv.ParseFloat(places[kerfs], 64)
			require.NoError(t, err)
			assert.InDelta(t, k.At, at, 0.0501, p.Name)
			kerfs++
		}
	}
	assert.Equal(t, kerfs, rows)
	assert.Positive(t, kerfs)
	seams := seamTables(d, d.Spec.Format())
	require.Len(t, seams, 2)
	for i, seam := range [][]hood.SeamPoint{d.Left.Seam, d.Right.Seam} {
		require.Len(t, seams[i].Rows, len(seam))
		for j, q := range seam {
			at, err := strconv.ParseFloat(seams[i].Rows[j][3], 64)
			require.NoError(t, err)
			assert.InDelta(t, q.XShow, at, 0.0501)
		}
	}
}

func TestProofInOneSentence(t *testing.T) {
	in := hood.Spec{}.Format()
	checks := []hood.Check{{Name: "a", Value: 0.09, Limit: 0.1, Unit: "mm", OK: true}, {Name: "b", Value: 1e-9, Limit: 1e-5, Unit: "mm", OK: true}}
	assert.Equal(t, "3 checks hold, largest gap 0.09 mm of 0.1 mm allowed.", proofSays(checks, []checkPage{{OK: true}}, in))
	checks[0].OK = false
	assert.Equal(t, "1 of 2 checks hold, largest gap 0.09 mm of 0.1 mm allowed.", proofSays(checks, nil, in))
}
