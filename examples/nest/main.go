// Command nest takes shapes from a DXF file to sheets and to cut programs: read,
// laid by true outline, planned, written as RS-274, read back and replayed.
//
//	nest [FILE.dxf]
//
// Every closed loop of the file is a part, loops inside it its openings. Without
// a file it takes shapes of its own. It writes sheet-1.nc and sheet-1.svg and so
// on. Run a program in air before it meets wood.
package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"gonum.org/v1/gonum/spatial/r2"
)

func main() {
	var in io.Reader = bytes.NewReader(own())
	if len(os.Args) > 1 {
		f, err := os.Open(os.Args[1])
		exitOn(err)
		defer f.Close()
		in = f
	}
	exitOn(run(context.Background(), in, os.Stdout, func(name string, data []byte) error { return os.WriteFile(name, data, 0o666) }))
}

func run(ctx context.Context, in io.Reader, out io.Writer, write func(string, []byte) error) error {
	parts, err := read(in, out)
	if err != nil {
		return err
	}
	stock := []sheet.Stock{{Name: "sheet", Material: "mdf", Thickness: 18, Length: 1220, Width: 610}}
	opt := cut.Options{Tools: cut.Tools(6, 0, 18)}
	gap := cut.Clearance(cut.Job{Stock: stock[0], Parts: parts}, opt) + 0.1
	l, err := sheet.Nest(ctx, parts, stock, sheet.Options{Gap: gap, Margin: gap, Iterations: 20})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d sheets, %.1f %% used, %d without a place\n", len(l.Sheets), 100*l.Use, len(l.Unplaced))
	for i, s := range l.Sheets {
		job := cut.Job{Title: fmt.Sprintf("sheet %d", i+1), Stock: stock[s.Stock], Placements: s.Placements, Parts: parts}
		if err := program(ctx, job, opt, fmt.Sprintf("sheet-%d", i+1), out, write); err != nil {
			return err
		}
	}
	return nil
}

// read returns the parts of a file, and says what it did not take.
func read(in io.Reader, out io.Writer) ([]sheet.Part, error) {
	f, err := dxf.Decode(in, dxf.DecodeOptions{Join: 0.01})
	if err != nil {
		return nil, err
	}
	var loops []arc.Path
	for _, l := range f.Layers {
		for _, p := range l.Paths {
			if p.Closed {
				loops = append(loops, p)
			}
		}
		for _, e := range l.LooseEnds() {
			fmt.Fprintf(out, "layer %s: loose end at %.3f, %.3f\n", l.Name, e.X, e.Y)
		}
	}
	for _, s := range f.Skipped {
		fmt.Fprintf(out, "line %d: %s not read: %s\n", s.Line, s.Type, s.Why)
	}
	regions, err := arc.Regions(loops)
	var parts []sheet.Part
	for i, r := range regions {
		parts = append(parts, sheet.Part{Name: fmt.Sprintf("part %d", i+1), Material: "mdf", Thickness: 18, Outline: r})
	}
	return parts, err
}

// program plans a sheet, writes its program and its drawing, and replays what
// was written, not what was meant.
func program(ctx context.Context, job cut.Job, opt cut.Options, name string, out io.Writer, write func(string, []byte) error) error {
	p, err := cut.Plan(ctx, job, opt)
	if err != nil {
		return err
	}
	var text, figure bytes.Buffer
	if err := rs274.Encode(&text, p, rs274.Options{}); err != nil {
		return err
	}
	moves, _, err := rs274.Read(bytes.NewReader(text.Bytes()), rs274.Options{})
	if err != nil {
		return err
	}
	rep, err := cut.Replay(ctx, job, moves, opt)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: %d parts, %.1f min, %d faults\n", name, len(job.Placements), p.Minutes, len(rep.Faults))
	shapes := draw.Layer{Name: draw.Outline, Weight: 1}
	for _, pl := range job.Placements {
		shapes.Regions = append(shapes.Regions, job.Parts[pl.Part].Outline.Transform(pl.Motion()))
	}
	board := draw.Layer{Name: draw.Sheet, Weight: 1, Paths: []arc.Path{arc.Rect(0, 0, job.Stock.Length, job.Stock.Width)}}
	if err := svg.Encode(&figure, draw.Drawing{Title: job.Title, Layers: []draw.Layer{board, shapes}}, svg.Options{}); err != nil {
		return err
	}
	if err := write(name+".nc", text.Bytes()); err != nil {
		return err
	}
	return write(name+".svg", figure.Bytes())
}

// own returns a file of six shapes: brackets with a hole and moons.
func own() []byte {
	shapes := draw.Layer{Name: "shapes"}
	for i := range 3 {
		at := arc.Shift(r2.Vec{X: 400 * float64(i)})
		bracket := arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0), arc.V(300, 0, 0), arc.V(300, 60, -0.35), arc.V(60, 260, 0), arc.V(0, 260, 0)}}
		moon := arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 300, 0.5), arc.V(280, 300, -0.2)}}
		for _, p := range []arc.Path{bracket, arc.Circle(r2.Vec{X: 36, Y: 36}, 12), moon} {
			shapes.Paths = append(shapes.Paths, p.Transform(at))
		}
	}
	var b bytes.Buffer
	exitOn(dxf.Encode(&b, draw.Drawing{Layers: []draw.Layer{shapes}}, dxf.Options{}))
	return b.Bytes()
}

func exitOn(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
