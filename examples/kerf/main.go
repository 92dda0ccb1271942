// Command kerf plans the kerfs of a curved panel from its chord and sag, and
// bends the plan back to see where it ends.
//
//	go run ./examples/kerf [-chord L] [-sag L] [-bow] [-thickness L] [-kerf L] [-web L] [-facet L] [-strain X] [-units mm|in] [-svg FILE]
//
// Lengths are such as "760 mm", "30 in" or "2 ft 6 1/4 in". The panel is hollow
// towards the one who looks at it, or with -bow round. With -svg the bent panel
// is drawn, seen along its kerfs.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

type task struct {
	chord, sag float64
	bow        bool
	board      bend.Board
	limits     bend.Limits
	unit       arc.Unit
	svg        string
}

func parse(args []string, w io.Writer) (task, error) {
	var t task
	f := flag.NewFlagSet("kerf", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.BoolVar(&t.bow, "bow", false, "round towards the looker")
	f.StringVar(&t.svg, "svg", "", "file to draw the bent panel into")
	f.Float64Var(&t.limits.Strain, "strain", 0.008, "largest strain of a web")
	unit := f.String("units", "mm", "unit of plain numbers and of what is printed: mm or in")
	lengths := []struct {
		name, text string
		to         *float64
	}{
		{"chord", "1400 mm", &t.chord},
		{"sag", "90 mm", &t.sag},
		{"thickness", "18 mm", &t.board.Thickness},
		{"kerf", "3 mm", &t.board.KerfWidth},
		{"web", "2 mm", &t.board.Web},
		{"facet", "0.15 mm", &t.limits.Facet},
	}
	for i := range lengths {
		f.StringVar(&lengths[i].text, lengths[i].name, lengths[i].text, "length")
	}
	if err := f.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(w, "usage: kerf [-chord L] [-sag L] [-bow] [-thickness L] [-kerf L] [-web L] [-facet L] [-strain X] [-units mm|in] [-svg FILE]")
		f.SetOutput(w)
		f.PrintDefaults()
		return t, flag.ErrHelp
	} else if err != nil {
		return t, err
	}
	switch *unit {
	case "in":
		t.unit = arc.Inches
	case "mm":
	default:
		return t, fmt.Errorf("units = %q: need mm or in", *unit)
	}
	for _, l := range lengths {
		v, err := arc.ParseLength(l.text, t.unit)
		if err != nil {
			return t, fmt.Errorf("-%s: %w", l.name, err)
		}
		*l.to = v
	}
	return t, nil
}

func run(args []string, out io.Writer) error {
	t, err := parse(args, out)
	if errors.Is(err, flag.ErrHelp) {
		return nil
	}
	if err != nil {
		return err
	}
	a, err := arc.FromChordSag(t.chord, t.sag)
	if err != nil {
		return err
	}
	// The profile runs from left to right with the board above it, so an arc
	// that turns right is hollow from below, where the show face is.
	k := -a.K()
	if t.bow {
		k = -k
	}
	profile := arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(t.chord, 0, 0)}}
	plan, err := bend.KerfPlan(profile, t.board, t.limits)
	if err != nil {
		return err
	}
	heading := -profile.Segment(0).Angle() / 2
	section, err := bend.Refold(plan.Blank(), profile.V[0].P, heading)
	if err != nil {
		return err
	}
	t.print(out, a, plan, section)
	if t.svg == "" {
		return nil
	}
	var b bytes.Buffer
	if err := svg.Encode(&b, section.Drawing(), svg.Options{}); err != nil {
		return err
	}
	return os.WriteFile(t.svg, b.Bytes(), 0o644)
}

func (t task) print(out io.Writer, a arc.Arc, p bend.Plan, s bend.Section) {
	length := func(mm float64) string { return arc.FormatLength(mm, t.unit) }
	fmt.Fprintf(out, "curve: radius %s, turn %v, %s along the show face\n", length(a.Radius()), a.Turn(), length(a.Length()))
	fmt.Fprintf(out, "blank: %s long, %d kerfs across the back, %s deep\n", length(p.FlatLength), len(p.Kerfs), length(t.board.Depth()))
	fmt.Fprintf(out, "the number of kerfs is set by: %v\n", p.Limit)
	for i, k := range p.Kerfs {
		fmt.Fprintf(out, "kerf %2d at %s\n", i+1, length(k.At))
	}
	fmt.Fprintf(out, "bent: within %.3f mm of the curve, strain %.4f, mouths %.2f mm from %.2f mm\n", p.Facet, p.Strain, p.Mouth, t.board.KerfWidth)
	end := s.Show.V[len(s.Show.V)-1].P
	fmt.Fprintf(out, "bent back from its kerfs alone it ends %.6f mm from the end of the curve\n", r2.Norm(r2.Sub(end, r2.Vec{X: t.chord})))
	fmt.Fprintln(out, "cut a test strip from the same board first: go run ./examples/teststrip")
}
