// Package svg writes and reads drawings as Scalable Vector Graphics (SVG 1.1, second
// edition, W3C 2011) at true size: the width and height are in millimetres and
// a user unit is one millimetre. Coordinates are those of the drawing with y
// negated; the origin of the viewBox says where the page lies. Arcs stay arcs.
//
// A browser that prints a bare SVG file scales it to the paper. To print a
// template at true size put the SVG (Options.Inline) into an HTML page with
// @page{size:<width>mm <height>mm;margin:0}, and in any case measure the bar
// that [draw.WithCheckBar] adds.
//
// [Decode] reads where the lines of others' files go, at their size, with
// circles as arcs and other curves as tangent arcs, and lists what it did not
// read. It does not read text, paint, clipping or style sheets.
package svg

import (
	"bytes"
	"encoding/xml"
	"example.com/sagitta/internal/num"
	"image/color"
	"io"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
)

// ParamError is [arc.ParamError].
type ParamError = arc.ParamError

// Options say how a drawing is written. The zero Options write a file that
// stands alone.
type Options struct {
	// Inline leaves out the XML declaration, for SVG inside an HTML page.
	Inline bool
}

// Encode writes d to w. It returns a [*ParamError] where the drawing cannot be
// drawn (see [draw.Drawing.Check]), and then writes nothing.
//
// Each layer is a group whose attribute data-layer holds its name. Numbers are
// rounded to 0.0001 mm.
func Encode(w io.Writer, d draw.Drawing, o Options) error {
	if err := d.Check(); err != nil {
		return err
	}
	e := &encoder{}
	if !o.Inline {
		e.raw(xml.Header)
	}
	e.open(d)
	for _, l := range d.Layers {
		e.layer(l)
	}
	e.raw("</svg>\n")
	_, err := w.Write(e.Bytes())
	return err
}

type encoder struct{ bytes.Buffer }

func (e *encoder) raw(s ...string) {
	for _, s := range s {
		e.WriteString(s)
	}
}

// text writes character data or an attribute's value, escaped.
func (e *encoder) text(s string) { _ = xml.EscapeText(&e.Buffer, []byte(s)) }

// num writes a rounded number. The sum with 0 turns -0 into 0.
func (e *encoder) num(x float64) { e.WriteString(number(x)) }

func number(x float64) string {
	return strconv.FormatFloat(round(x), 'f', -1, 64)
}

// round rounds to 0.0001 mm.
func round(x float64) float64 { return num.Decimals(x, 4) }

func (e *encoder) attr(name string, v ...float64) {
	e.raw(" ", name, `="`)
	for i, x := range v {
		if i > 0 {
			e.raw(" ")
		}
		e.num(x)
	}
	e.raw(`"`)
}

func (e *encoder) open(d draw.Drawing) {
	b := d.Sheet()
	wide, high := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	e.raw(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" role="img" width="`, number(wide), `mm" height="`, number(high), `mm"`)
	e.attr("viewBox", b.Min.X, -b.Max.Y, wide, high)
	e.raw(">\n<title>")
	e.text(d.Title)
	e.raw("</title>\n<desc>")
	e.text(d.Desc)
	e.raw("</desc>\n")
}

func (e *encoder) layer(l draw.Layer) {
	ink, opacity := paint(l.Color)
	e.raw(`<g data-layer="`)
	e.text(l.Name)
	e.raw(`" fill="none" stroke="`, ink, `"`)
	if opacity < 1 {
		e.attr("opacity", opacity)
	}
	e.attr("stroke-width", l.LineWidth())
	e.raw(` stroke-linejoin="round" stroke-linecap="round"`)
	if len(l.Dash) > 0 {
		e.attr("stroke-dasharray", l.Dash...)
	}
	e.raw(">\n")
	fill := ""
	if l.Fill.A > 0 {
		c, opacity := paint(l.Fill)
		fill = ` fill="` + c + `" fill-opacity="` + number(opacity) + `" fill-rule="evenodd"`
	}
	for _, r := range l.Regions {
		e.path(fill, r.Loops()...)
	}
	for _, p := range l.AllLines() {
		e.path("", p)
	}
	for _, p := range l.Arrows() {
		e.path(` stroke="none" fill="`+ink+`"`, p)
	}
	for _, t := range l.AllTexts() {
		e.label(t, ink)
	}
	e.raw("</g>\n")
}

// paint returns a color and how opaque it is; the zero color is black.
func paint(c color.NRGBA) (string, float64) {
	if c == (color.NRGBA{}) {
		return "#000000", 1
	}
	const hex = "0123456789abcdef"
	out := []byte{'#'}
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		out = append(out, hex[v>>4], hex[v&15])
	}
	return string(out), float64(c.A) / 255
}

// capToEm is the height of a capital letter in common sans-serif typefaces as
// a part of the font size (0.716 in Helvetica and Arial; from memory).
const capToEm = 0.716

func (e *encoder) label(t draw.Text, ink string) {
	at := t.Baseline()
	e.raw(`<text`)
	e.attr("x", at.X)
	e.attr("y", -at.Y)
	e.attr("font-size", t.CapHeight()/capToEm)
	e.raw(` font-family="Helvetica, Arial, sans-serif" stroke="none" fill="`, ink, `"`)
	if anchor := map[draw.Align]string{draw.Center: "middle", draw.Middle: "middle", draw.Right: "end"}[t.Align]; anchor != "" {
		e.raw(` text-anchor="`, anchor, `"`)
	}
	if t.Angle != 0 {
		// With y downward a positive angle turns clockwise.
		e.raw(` transform="rotate(`)
		e.num(-t.Angle.Degrees())
		e.raw(" ")
		e.num(at.X)
		e.raw(" ")
		e.num(-at.Y)
		e.raw(`)"`)
	}
	e.raw(">")
	e.text(t.Text)
	e.raw("</text>\n")
}

// path writes loops as one element, so that holes are holes.
func (e *encoder) path(attrs string, loops ...arc.Path) {
	e.raw("<path", attrs, ` d="`)
	for i, p := range loops {
		if i > 0 {
			e.raw(" ")
		}
		e.point("M", p.V[0].P)
		for j := range p.NumSegments() {
			s := p.Segment(j)
			if s.K == 0 && p.Closed && j == len(p.V)-1 {
				break // Z draws it
			}
			e.segment(s)
		}
		if p.Closed {
			e.raw(" Z")
		}
	}
	e.raw("\"/>\n")
}

func (e *encoder) point(cmd string, p r2.Vec) {
	e.raw(cmd)
	e.num(p.X)
	e.raw(" ")
	e.num(-p.Y)
}

// segment writes a line or an arc. An arc is written by its radius and end, so
// its sag is badly known near a half turn, and a renderer scales up in silence
// a radius that rounding left too small. Pieces of at most a quarter turn have
// neither trouble: there an error of the radius is less than half as large in
// the sag.
func (e *encoder) segment(s arc.Segment) {
	const quarter = math.Sqrt2 - 1 + 1e-12 // tan of a quarter of 90°
	if math.Abs(s.K) > quarter {
		k := s.K / (1 + math.Sqrt(1+s.K*s.K)) // half the turn
		m := s.Mid()
		e.segment(arc.Segment{A: s.A, B: m, K: k})
		e.segment(arc.Segment{A: m, B: s.B, K: k})
		return
	}
	// What the rounded file shows has a sag below half its last digit.
	if s.Sag() < 5e-5 {
		e.point(" L", s.B)
		return
	}
	sweep := "1"
	if s.K > 0 {
		sweep = "0" // counter-clockwise to the eye, y being downward
	}
	r := number(s.Radius())
	e.raw(" A", r, " ", r, " 0 0 ", sweep)
	e.point(" ", s.B)
}
