// Command template prints the table from which a maker marks a curve: the
// height of an arc over its chord at even stations. With -svg it also draws
// the template at true size.
//
//	go run ./examples/template [-chord L] [-sag L] [-pitch L] [-units mm|in] [-svg FILE]
//
// Lengths are such as "760 mm", "30 in" or "2 ft 6 1/4 in".
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string, w io.Writer) error {
	f := flag.NewFlagSet("template", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	chord := f.String("chord", "42 in", "straight distance between the ends")
	sag := f.String("sag", "3 1/2 in", "height over the middle")
	pitch := f.String("pitch", "3 in", "distance between stations")
	units := f.String("units", "in", "mm or in")
	file := f.String("svg", "", "file to draw the template into")
	if err := f.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(w, "usage: template [-chord L] [-sag L] [-pitch L] [-units mm|in] [-svg FILE]")
		f.SetOutput(w)
		f.PrintDefaults()
		return nil
	} else if err != nil {
		return err
	}
	unit, ok := map[string]arc.Unit{"mm": arc.Millimeters, "in": arc.Inches}[*units]
	if !ok {
		return &arc.ParamError{Func: "template", Param: "units", Value: *units, Need: "mm or in", Err: arc.ErrSyntax}
	}
	var mm [3]float64
	for i, text := range []string{*chord, *sag, *pitch} {
		var err error
		if mm[i], err = arc.ParseLength(text, unit); err != nil {
			return err
		}
	}
	a, err := arc.FromChordSag(mm[0], mm[1])
	if err != nil {
		return err
	}
	at, err := stations(a, mm[2])
	if err != nil {
		return err
	}
	heights, err := a.Ordinates(at)
	if err != nil {
		return err
	}
	printTable(w, a, at, heights, unit)
	if *file == "" {
		return nil
	}
	var b bytes.Buffer
	if err := svg.Encode(&b, drawing(a, at, heights, unit), svg.Options{}); err != nil {
		return err
	}
	return os.WriteFile(*file, b.Bytes(), 0o644)
}

// stations returns stations a pitch apart to both sides of the middle, from
// where a maker works outward, and the two ends.
func stations(a arc.Arc, pitch float64) ([]float64, error) {
	half := a.Chord() / 2
	if !(pitch > 0) || half/pitch > 1000 {
		return nil, &arc.ParamError{Func: "template", Param: "pitch", Value: pitch, Unit: "mm", Need: "> 0, and at most 2000 stations", Err: arc.ErrRange}
	}
	n := int(math.Ceil(half/pitch-1e-6)) - 1 // none on top of an end
	out := []float64{0}
	for i := -n; i <= n; i++ {
		out = append(out, half+float64(i)*pitch)
	}
	return append(out, a.Chord()), nil
}

func printTable(w io.Writer, a arc.Arc, at, heights []float64, unit arc.Unit) {
	f := func(mm float64) string { return arc.FormatLength(mm, unit) }
	fmt.Fprintf(w, "chord %s, sag %s: radius %s, length along the curve %s\n\n", f(a.Chord()), f(a.Sag()), f(a.Radius()), f(a.Length()))
	fmt.Fprintf(w, "%14s %14s %14s\n", "from the left", "from middle", "height")
	for i, x := range at {
		fmt.Fprintf(w, "%14s %14s %14s\n", f(x), f(x-a.Chord()/2), f(heights[i]))
	}
}

// drawing shows the arc over its chord with its ordinates, chord and sag.
func drawing(a arc.Arc, at, heights []float64, unit arc.Unit) draw.Drawing {
	s := a.OnChord()
	style := draw.Style{Unit: unit}
	curve := arc.Path{V: []arc.Vertex{{P: s.A, K: s.K}, {P: s.B}}}
	marks := draw.Layer{Name: "station", Weight: 0.18}
	for i, x := range at {
		foot := r2.Vec{X: x}
		marks.Paths = append(marks.Paths, arc.Polyline(foot, r2.Vec{X: x, Y: heights[i]}))
	}
	return draw.WithCheckBar(draw.Drawing{
		Title: "Template of an arc",
		Desc:  fmt.Sprintf("Chord %s, sag %s, at true size", arc.FormatLength(a.Chord(), unit), arc.FormatLength(a.Sag(), unit)),
		Layers: []draw.Layer{
			marks,
			{Name: draw.Outline, Weight: 0.35, Paths: []arc.Path{curve, arc.Polyline(s.A, s.B)}},
			{Name: draw.Dims, Weight: 0.18, Dimensions: []draw.Dimension{draw.ChordSag(s, 15, style)}},
		},
	}, unit)
}
