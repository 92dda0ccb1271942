// Command program writes a cut program of the caller's own parts with the
// caller's own tools, reads it back, cuts a simulated sheet with it and draws
// what it cuts.
//
//	go run ./examples/program [-o FILE] [-svg FILE]
package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
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
	text := flag.String("o", "tray.nc", "`file` of the program")
	figure := flag.String("svg", "tray.svg", "`file` of the drawing")
	flag.Parse()
	program, drawing, report, err := write()
	if err == nil {
		err = os.WriteFile(*text, program, 0o666)
	}
	if err == nil {
		err = os.WriteFile(*figure, drawing, 0o666)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Print(report)
}

// write makes two trays: boards with a pocket and a hole.
func write() (program, drawing []byte, report string, err error) {
	outline := arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 0), arc.V(320, 0, 0.4), arc.V(320, 180, 0), arc.V(0, 180, 0.2)}}
	tray := sheet.Part{Name: "tray", Qty: 2, Thickness: 18, Outline: arc.Region{Outer: outline, Holes: []arc.Path{arc.Circle(r2.Vec{X: 20, Y: 90}, 12).Reverse()}}}
	work := cut.Work{Pockets: []cut.Pocket{{Area: arc.Region{Outer: arc.Rect(60, 30, 300, 150)}, Depth: 8}}}
	job := cut.Job{
		Title: "Two trays", Stock: sheet.Stock{Material: "birch plywood", Thickness: 18, Length: 900, Width: 500},
		Parts: []sheet.Part{tray}, Works: []cut.Work{work},
		Placements: []sheet.Placement{{At: r2.Vec{X: 80, Y: 40}}, {Copy: 1, At: r2.Vec{X: 80, Y: 270}}},
	}
	opt := cut.Options{Tools: []cut.Tool{{Number: 4, Name: "6 mm compression", Diameter: 6, Speed: 17000, Feed: 3000, Plunge: 700, Step: 5}}}
	p, err := cut.Plan(context.Background(), job, opt)
	if err != nil {
		return nil, nil, "", err
	}
	dialect := rs274.Options{Dwell: 5, Number: 10, Rewind: true}
	var text, figure bytes.Buffer
	if err := rs274.Encode(&text, p, dialect); err != nil {
		return nil, nil, "", err
	}
	moves, _, err := rs274.Read(bytes.NewReader(text.Bytes()), dialect)
	if err != nil {
		return nil, nil, "", err
	}
	rep, err := cut.Replay(context.Background(), job, moves, opt)
	if err != nil {
		return nil, nil, "", err
	}
	ways := draw.Layer{Name: "cuts"}
	for _, m := range moves {
		if !m.Rapid {
			ways.Paths = append(ways.Paths, arc.Path{V: []arc.Vertex{arc.V(m.From.X, m.From.Y, m.K), arc.V(m.To.X, m.To.Y, 0)}})
		}
	}
	err = svg.Encode(&figure, draw.Drawing{Title: job.Title, Layers: []draw.Layer{ways}}, svg.Options{})
	report = fmt.Sprintf("%d operations, %d moves, %.1f m of cut, %d tabs, %d faults\n", len(p.Operations), rep.Moves, rep.CutLength/1000, rep.Tabs, len(rep.Faults))
	return text.Bytes(), figure.Bytes(), report, err
}
