package draw

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// Names for the layers of a flat part and of its drawing. Any other name will
// do as well.
const (
	Outline   = "outline"   // where a part ends
	Opening   = "opening"   // cut through, inside a part
	Kerf      = "kerf"      // slots for bending
	Pocket    = "pocket"    // rabbets, dadoes, recesses
	Bevel     = "bevel"     // far edges of bevels
	Sheet     = "sheet"     // the board that parts lie on
	Dims      = "dimension" // dimensions
	Note      = "note"      // text
	Check     = "check"     // the bar that proves the scale of a print
	Centering = "center"    // center lines
)

// ParamError is [arc.ParamError].
type ParamError = arc.ParamError

// A Drawing is a stack of layers. Title and Desc say in words what it shows.
type Drawing struct {
	Title, Desc string
	// Page is the part of the plane that is shown; the zero Box means the
	// extent of everything and 5 mm around it.
	Page   r2.Box
	Layers []Layer // later ones lie over earlier ones
}

// A Layer is things drawn alike.
type Layer struct {
	Name   string
	Weight float64     // line width in mm; 0 means 0.25
	Dash   []float64   // lengths in mm of dash, gap, dash, ...; none means a full line
	Color  color.NRGBA // of lines and text; the zero color means black
	Fill   color.NRGBA // of regions; the zero color means none

	Paths      []arc.Path
	Regions    []arc.Region
	Dimensions []Dimension
	Texts      []Text
}

// LineWidth returns the width that lines are drawn with, in mm.
func (l Layer) LineWidth() float64 {
	if l.Weight == 0 {
		return 0.25
	}
	return l.Weight
}

// AllLines returns the paths of the layer and the lines of its dimensions.
func (l Layer) AllLines() []arc.Path {
	out := append([]arc.Path(nil), l.Paths...)
	for _, d := range l.Dimensions {
		out = append(out, d.Lines...)
	}
	return out
}

// AllTexts returns the texts of the layer and the labels of its dimensions.
func (l Layer) AllTexts() []Text {
	out := append([]Text(nil), l.Texts...)
	for _, d := range l.Dimensions {
		out = append(out, d.Labels...)
	}
	return out
}

// Arrows returns the arrowheads of the layer's dimensions, closed triangles
// to be filled with the layer's color.
func (l Layer) Arrows() []arc.Path {
	var out []arc.Path
	for _, d := range l.Dimensions {
		out = append(out, d.Arrows...)
	}
	return out
}

// pageMargin is the room left around a drawing that states no page, mm.
const pageMargin = 5

// Sheet returns what of the plane is shown: Page, or else the extent of
// everything and 5 mm around it.
func (d Drawing) Sheet() r2.Box {
	if d.Page != (r2.Box{}) {
		return d.Page
	}
	b := d.Extent()
	m := r2.Vec{X: pageMargin, Y: pageMargin}
	return r2.Box{Min: r2.Sub(b.Min, m), Max: r2.Add(b.Max, m)}
}

// Extent returns the extent of everything drawn, without the width of lines;
// that of text is estimated. It is the zero Box where nothing is drawn.
func (d Drawing) Extent() r2.Box {
	e := extent{}
	for _, l := range d.Layers {
		for _, p := range l.AllLines() {
			e.path(p)
		}
		for _, p := range l.Arrows() {
			e.path(p)
		}
		for _, r := range l.Regions {
			e.path(r.Outer)
		}
		for _, t := range l.AllTexts() {
			for _, c := range t.corners() {
				e.box(r2.Box{Min: c, Max: c})
			}
		}
	}
	return e.b
}

type extent struct {
	b   r2.Box
	any bool
}

func (e *extent) path(p arc.Path) {
	if len(p.V) > 0 {
		e.box(p.Bounds())
	}
}

func (e *extent) box(b r2.Box) {
	if !e.any {
		e.b, e.any = b, true
		return
	}
	e.b.Min.X, e.b.Min.Y = math.Min(e.b.Min.X, b.Min.X), math.Min(e.b.Min.Y, b.Min.Y)
	e.b.Max.X, e.b.Max.Y = math.Max(e.b.Max.X, b.Max.X), math.Max(e.b.Max.Y, b.Max.Y)
}

// maxCoordinate is a thousand kilometers: beyond it nothing is a drawing, and
// formats that print without exponents stay short.
const maxCoordinate = 1e9

// Check returns a [*ParamError] where the drawing holds a number that is not
// finite or beyond 1e9 mm, a path without a segment, a negative line width or
// dash, or two layers of one name.
func (d Drawing) Check() error {
	seen := map[string]bool{}
	for _, l := range d.Layers {
		if l.Name == "" || seen[l.Name] {
			return &ParamError{Func: "draw.Drawing.Check", Param: "layer name", Value: l.Name, Need: "a name of its own", Err: arc.ErrRange}
		}
		seen[l.Name] = true
		if err := l.check(); err != nil {
			return err
		}
	}
	c := checker{where: "page"}
	c.point(d.Page.Min)
	c.point(d.Page.Max)
	if c.err == nil && d.Page != (r2.Box{}) && !(d.Page.Max.X > d.Page.Min.X && d.Page.Max.Y > d.Page.Min.Y) {
		return &ParamError{Func: "draw.Drawing.Check", Param: "page", Value: d.Page, Unit: "mm", Need: "a width and a height > 0", Err: arc.ErrRange}
	}
	return c.err
}

func (l Layer) check() error {
	c := checker{where: "layer " + l.Name}
	c.size(l.Weight)
	sum := 0.0
	for _, d := range l.Dash {
		c.size(d)
		sum += d
	}
	if len(l.Dash) > 0 && sum <= 0 {
		c.fail(sum, "dashes that are not all 0", arc.ErrRange)
	}
	for _, p := range append(l.AllLines(), l.Arrows()...) {
		c.path(p)
	}
	for _, r := range l.Regions {
		for _, p := range r.Loops() {
			c.path(p)
		}
	}
	for _, t := range l.AllTexts() {
		c.point(t.At)
		c.size(t.Height)
		c.number(float64(t.Angle))
	}
	return c.err
}

// checker keeps the first fault.
type checker struct {
	where string
	err   error
}

func (c *checker) fail(v any, need string, kind error) {
	if c.err == nil {
		c.err = &ParamError{Func: "draw.Drawing.Check", Param: c.where, Value: v, Need: need, Err: kind}
	}
}

func (c *checker) number(x float64) {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		c.fail(x, "a finite number", arc.ErrNotFinite)
	case math.Abs(x) > maxCoordinate:
		c.fail(x, "at most "+strconv.FormatFloat(maxCoordinate, 'g', -1, 64), arc.ErrRange)
	}
}

func (c *checker) size(x float64) {
	if c.number(x); x < 0 {
		c.fail(x, ">= 0", arc.ErrRange)
	}
}

func (c *checker) point(p r2.Vec) {
	c.number(p.X)
	c.number(p.Y)
}

func (c *checker) path(p arc.Path) {
	if len(p.V) < 2 {
		c.fail(len(p.V), "paths of at least 2 vertices", arc.ErrEmpty)
	}
	for _, v := range p.V {
		c.point(v.P)
		c.number(v.K)
	}
}
