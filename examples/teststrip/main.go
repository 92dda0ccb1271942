// Command teststrip makes the strip to cut before a kerfed panel, and corrects
// the plan by what was measured on it.
//
//	go run ./examples/teststrip [-svg FILE] [-dxf FILE] [-radius L]
//
// Without -radius it tells what to cut and what to expect; with it, the
// measured radius of the closed strip along the flats of its show face, how the
// kerfs really work and the plan that follows.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"math"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/bend"
)

// The panel: the round end of a bar, a quarter circle of 160 mm, in 25 mm board
// sawn with a narrow blade, whose kerfs close before anything else gives way.
var (
	set    = bend.Board{Thickness: 25, KerfWidth: 2.2, Web: 1.8}
	limits = bend.Limits{Facet: 0.25, Land: 3}
)

func panel() (arc.Path, error) {
	a, err := arc.FromChordRadius(160*math.Sqrt2, 160, false)
	if err != nil {
		return arc.Path{}, err
	}
	return arc.Path{V: []arc.Vertex{arc.V(160, 0, a.K()), arc.V(0, 160, 0)}}, nil
}

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string, out io.Writer) error {
	f := flag.NewFlagSet("teststrip", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	svgFile := f.String("svg", "", "file to draw the strip into")
	dxfFile := f.String("dxf", "", "file to draw the strip into, for a machine")
	measured := f.String("radius", "", "measured radius of the closed strip")
	if err := f.Parse(args); err != nil {
		return err
	}
	profile, err := panel()
	if err != nil {
		return err
	}
	plan, err := bend.KerfPlan(profile, set, limits)
	if err != nil {
		return err
	}
	strip, err := plan.TestStrip()
	if err != nil {
		return err
	}
	if err := files(strip, *svgFile, *dxfFile); err != nil {
		return err
	}
	fmt.Fprintf(out, "panel: %d kerfs every %.2f mm, blank %.2f mm\n", len(plan.Kerfs), plan.Pitch, plan.FlatLength)
	if *measured == "" {
		fmt.Fprintf(out, "strip: %d kerfs every %.2f mm, %.2f mm of %.2f mm deep\n", len(strip.Slots), strip.Pitch, set.Depth(), set.Thickness)
		fmt.Fprintf(out, "closed it should turn %.1f° at radius %.1f mm: sag %.1f mm over a chord of %.1f mm\n",
			strip.Turn.Degrees(), strip.Radius, strip.Sag, strip.Chord)
		return nil
	}
	return correct(out, profile, strip, *measured)
}

// correct plans again with kerfs as the strip shows them.
func correct(out io.Writer, profile arc.Path, strip bend.Strip, measured string) error {
	radius, err := arc.ParseLength(measured, arc.Millimeters)
	if err != nil {
		return err
	}
	c, err := bend.Calibrate(bend.StripTest{Board: set, Pitch: strip.Pitch, Radius: radius})
	if err != nil {
		return err
	}
	plan, err := bend.KerfPlan(profile, c.Apply(set), limits)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "a kerf set to %.2f mm works as one of %.2f mm\n", set.KerfWidth, c.KerfWidth)
	fmt.Fprintf(out, "panel now: %d kerfs every %.2f mm, blank %.2f mm\n", len(plan.Kerfs), plan.Pitch, plan.FlatLength)
	return nil
}

func files(s bend.Strip, svgFile, dxfFile string) error {
	d := draw.WithCheckBar(s.Drawing(arc.Millimeters))
	var b bytes.Buffer
	if svgFile != "" {
		if err := svg.Encode(&b, d, svg.Options{}); err != nil {
			return err
		}
		if err := os.WriteFile(svgFile, b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	if dxfFile == "" {
		return nil
	}
	b.Reset()
	if err := dxf.Encode(&b, d, dxf.Options{}); err != nil {
		return err
	}
	return os.WriteFile(dxfFile, b.Bytes(), 0o644)
}
