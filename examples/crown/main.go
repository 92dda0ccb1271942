// Crown sizes the pieces of a crown molding that goes around a room with a
// chimney breast, says how to cut them flat on the table, and which lengths to
// buy. With a file name it also writes a plan:
//
//	go run ./examples/crown [figure.svg]
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

// stock is what the merchant has, and what a saw cut takes.
var stock = []miter.Bar{{Length: 2400, Price: 21.50}, {Length: 3600, Price: 31.00}}

const kerf = 3

func main() {
	if len(os.Args) > 1 && strings.HasPrefix(os.Args[1], "-") {
		fmt.Println("usage: crown [FILE]; it takes no flags")
		return
	}
	run := room()
	pieces, err := run.Solve()
	if err != nil {
		log.Fatal(err)
	}
	if err := report(os.Stdout, pieces); err != nil {
		log.Fatal(err)
	}
	if len(os.Args) > 1 {
		f, err := os.Create(os.Args[1])
		if err != nil {
			log.Fatal(err)
		}
		if err := svg.Encode(f, figure(run, pieces), svg.Options{}); err != nil {
			log.Fatal(err)
		}
		if err := f.Close(); err != nil {
			log.Fatal(err)
		}
	}
}

// room is Mrs. Tolliver's study, 3.3 by 2.9 m with a chimney breast of 1.2 m
// that stands 0.4 m into it. The molding looks into the room, to the right of
// travel, so the walls are run clockwise. It is 92 mm wide, 18 mm thick and
// springs 38° from the wall.
func room() miter.Run {
	return miter.Run{
		Path: []r2.Vec{
			{}, {Y: 2900}, {X: 1050, Y: 2900}, {X: 1050, Y: 2500},
			{X: 2250, Y: 2500}, {X: 2250, Y: 2900}, {X: 3300, Y: 2900}, {X: 3300},
		},
		Closed: true,
		Tilt:   (90 + 38) * arc.Degree, Width: 92, Thickness: 18,
	}
}

func report(w io.Writer, pieces []miter.Piece) error {
	var lengths []float64
	for i, p := range pieces {
		fmt.Fprintf(w, "piece %d: wall %.0f, long point to long point %.1f\n", i+1, p.Wall, p.Long)
		for _, e := range []miter.End{p.Left, p.Right} {
			set := e.Setting(miter.Stand{UpperEdge: true})
			corner := "inside"
			if e.Bevel > 0 {
				corner = "outside"
			}
			fmt.Fprintf(w, "  %-5v end, %-7s corner: miter %.1f° %-5v  tilt %.1f° %-5v  keep %v\n",
				e.Hand, corner, set.Miter.Degrees(), set.MiterTo, set.Tilt.Degrees(), set.TiltTo, set.Keep)
		}
		lengths = append(lengths, p.Long)
	}
	fmt.Fprintln(w, "all cut", miter.Stand{UpperEdge: true})
	plan, err := miter.PlanBars(lengths, stock, kerf)
	if err != nil {
		return err
	}
	for i, b := range plan.Bars {
		fmt.Fprintf(w, "bar %d of %.0f mm: pieces", i+1, stock[b.Stock].Length)
		for _, p := range b.Pieces {
			fmt.Fprintf(w, " %d", p+1)
		}
		fmt.Fprintf(w, ", %.0f mm left\n", b.Left)
	}
	fmt.Fprintf(w, "cost %.2f, no plan costs less than %.2f\n", plan.Cost, plan.Bound)
	fmt.Fprintln(w, "Support both ends, keep hands clear of the tilted blade, and prove a corner in scrap first.")
	return nil
}

// figure draws the walls and how far the molding stands out from them.
func figure(run miter.Run, pieces []miter.Piece) draw.Drawing {
	out := run.Width*math.Sin(38*math.Pi/180) + run.Thickness*math.Cos(38*math.Pi/180)
	wall := draw.Layer{Name: draw.Outline, Weight: 8, Paths: []arc.Path{arc.Polygon(run.Path...)}}
	molding := draw.Layer{Name: draw.Bevel, Weight: 3}
	note := draw.Layer{Name: draw.Note}
	n := len(run.Path)
	for i := range pieces {
		p, q := run.Path[i], run.Path[(i+1)%n]
		u := r2.Unit(r2.Sub(q, p))
		in := r2.Vec{X: u.Y, Y: -u.X} // into the room
		// A corner that looks into the room shortens the front, one that
		// stands into it makes it longer.
		reach := func(e miter.End) r2.Vec { return r2.Scale(math.Copysign(out, float64(e.Bevel)), u) }
		a := r2.Add(r2.Sub(p, reach(pieces[i].Left)), r2.Scale(out, in))
		b := r2.Add(r2.Add(q, reach(pieces[i].Right)), r2.Scale(out, in))
		molding.Paths = append(molding.Paths, arc.Polygon(p, q, b, a))
		mid := r2.Add(r2.Scale(0.5, r2.Add(p, q)), r2.Scale(2.2*out, in))
		note.Texts = append(note.Texts, draw.Text{At: mid, Text: fmt.Sprint(i + 1), Height: 70, Align: draw.Middle})
	}
	return draw.Drawing{Title: "Crown of a study", Desc: "Plan of the walls and of the molding's pieces by number",
		Layers: []draw.Layer{wall, molding, note}}
}
