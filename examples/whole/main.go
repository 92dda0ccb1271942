// Command whole works a hood out from its sizes, prints its parts, its proof and
// what hangs, and writes its model for any viewer of glTF.
//
//	whole [FILE.glb]
package main

import (
	"fmt"
	"io"
	"os"

	"example.com/sagitta/hood"
	"example.com/sagitta/hood/glb"
)

// The hood of the Vandermeer kitchen: a cove with flared, hollow sides.
var spec = hood.Spec{
	Version: hood.Version, Title: "Vandermeer kitchen", Width: 1180, Height: 860, Depth: 540, Skirt: 110,
	Neck:  hood.Neck{Depth: 310, Width: 760},
	Sweep: hood.Sweep{Shape: "cove", Sag: 40}, SideSweep: hood.Sweep{Shape: "cove", Sag: 26},
	Board: hood.Board{Material: "mdf", Thickness: 16, Sheets: []hood.Sheet{{Length: 2800, Width: 2070}}},
	Back:  hood.Back{Material: "plywood", Thickness: 9, Rabbet: 8},
	Bend:  hood.Bend{KerfWidth: 3.2, Web: 1.6, Facet: 0.1}, Cut: hood.Cut{Gap: 14, Margin: 15, Tool: 9.5},
	Cleat: hood.Cleat{Height: 80},
}

func main() {
	file := "hood.glb"
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

func run(out, model io.Writer) error {
	d, err := hood.Build(spec)
	if err != nil {
		return err
	}
	for _, p := range d.Parts {
		l, w := p.Size()
		fmt.Fprintf(out, "%-14s %6.1f × %6.1f × %4.1f mm, %2d kerfs, %5.2f kg\n", p.Name, l, w, p.Thickness, len(p.Kerfs), p.Mass)
	}
	for _, c := range d.Checks {
		fmt.Fprintf(out, "%-50s %.4f of at most %.4g %s\n", c.Name, c.Value, c.Limit, c.Unit)
	}
	h, err := d.Hang()
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "hangs: %.1f kg without insert and blower, %.0f N at the cleat; heaviest part %s, %.1f kg\n", h.Mass, h.Pull, h.Heaviest, h.Lift)
	for _, c := range d.Cautions {
		fmt.Fprintln(out, "caution:", c.Text)
	}
	solids, err := d.Model()
	if err != nil {
		return err
	}
	return glb.Encode(model, solids)
}
