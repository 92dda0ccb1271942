package packet

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"reflect"
	"strconv"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
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
	Facts    []fact
	Curves   []curvePage
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

func number(x float64, digits int) string { return strconv.FormatFloat(x, 'f', digits, 64) }

func kilograms(x float64) string { return number(x, 1) + " kg" }

// curveFacts returns the figures of a curved panel as people read them.
func curveFacts(name string, c hood.Curve, unit arc.Unit) []curvePage {
	length := func(mm float64) string { return arc.FormatLength(mm, unit) }
	f := []fact{{"chord", length(c.Chord)}}
	if c.Sag > 0 {
		f = append(f, fact{"sag", length(c.Sag)})
	}
	if c.Radius > 0 {
		f = append(f, fact{"radius", length(c.Radius)}, fact{"turn", c.Turn.String()})
	}
	f = append(f, fact{"lean of the chord", c.Lean.String()},
		fact{"length on the show face", length(c.ShowLength)}, fact{"length of the flat blank", length(c.FlatLength)})
	if c.SkirtBevel != 0 {
		f = append(f, fact{"bevel where skirt and sweep meet", c.SkirtBevel.String()})
	}
	if k := c.Kerfs; k.Count > 0 {
		f = append(f, fact{"kerfs", strconv.Itoa(k.Count)})
		if k.Pitch > 0 {
			f = append(f, fact{"pitch", length(k.Pitch)})
		}
		f = append(f, fact{"first kerf from the lower end", length(k.First)}, fact{"turn of a kerf", k.Turn.String()},
			fact{"facet", number(k.Facet, 3) + " mm"}, fact{"strain of the web", number(100*k.Strain, 2) + " %"},
			fact{"mouth after bending", number(k.Mouth, 2) + " mm"})
	}
	out := []curvePage{{name, append(f, plyFacts(c.Plies, unit)...)}}
	for i, a := range c.Arcs {
		out = append(out, curveFacts(fmt.Sprintf("%s, arc %d", name, i+1), a, unit)...)
	}
	return out
}

// sideFacts returns the figures of the flared sides, once where they are alike.
func sideFacts(d hood.Design, unit arc.Unit) []curvePage {
	if d.Right.Curve.Chord > 0 && reflect.DeepEqual(d.Left, d.Right) {
		return curveFacts("Sides", d.Right.Curve, unit)
	}
	var out []curvePage
	if d.Left.Curve.Chord > 0 {
		out = append(out, curveFacts("Left side", d.Left.Curve, unit)...)
	}
	if d.Right.Curve.Chord > 0 {
		out = append(out, curveFacts("Right side", d.Right.Curve, unit)...)
	}
	return out
}

func partPages(d hood.Design, unit arc.Unit) []partPage {
	length := func(mm float64) string { return arc.FormatLength(mm, unit) }
	var out []partPage
	for _, p := range d.Parts {
		l, w := p.Size()
		row := partPage{
			Name: p.Name, Material: p.Material, Thickness: length(p.Thickness),
			Length: length(l), Width: length(w), Mass: kilograms(p.Mass), Qty: p.Copies(),
		}
		row.Notes = append(row.Notes, sawLines(p)...)
		row.Notes = append(row.Notes, bandNotes(p, unit)...)
		row.Notes = append(row.Notes, p.Notes...)
		out = append(out, row)
	}
	return out
}

func checkPages(checks []hood.Check) []checkPage {
	var out []checkPage
	for _, c := range checks {
		digits := 4
		if c.Value >= 5e-10 && c.Limit < 1e-3 { // less is rounding, which differs between processors
			digits = 9
		}
		out = append(out, checkPage{c.Name, number(c.Value, digits) + " " + c.Unit,
			strconv.FormatFloat(c.Limit, 'g', 4, 64) + " " + c.Unit, c.OK})
	}
	return out
}
