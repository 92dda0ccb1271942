package packet

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"example.com/sagitta/internal/num"
	"fmt"
	"html/template"
	"reflect"
	"strconv"

	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/hood"
)

//go:embed report.html
var reportText string

var reportTemplate = template.Must(template.New("report").Parse(reportText))

// A page is what the report shows.
type page struct {
	Title    string
	Picture  template.URL
	Client   []fact   // what the client reads
	Overall  []figure // three views with overall sizes
	Facts    []fact   // what the shop reads beside
	Curves   []curvePage
	Kerfs    []kerfTable
	Seams    []seamTable
	Proof    string
	Views    []figure
	Parts    []partPage
	Sheets   []sheetPage
	Checks   []checkPage
	Cautions []hood.Caution
	Steps    []string
	Moldings []trimPage
}

type fact struct{ Name, Value string }

type figure struct {
	Title, Desc string
	SVG         template.HTML
}

type curvePage struct {
	Name  string
	Facts []fact
}

type partPage struct {
	Name, Material, Thickness, Length, Width, Mass string
	Qty                                            int
	Notes                                          []string
}

type sheetPage struct {
	figure
	Program string
	Leaders string // what stands at the numbers in the drawing
	Facts   []fact
	Tools   []string
}

type checkPage struct {
	Name, Value, Limit string
	OK                 bool
}

func inline(d draw.Drawing) (figure, error) {
	var b bytes.Buffer
	err := svg.Encode(&b, d, svg.Options{Inline: true})
	return figure{d.Title, d.Desc, template.HTML(b.String())}, err
}

func (p page) encode() ([]byte, error) {
	var b bytes.Buffer
	err := reportTemplate.Execute(&b, p)
	return b.Bytes(), err
}

func dataURL(png []byte) template.URL {
	return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(png))
}

func number(x float64, digits int) string {
	return strconv.FormatFloat(num.Decimals(x, digits), 'f', digits, 64)
}

// curveFacts returns the figures of a curved panel as people read them.
func curveFacts(name string, c hood.Curve, in say.Format) []curvePage {
	length := in.Length
	f := []fact{{"chord", length(c.Chord)}}
	if c.Sag > 0 {
		f = append(f, fact{"sag", length(c.Sag)})
	}
	if c.Radius > 0 {
		f = append(f, fact{"radius", length(c.Radius)}, fact{"turn", say.Program(c.Turn)})
	}
	f = append(f, fact{"lean of the chord", say.Program(c.Lean)},
		fact{"length on the show face", length(c.ShowLength)}, fact{"length of the flat blank", length(c.FlatLength)})
	if c.SkirtBevel != 0 {
		f = append(f, fact{"bevel where skirt and sweep meet", say.Saw(c.SkirtBevel)})
	}
	if k := c.Kerfs; k.Count > 0 {
		f = append(f, fact{"kerfs", strconv.Itoa(k.Count)})
		if k.Pitch > 0 {
			f = append(f, fact{"pitch, not to be stepped off", in.Thin(k.Pitch)})
		}
		f = append(f, fact{"first kerf from the lower end", length(k.First)}, fact{"turn of a kerf", say.Program(k.Turn)},
			fact{"facet", in.Thin(k.Facet)}, fact{"strain of the web", say.Percent(k.Strain, 2)},
			fact{"mouth after bending", in.Gap(k.Mouth)})
	}
	out := []curvePage{{name, append(f, plyFacts(c.Plies, in)...)}}
	for i, a := range c.Arcs {
		out = append(out, curveFacts(fmt.Sprintf("%s, arc %d", name, i+1), a, in)...)
	}
	return out
}

// sideFacts returns the figures of the flared sides, once where they are alike.
func sideFacts(d hood.Design, in say.Format) []curvePage {
	if d.Right.Curve.Chord > 0 && reflect.DeepEqual(d.Left, d.Right) {
		return curveFacts("Sides", d.Right.Curve, in)
	}
	var out []curvePage
	if d.Left.Curve.Chord > 0 {
		out = append(out, curveFacts("Left side", d.Left.Curve, in)...)
	}
	if d.Right.Curve.Chord > 0 {
		out = append(out, curveFacts("Right side", d.Right.Curve, in)...)
	}
	return out
}

func partPages(d hood.Design, in say.Format) []partPage {
	length := in.Length
	var out []partPage
	for _, p := range d.Parts {
		l, w := p.Size()
		row := partPage{
			Name: p.Name, Material: p.Material, Thickness: length(p.Thickness),
			Length: length(l), Width: length(w), Mass: in.Mass(p.Mass), Qty: p.Copies(),
		}
		row.Notes = append(row.Notes, sawLines(p)...)
		row.Notes = append(row.Notes, bandNotes(p, in)...)
		row.Notes = append(row.Notes, p.Notes...)
		out = append(out, row)
	}
	return out
}

func checkPages(checks []hood.Check, in say.Format) []checkPage {
	var out []checkPage
	for _, c := range checks {
		out = append(out, checkPage{c.Name, measured(c.Value, c.Unit, in), measured(c.Limit, c.Unit, in), c.OK})
	}
	return out
}

// measured writes what a check found, or may find, in its unit.
func measured(x float64, unit string, in say.Format) string {
	switch {
	case unit == "mm" && x > 0 && in.Gap(x) == "closed":
		return "closed, but for rounding"
	case unit == "mm":
		return in.Gap(x)
	case unit == "":
		return number(x, 0)
	}
	return number(x, 2) + " " + unit
}
