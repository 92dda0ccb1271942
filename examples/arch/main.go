// Command arch lays out an arch over an opening from its span and rise, lists
// the arcs it is made of, and with -dxf writes it for a machine.
//
//	go run ./examples/arch [-shape S] [-span L] [-rise L] [-within L] [-units mm|in] [-dxf FILE]
//
// Shapes are segmental, basket (three-centered), four (four-centered),
// elliptical and catenary; the last two are tangent arcs that stay within the
// given distance of the true curve.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string, w io.Writer) error {
	f := flag.NewFlagSet("arch", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	shape := f.String("shape", "basket", "segmental, basket, four, elliptical or catenary")
	span := f.String("span", "1680 mm", "clear width")
	rise := f.String("rise", "520 mm", "height over the springing line")
	within := f.String("within", "0.1 mm", "how far the arcs may leave the curve")
	units := f.String("units", "mm", "mm or in")
	file := f.String("dxf", "", "file to write the arch into")
	if err := f.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(w, "usage: arch [-shape S] [-span L] [-rise L] [-within L] [-units mm|in] [-dxf FILE]")
		f.SetOutput(w)
		f.PrintDefaults()
		return nil
	} else if err != nil {
		return err
	}
	unit, ok := map[string]arc.Unit{"mm": arc.Millimeters, "in": arc.Inches}[*units]
	if !ok {
		return &arc.ParamError{Func: "arch", Param: "units", Value: *units, Need: "mm or in", Err: arc.ErrSyntax}
	}
	var mm [3]float64
	for i, text := range []string{*span, *rise, *within} {
		var err error
		if mm[i], err = arc.ParseLength(text, unit); err != nil {
			return err
		}
	}
	p, err := layOut(*shape, mm[0], mm[1], mm[2])
	if err != nil {
		return err
	}
	printArcs(w, p, unit)
	if *file == "" {
		return nil
	}
	var b bytes.Buffer
	d := draw.Drawing{Title: *shape + " arch", Layers: []draw.Layer{{Name: draw.Outline, Paths: []arc.Path{p}}}}
	if err := dxf.Encode(&b, d, dxf.Options{}); err != nil {
		return err
	}
	return os.WriteFile(*file, b.Bytes(), 0o644)
}

func layOut(shape string, span, rise, within float64) (arc.Path, error) {
	switch shape {
	case "segmental":
		return arc.SegmentalArch(span, rise)
	case "basket":
		return arc.BasketArch(span, rise)
	case "four":
		return arc.FourCenteredArch(span, rise)
	case "elliptical":
		return arc.EllipticalArch(span, rise, within)
	case "catenary":
		return arc.Catenary(span, rise, within)
	}
	return arc.Path{}, &arc.ParamError{Func: "arch", Param: "shape", Value: shape, Need: "segmental, basket, four, elliptical or catenary", Err: arc.ErrSyntax}
}

func printArcs(w io.Writer, p arc.Path, unit arc.Unit) {
	f := func(mm float64) string { return arc.FormatLength(mm, unit) }
	fmt.Fprintf(w, "%d arcs, %s along the curve\n\n", p.NumSegments(), f(p.Length()))
	fmt.Fprintf(w, "%3s %14s %10s %14s   center (right, up)\n", "", "radius", "turn", "length")
	for i := range p.NumSegments() {
		s := p.Segment(i)
		c := s.Center()
		fmt.Fprintf(w, "%3d %14s %9.3f° %14s   %s, %s\n", i+1, f(s.Radius()), math.Abs(s.Angle().Degrees()), f(s.Length()), f(c.X), f(c.Y))
	}
}
