// Command teststrip makes the strip to cut and bend before a kerfed panel, and
// plans the panel again by what the strip stood.
//
//	go run ./examples/teststrip [-bow] [-svg FILE] [-dxf FILE] [-stood L]
//
// Without -stood it tells what to cut and how far to bend it; with it, the
// radius of the tightest stage that neither cracked nor showed its kerfs, how
// far the webs may be strained and the plan that follows.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/bend"
)

// The panel of examples/kerf: its chord, sag, board and limits.
const chord, sag = 1400, 90

var (
	board  = bend.Board{Thickness: 18, KerfWidth: 3, Web: 2}
	limits = bend.Limits{Facet: 0.15, Strain: 0.008}
)

// panel returns the profile of a cove, or of a bow, its board on the left.
func panel(bow bool) (arc.Path, error) {
	a, err := arc.FromChordSag(chord, sag)
	if err != nil {
		return arc.Path{}, err
	}
	k := -a.K()
	if bow {
		k = a.K()
	}
	return arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(0, chord, 0)}}, nil
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
	stood := f.String("stood", "", "radius of the tightest stage that the strip stood")
	bow := f.Bool("bow", false, "a panel round towards the looker; else it is hollow")
	if err := f.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(out, "usage: teststrip [-bow] [-svg FILE] [-dxf FILE] [-stood L]")
		f.SetOutput(out)
		f.PrintDefaults()
		return nil
	} else if err != nil {
		return err
	}
	profile, err := panel(*bow)
	if err != nil {
		return err
	}
	plan, err := bend.KerfPlan(profile, board, limits)
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
	if *stood != "" {
		return correct(out, profile, strip, *stood)
	}
	fmt.Fprintf(out, "strip: %d kerfs every %.2f mm, %.2f mm of %.2f mm deep\n", len(strip.Slots), strip.Pitch, board.Depth(), board.Thickness)
	for i, g := range strip.Stages {
		fmt.Fprintf(out, "stage %d: radius %.0f mm (sag %.1f mm over a chord of %.1f mm), strain %.4f\n", i+1, g.Radius, g.Sag, g.Chord, g.Strain)
	}
	return nil
}

// correct plans again with the strain that the strip stood.
func correct(out io.Writer, profile arc.Path, strip bend.Strip, stood string) error {
	radius, err := arc.ParseLength(stood, arc.Millimeters)
	if err != nil {
		return err
	}
	strain, err := bend.StripBend{Board: board, Pitch: strip.Pitch, Radius: radius, Opens: strip.Opens}.Strain()
	if err != nil {
		return err
	}
	limits := limits
	limits.Strain = strain
	plan, err := bend.KerfPlan(profile, board, limits)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "it stood a strain of %.4f; a panel held bent for good stands less: plan below it\n", strain)
	fmt.Fprintf(out, "panel at that strain: %d kerfs every %.2f mm, blank %.2f mm\n", len(plan.Kerfs), plan.Pitch, plan.FlatLength)
	return nil
}

func files(s bend.Strip, svgFile, dxfFile string) error {
	d := draw.WithCheckBar(s.Drawing(arc.Millimeters), arc.Millimeters)
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
