// Command bevel cuts one beveled board three ways, with a V cutter of its angle
// and in steps coarse and fine, measures what each leaves and draws the three faces
// from the end.
//
//	go run ./examples/bevel [-svg FILE]
package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"gonum.org/v1/gonum/spatial/r2"
)

func main() {
	figure := flag.String("svg", "bevel.svg", "`file` of the drawing")
	flag.Parse()
	drawing, report, err := compare()
	if err == nil {
		err = os.WriteFile(*figure, drawing, 0o666)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Print(report)
}

// The board is 600 by 200 mm and 18 mm thick; one long edge leans in by 45
// degrees.
const (
	long, wide, thick = 600.0, 200.0, 18.0
	at                = 60.0 // of its corner on the sheet
)

// A way is how the board is cut.
type way struct {
	name string
	opt  cut.Options
}

func ways() []way {
	o := func(change func(*cut.Options)) cut.Options {
		opt := cut.Options{Tools: cut.Tools(9.525, 0, thick)}
		change(&opt)
		return opt
	}
	return []way{
		{"V cutter", o(func(o *cut.Options) { o.NoSteps = true })},
		{"steps of 0.2 mm", o(func(o *cut.Options) { o.NoV = true })},
		{"steps of 0.8 mm", o(func(o *cut.Options) { o.NoV, o.Scallop = true, 0.8 })},
	}
}

// compare returns the drawing and a table.
func compare() ([]byte, string, error) {
	board := sheet.Part{Name: "board", Thickness: thick, Outline: arc.Region{Outer: arc.Rect(0, 0, long, wide)}}
	edge := arc.Polyline(r2.Vec{}, r2.Vec{X: long})
	job := cut.Job{
		Stock: sheet.Stock{Thickness: thick, Length: 800, Width: 400}, Parts: []sheet.Part{board},
		Works:      []cut.Work{{Bevels: []cut.Bevel{{Name: "front", Edge: edge, Angle: 45 * arc.Degree}}}},
		Placements: []sheet.Placement{{At: r2.Vec{X: at, Y: at}}},
	}
	report := fmt.Sprintf("%-16s %8s %8s %10s %8s\n", "way", "minutes", "scallop", "stands off", "bitten")
	d := draw.Drawing{Title: "One edge cut three ways, seen from its end"}
	for i, w := range ways() {
		p, err := cut.Plan(context.Background(), job, w.opt)
		if err != nil {
			return nil, "", err
		}
		var text bytes.Buffer
		if err := rs274.Encode(&text, p, rs274.Options{}); err != nil {
			return nil, "", err
		}
		moves, _, err := rs274.Read(&text, rs274.Options{})
		if err != nil {
			return nil, "", err
		}
		rep, err := cut.Replay(context.Background(), job, moves, w.opt)
		if err != nil {
			return nil, "", err
		}
		made, face := p.Bevels[0].Made, rep.Bevels[0]
		report += fmt.Sprintf("%-16s %8.2f %8.3f %10.3f %8.3f\n", w.name, made.Minutes, made.Scallop, face.Stand, face.Bite)
		d.Layers = append(d.Layers, draw.Layer{Name: w.name, Paths: []arc.Path{profile(moves, w.opt.Tools, float64(i)*(thick+12))}})
	}
	var out bytes.Buffer
	err := svg.Encode(&out, d, svg.Options{})
	return out.Bytes(), report, err
}

// profile returns the face across the middle of the edge as moves leave it,
// drawn aside: level inward from the show edge, and up from it.
func profile(moves []cut.Move, tools []cut.Tool, aside float64) arc.Path {
	const every = 0.02
	var out arc.Path
	for in := 0.0; in <= thick+2; in += every {
		z := surfaceAt(moves, tools, r2.Vec{X: at + long/3, Y: at + in + every/2})
		for _, x := range [2]float64{in, in + every} {
			out.V = append(out.V, arc.V(aside+x, z, 0))
		}
	}
	return out.Straightened(0)
}

// surfaceAt returns the height that moves leave at a point.
func surfaceAt(moves []cut.Move, tools []cut.Tool, p r2.Vec) float64 {
	z := thick
	for _, m := range moves {
		a, b := r2.Vec{X: m.From.X, Y: m.From.Y}, r2.Vec{X: m.To.X, Y: m.To.Y}
		if m.Rapid || m.From.Z != m.To.Z || m.K != 0 || a == b {
			continue
		}
		s := arc.Segment{A: a, B: b}
		for _, t := range tools {
			d := s.Distance(p)
			if t.Number != m.Tool || d >= t.Diameter/2 {
				continue
			}
			h := m.To.Z
			if t.V() {
				h += d / math.Tan(float64(t.Angle)/2)
			}
			z = math.Min(z, h)
		}
	}
	return math.Max(0, z)
}
