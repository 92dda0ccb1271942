// Hopper sizes the four boards of a grain hopper whose sides do not lean
// alike, and says how to cut their ends. With a file name it also writes a
// figure of the two kinds of board:
//
//	go run ./examples/hopper [figure.svg]
package main

import (
	"fmt"
	"io"
	"log"
	"math"
	"os"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/miter"
)

// The hopper of the Larkmoor grain store: an outlet of 120 by 120 below a
// mouth of 520 by 380, 340 high, of 15 mm board.
const (
	outlet, mouthX, mouthY = 120.0, 520.0, 380.0
	height, thickness      = 340.0, 15.0
)

func main() {
	if len(os.Args) > 1 && strings.HasPrefix(os.Args[1], "-") {
		fmt.Println("usage: hopper [FILE]; it takes no flags")
		return
	}
	boards, err := hopper().Solve()
	if err != nil {
		log.Fatal(err)
	}
	report(os.Stdout, boards)
	if len(os.Args) > 1 {
		f, err := os.Create(os.Args[1])
		if err != nil {
			log.Fatal(err)
		}
		if err := svg.Encode(f, figure(boards), svg.Options{}); err != nil {
			log.Fatal(err)
		}
		if err := f.Close(); err != nil {
			log.Fatal(err)
		}
	}
}

// hopper describes the box. A board that leans out by run over its height has
// a tilt over 90°.
func hopper() miter.Box {
	tilt := func(run float64) arc.Angle { return 90*arc.Degree + arc.Angle(math.Atan2(run, height)) }
	long := miter.Board{Tilt: tilt((mouthY - outlet) / 2), Thickness: thickness}
	short := miter.Board{Tilt: tilt((mouthX - outlet) / 2), Thickness: thickness}
	h := outlet / 2
	return miter.Box{
		Plan:   []r2.Vec{{X: -h, Y: -h}, {X: h, Y: -h}, {X: h, Y: h}, {X: -h, Y: h}},
		Height: height,
		Boards: []miter.Board{long, short, long, short},
	}
}

func report(w io.Writer, boards []miter.BoxBoard) {
	for i, name := range []string{"long side", "short side"} {
		b := boards[i]
		fmt.Fprintf(w, "%s, make two\n", name)
		fmt.Fprintf(w, "  show face: %.1f mm below, %.1f above, %.1f up the slope\n",
			b.LowerLength(), b.UpperLength(), b.Show.Bounds().Max.Y)
		fmt.Fprintf(w, "  rip both long edges at %.2f°, parallel, so that they lie level: the back is longer below, shorter above\n",
			b.Upper.Degrees())
		for _, e := range []miter.End{b.Left, b.Right} {
			set, way := miter.Saw{}.Best(e)
			m, t := way.Angles(set)
			fmt.Fprintf(w, "  %s end: %v\n    miter %.2f° to the %v, tilt %.2f° to the %v, keep the %v (%v)\n",
				e.Hand, set.Stand, m.Degrees(), set.MiterTo, t.Degrees(), set.TiltTo, set.Keep, way)
		}
	}
	fmt.Fprintln(w, "Clamp the boards, keep hands clear of the tilted blade, and prove each setting in scrap first.")
}

// figure draws both boards from the show face, the back edges dashed.
func figure(boards []miter.BoxBoard) draw.Drawing {
	show := draw.Layer{Name: draw.Outline, Weight: 0.5}
	back := draw.Layer{Name: draw.Bevel, Dash: []float64{4, 2}}
	dims := draw.Layer{Name: draw.Dims}
	for i, b := range boards[:2] {
		m := arc.Shift(r2.Vec{X: 600 * float64(i)})
		s := b.Show.Transform(m)
		show.Regions = append(show.Regions, arc.Region{Outer: s})
		back.Paths = append(back.Paths, b.Back.Transform(m))
		st := draw.Style{Height: 8}
		dims.Dimensions = append(dims.Dimensions,
			draw.Horizontal(s.V[0].P, s.V[1].P, -40, st),
			draw.Horizontal(s.V[3].P, s.V[2].P, s.V[3].P.Y+40, st),
			draw.Vertical(s.V[1].P, s.V[2].P, s.V[2].P.X+40, st))
	}
	return draw.Drawing{
		Title:  "Larkmoor hopper",
		Desc:   "A long and a short side seen from the show face; the dashed lines are the edges of the back",
		Layers: []draw.Layer{show, back, dims},
	}
}
