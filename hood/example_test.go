package hood_test

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// canalHouse is a hood for an invented kitchen on a canal.
func canalHouse() hood.Spec {
	return hood.Spec{
		Title: "Canal house, ground floor",
		Width: 980, Height: 820, Depth: 520, Skirt: 120,
		Neck:  hood.Neck{Depth: 290},
		Sweep: hood.Sweep{Shape: "cove", Sag: 40},
		Board: hood.Board{Material: "mdf", Thickness: 18},
		Back:  hood.Back{Material: "plywood", Thickness: 9, Rabbet: 8},
		Bend:  hood.Bend{KerfWidth: 3, Web: 1.8, Facet: 0.15, Strain: 0.01},
	}
}

func ExampleBuild() {
	d, err := hood.Build(canalHouse())
	if err != nil {
		fmt.Println(err)
		return
	}
	f := d.Front
	fmt.Printf("radius %.1f mm, blank %.1f mm, %d kerfs every %.2f mm\n", f.Radius, f.FlatLength, f.Kerfs.Count, f.Kerfs.Pitch)
	for _, p := range d.Parts {
		length, width := p.Size()
		fmt.Printf("%-12s %6.1f x %6.1f mm\n", p.Name, length, width)
	}
	// Output:
	// radius 1716.6 mm, blank 743.0 mm, 16 kerfs every 46.44 mm
	// cheek-left    520.0 x  820.0 mm
	// cheek-right   520.0 x  820.0 mm
	// skirt         980.0 x  120.0 mm
	// sweep         980.0 x  743.0 mm
	// back          960.0 x  820.0 mm
	// deck          944.0 x  264.8 mm
}

// A front of three plies: each has a length of its own, and the form is bent
// more than the panel, which springs back.
func ExampleBuild_laminated() {
	s := canalHouse()
	s.Bend = hood.Bend{Method: "laminate", Strain: 0.008, Trim: 10, Ply: hood.Ply{Material: "plywood", Thickness: 6}}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	p := d.Front.Plies
	fmt.Printf("%d plies, strained by %.2f %%\n", p.Count, 100*p.Strain)
	fmt.Printf("radius %.1f mm, on the form %.1f mm\n", d.Front.Radius, p.FormRadius)
	for i, l := range p.Lengths {
		fmt.Printf("ply %d: %.2f mm\n", i+1, l)
	}
	for _, p := range d.Parts {
		if p.Ply > 0 || p.Kind == hood.KindForm {
			length, width := p.Size()
			fmt.Printf("%d %s, %.1f x %.1f mm\n", p.Copies(), p.Name, length, width)
		}
	}
	// Output:
	// 3 plies, strained by 0.20 %
	// radius 1716.6 mm, on the form 1524.8 mm
	// ply 1: 743.89 mm
	// ply 2: 746.49 mm
	// ply 3: 749.08 mm
	// 1 sweep-ply-1, 1000.0 x 763.9 mm
	// 1 sweep-ply-2, 1000.0 x 766.5 mm
	// 1 sweep-ply-3, 1000.0 x 769.1 mm
	// 2 form-rib-front, 762.9 x 119.9 mm
}

// A spec reports all its faults at once, each with the path of its field.
func ExampleSpec_Validate() {
	s := canalHouse()
	s.Neck.Depth = 600
	s.Bend.Web = 20
	fmt.Println(s.Validate())
	// Output:
	// hood.Spec: neck.depth = 600 mm: need at most 520 mm, the depth of the hood
	// hood.Spec: bend.web = 20 mm: need less than 18 mm, the thickness of the board
}

// The bevel of a seam between a curved front and a flared side changes as it
// goes up.
func ExampleDesign_seam() {
	s := canalHouse()
	s.Neck.Width = 520
	s.SideSweep = hood.Sweep{Shape: "cove", Sag: 25}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range []hood.SeamPoint{d.Right.Seam[0], d.Right.Seam[12], d.Right.Seam[24]} {
		fmt.Printf("at %.0f mm: bevel %.2f°\n", p.Y, p.Bevel.Degrees())
	}
	sweep, _ := d.Part("sweep-front")
	for _, e := range sweep.Edges {
		if e.Saw {
			fmt.Println(e.Name, "edge: finish by saw, up to", arc.FormatLength(e.Show.Length(), arc.Millimeters), "long")
		}
	}
	// Output:
	// at 120 mm: bevel 38.57°
	// at 470 mm: bevel 42.29°
	// at 820 mm: bevel 44.48°
	// right edge: finish by saw, up to 779.35 mm long
	// left edge: finish by saw, up to 779.35 mm long
}

// Hang tells what the wall has to hold.
func ExampleDesign_Hang() {
	s := canalHouse()
	s.Cleat = hood.Cleat{Height: 80}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	h, err := d.Hang()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kg, %.0f N down, %.0f N away from the wall\n", h.Mass, h.Load, h.Pull)
	// Output:
	// 27.8 kg, 273 N down, 89 N away from the wall
}
