// Command casing lays out the casing around an arched window: its two edges as
// offsets of the opening, the arcs they are made of, and the board that each
// curved piece is cut from. With a file name it draws the casing there.
//
//	casing [FILE.svg]
package main

import (
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"gonum.org/v1/gonum/spatial/r2"
)

// The north window of the Ostrander house: 940 wide, jambs 1100 high, a basket
// arch of 260 over them; the casing is 85 wide and shows 6 of the frame.
const span, rise, jamb, reveal, width = 940.0, 260.0, 1100.0, 6.0, 85.0

func main() {
	file := "casing.svg"
	if len(os.Args) > 1 {
		file = os.Args[1]
	}
	f, err := os.Create(file)
	if err == nil {
		err = run(os.Stdout, f)
		f.Close()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(out, figure io.Writer) error {
	arch, err := arc.BasketArch(span, rise)
	if err != nil {
		return err
	}
	opening := up(arch)
	var edges [2]arc.Path
	for i, d := range []float64{reveal, reveal + width} {
		p, err := opening.Offset(-d, arc.OffsetOptions{}) // the wood is on the left of the way up, over and down
		if err != nil {
			return err
		}
		edges[i] = p[0]
	}
	fmt.Fprintf(out, "inner edge %.1f mm, outer edge %.1f mm\n", edges[0].Length(), edges[1].Length())
	for i := range edges[0].NumSegments() {
		in, by := edges[0].Segment(i), edges[1].Segment(i)
		if in.K == 0 {
			fmt.Fprintf(out, "leg: %.1f mm long\n", in.Length())
			continue
		}
		piece := arc.Path{Closed: true, V: []arc.Vertex{{P: in.A, K: in.K}, {P: in.B}, {P: by.B, K: -by.K}, {P: by.A}}}
		board, err := arc.SmallestFrame(piece)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "arc: radius %.1f inside, %.1f outside, turn %.2f°, from a board %.0f × %.0f mm\n",
			in.Radius(), by.Radius(), max(in.Angle(), -in.Angle()).Degrees(), board.Length, board.Width)
	}
	return svg.Encode(figure, draw.Drawing{Title: "Casing of an arched window", Layers: []draw.Layer{
		{Name: draw.Opening, Dash: []float64{12, 6}, Weight: 1, Paths: []arc.Path{opening}},
		{Name: draw.Outline, Weight: 2, Paths: edges[:]},
	}}, svg.Options{})
}

// up returns the opening's edge from sill to sill: a jamb up, the arch, and a
// jamb down. Whichever way the arch runs, it is run clockwise here.
func up(arch arc.Path) arc.Path {
	if arch.V[0].P.X > arch.V[len(arch.V)-1].P.X {
		arch = arch.Reverse()
	}
	p := arch.Transform(arc.Shift(r2.Vec{X: -arch.V[0].P.X, Y: jamb - arch.V[0].P.Y}))
	p.V = append([]arc.Vertex{arc.V(0, 0, 0)}, p.V...)
	p.V = append(p.V, arc.V(span, 0, 0))
	return p
}
