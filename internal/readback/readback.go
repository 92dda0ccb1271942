// Package readback reads what the encoders of drawings wrote, for tests only.
// It shares no code with them, knows just the part of each format that they
// use, and refuses everything else.
package readback

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/sagitta/arc"
)

// A Doc is what a file shows, in mm with y up.
type Doc struct {
	Width, Height float64 // of the page as printed, mm; 0 where the file does not say
	Unit          string  // "mm" where the file says so
	Title, Desc   string
	Layers        []string // in order of their definition
	LineTypes     []string // DXF only
	Shapes        []Shape
	Texts         []Text
	Solids        int // filled arrowheads
}

// A Shape is one element of a drawing: a line, an outline, or an outline and
// its holes.
type Shape struct {
	Layer string
	Loops []arc.Path
}

// A Text is one line of text.
type Text struct {
	Layer, Text string
	X, Y        float64
	Height      float64 // of a capital letter
	Degrees     float64 // counter-clockwise
}

// On returns the paths of one layer, whatever the case of its name.
func (d Doc) On(layer string) []arc.Path {
	var out []arc.Path
	for _, s := range d.Shapes {
		if strings.EqualFold(s.Layer, layer) {
			out = append(out, s.Loops...)
		}
	}
	return out
}

// Loops returns the closed paths of one layer.
func (d Doc) Loops(layer string) []arc.Path {
	var out []arc.Path
	for _, p := range d.On(layer) {
		if p.Closed {
			out = append(out, p)
		}
	}
	return out
}

// Net returns the area in mm² of the largest of the loops less that of the
// others, and how many others there are: the area and the holes of a part.
func Net(loops []arc.Path) (area float64, holes int) {
	big := 0.0
	for _, p := range loops {
		a := math.Abs(p.Area())
		area -= a
		big = max(big, a)
	}
	return area + 2*big, max(0, len(loops)-1)
}

// SVGPaths returns all paths of an SVG drawing.
func SVGPaths(r io.Reader) ([]arc.Path, error) { return paths(SVG(r)) }

// DXFPaths returns all paths of a DXF drawing.
func DXFPaths(r io.Reader) ([]arc.Path, error) { return paths(DXF(r)) }

func paths(d Doc, err error) ([]arc.Path, error) {
	var out []arc.Path
	for _, s := range d.Shapes {
		out = append(out, s.Loops...)
	}
	return out, err
}

func finite(what string, x ...float64) error {
	for _, x := range x {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("readback: %s: %v is not finite", what, x)
		}
	}
	return nil
}
