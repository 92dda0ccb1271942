// Command ways lays every way to one curve side by side, for a few boards, and
// says of those that do not work what would have to change.
//
//	go run ./examples/ways
package main

import (
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
)

func main() {
	if len(os.Args) > 1 {
		fmt.Fprintln(os.Stderr, "usage: ways; it takes no arguments")
		os.Exit(2)
	}
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// apron is the curved apron of a round-ended table: a straight, a half circle
// of 420 mm, a straight, its show face outside.
func apron() arc.Path {
	return arc.Path{V: []arc.Vertex{arc.V(420, -600, 0), arc.V(420, 0, 1), arc.V(-420, 0, 0), arc.V(-420, -600, 0)}}
}

func run(out io.Writer) error {
	mdf, err := bend.LookUp("mdf")
	if err != nil {
		return err
	}
	// Bent to breaking on our own bench.
	plywood := bend.Material{Name: "plywood", Strength: bend.Given(41, "N/mm²"), Modulus: bend.Given(6800, "N/mm²")}
	for _, c := range []struct {
		name     string
		material bend.Material
		board    bend.Board
		table    bend.RadiusTable
	}{
		{"MDF 19 mm", mdf, bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}, bend.RadiusTable{}},
		{"MDF 19 mm, web left thick", mdf, bend.Board{Thickness: 19, KerfWidth: 3.2, Web: 8}, bend.RadiusTable{}},
		{"MDF 6 mm", mdf, bend.Board{Thickness: 6, KerfWidth: 3.2, Web: 1.6}, bend.RadiusTable{}},
		{"plywood 3/8 in", plywood, bend.Board{Thickness: 3 * arc.Inch / 8, KerfWidth: 3.2, Web: 1.6}, bend.PlywoodTable()},
	} {
		fmt.Fprintf(out, "%s\n", c.name)
		ways, err := bend.Ways(bend.Job{
			Profile: apron(), Board: c.board, Width: 110, Table: c.table,
			Limits:   bend.Limits{Facet: 0.3, Land: 2},
			Material: c.material, Factor: 0.8, SawKerf: 3,
		})
		if err != nil {
			return err
		}
		for _, w := range ways {
			print(out, w)
		}
	}
	return nil
}

func print(out io.Writer, w bend.Way) {
	switch {
	case w.Err != nil:
		fmt.Fprintf(out, "  not %v: %v\n", w.Method, w.Err)
		return
	case w.Method == bend.AsIs:
		fmt.Fprintf(out, "  %v: stands a radius of %.0f mm\n", w.Method, w.LeastRadius)
	case w.Method == bend.Kerfed:
		fmt.Fprintf(out, "  %v: %d kerfs, %.2f m to cut, a blank of %.1f mm\n", w.Method, len(w.Plan.Kerfs), w.CutLength/1000, w.Plan.FlatLength)
	default:
		fmt.Fprintf(out, "  %v: %d plies of %.2f mm, form radius %.0f mm, %.2f m² of glue\n",
			w.Method, w.Pieces, w.Lamination.Ply, w.Lamination.FormRadius, w.GlueArea/1e6)
	}
	for _, c := range w.Cautions {
		fmt.Fprintf(out, "    %s\n", c)
	}
}
