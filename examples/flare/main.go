// Flare works out the corner of a hood whose hollow front and hollow side lean
// back by different amounts: the seam, both blanks' edges, the bevel along
// them, and what a constant bevel would leave open. It bends both blanks back
// to prove the joint. With a file name it also writes both edges to scale:
//
//	go run ./examples/flare [figure.svg]
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

// tolerance is how far either drawn edge may leave the true one, in mm; the
// joint may be off by twice that.
const tolerance = 0.005

func main() {
	if len(os.Args) > 1 && strings.HasPrefix(os.Args[1], "-") {
		fmt.Println("usage: flare [FILE]; it takes no flags")
		return
	}
	front, side, err := work(os.Stdout)
	if err != nil {
		log.Fatal(err)
	}
	if len(os.Args) > 1 {
		f, err := os.Create(os.Args[1])
		if err != nil {
			log.Fatal(err)
		}
		if err := svg.Encode(f, figure(front, side), svg.Options{}); err != nil {
			log.Fatal(err)
		}
		if err := f.Close(); err != nil {
			log.Fatal(err)
		}
	}
}

// corner is that of the Ostrander kitchen's hood: a front that sweeps back from
// 520 to 290 mm in a rise of 640, a side that sweeps in from 450 to 260.
func corner() miter.Pair {
	return miter.Pair{
		First:  miter.Panel{Profile: cove(520, 290, 640, 40), Thickness: 18},
		Second: miter.Panel{Profile: cove(450, 260, 640, 25), Thickness: 18},
		Plan:   90 * arc.Degree,
	}
}

// cove returns a hollow profile from x0 at the bottom to x1 at the rise, with
// the given sag. The board lies on the left of the way up, so a hollow show
// face turns right: its K is below 0.
func cove(x0, x1, rise, sag float64) arc.Path {
	return arc.Path{V: []arc.Vertex{arc.V(x0, 0, -2*sag/math.Hypot(x0-x1, rise)), arc.V(x1, rise, 0)}}
}

func work(w io.Writer) (front, side miter.Blank, err error) {
	pair := corner()
	seam, err := pair.Seam()
	if err != nil {
		return front, side, err
	}
	if err := schedule(w, seam); err != nil {
		return front, side, err
	}
	first, second, err := seam.Edges(tolerance)
	if err != nil {
		return front, side, err
	}
	front = miter.Blank{Panel: pair.First, Edges: first}
	side = miter.Blank{Panel: pair.Second, Edges: second}
	fit, err := miter.Refit(front, side, pair.Plan)
	if err != nil {
		return front, side, err
	}
	// Rounded up, as a promise should be.
	within := math.Ceil(100*math.Max(fit.Show.Max(), fit.Back.Max())) / 100
	fmt.Fprintf(w, "edges of %d and %d lines and arcs; bent back they meet within %.2f mm\n",
		first[0].Show.NumSegments(), second[0].Show.NumSegments(), within)
	fmt.Fprintln(w, "The tilted blade and the sharp edge both cut: use a carriage or clamps, and prove the bevel in scrap.")
	return front, side, nil
}

// schedule prints where the seam lies and how to bevel it.
func schedule(w io.Writer, seam miter.Seam) error {
	fmt.Fprintln(w, "height   front: up  along   side: up  along   bevel")
	for i := range 9 {
		at, err := seam.At(seam.Lower + (seam.Upper-seam.Lower)*float64(i)/8)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%6.1f     %7.2f %6.2f    %7.2f %6.2f  %6.2f°\n", at.Show.Z,
			at.First.Show.Y, at.First.Show.X, at.Second.Show.Y, at.Second.Show.X, at.First.Bevel.Degrees())
	}
	for _, k := range []int{1, 2, 4, 8} {
		steps, gap, err := seam.Steps(k)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "cut with %d bevel(s), from %.2f° to %.2f°, the back stands open by up to %.2f mm\n",
			k, steps[0].First.Degrees(), steps[k-1].First.Degrees(), gap)
	}
	return nil
}

// figure draws both blanks' mitered edges side by side, the back edges dashed.
func figure(front, side miter.Blank) draw.Drawing {
	show := draw.Layer{Name: draw.Outline, Weight: 0.5}
	back := draw.Layer{Name: draw.Bevel, Dash: []float64{4, 2}}
	note := draw.Layer{Name: draw.Note}
	for i, b := range []miter.Blank{front, side} {
		m := arc.Shift(r2.Vec{X: 600 * float64(i)})
		e := b.Edges[0]
		// Close the half blank along its center line.
		half := e.Show.Clone()
		top := half.V[len(half.V)-1].P
		half.V = append(half.V, arc.V(0, top.Y, 0), arc.V(0, half.V[0].P.Y, 0))
		half.Closed = true
		show.Paths = append(show.Paths, half.Transform(m))
		back.Paths = append(back.Paths, e.Back.Transform(m))
		name := []string{"front, right half", "side, front half"}[i]
		note.Texts = append(note.Texts, draw.Text{At: m.Apply(r2.Vec{X: 20, Y: 20}), Text: name, Height: 14})
	}
	return draw.Drawing{Title: "Flared corner", Desc: "Flat blanks of a hollow front and side; dashed: the edge of the back",
		Layers: []draw.Layer{show, back, note}}
}
