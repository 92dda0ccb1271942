package hood_test

import (
	"fmt"

	"example.com/sagitta/hood"
)

// Two sides of different shape, and a neck that is not in the middle: each
// side has its own curve.
func ExampleFlare() {
	s := canalHouse()
	s.Neck.Width, s.Neck.Offset = 640, 30
	s.SideSweep = hood.Sweep{Shape: "cove", Sag: 20}
	s.LeftSweep = hood.Sweep{Shape: "straight"}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range []hood.Flare{d.Left, d.Right} {
		top := f.Seam[len(f.Seam)-1]
		fmt.Printf("chord %.1f mm, %d kerfs, %.1f mm out at the neck\n", f.Curve.Chord, f.Curve.Kerfs.Count, top.XShow)
	}
	// Output:
	// chord 728.0 mm, 0 kerfs, 290.0 mm out at the neck
	// chord 713.9 mm, 12 kerfs, 350.0 mm out at the neck
}

// Tabs of the deck in slots of the back, and what the proof finds of one.
func ExampleTabs() {
	s := canalHouse()
	s.Cut.Tool = 8
	s.Tabs = hood.Tabs{Width: 40, Clearance: 0.2, Spacing: 320}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	back, _ := d.Part("back")
	for _, e := range back.Edges {
		if e.Name == "slot" {
			b := e.Show.Bounds()
			fmt.Printf("slot from %.1f to %.1f mm\n", b.Min.X, b.Max.X)
		}
	}
	for _, c := range d.Checks {
		if c.Name == "deck tab 1 in back: corners in wood the cutter leaves" {
			fmt.Printf("%s: %.3f mm\n", c.Name, c.Value)
		}
	}
	// Output:
	// slot from 899.7 to 939.9 mm
	// slot from 606.5 to 646.7 mm
	// slot from 313.3 to 353.5 mm
	// slot from 20.1 to 60.3 mm
	// deck tab 1 in back: corners in wood the cutter leaves: 0.000 mm
}

// Pins locate the cleat on the back.
func ExamplePins() {
	s := canalHouse()
	s.Cut.Tool = 6
	s.Cleat = hood.Cleat{Height: 80}
	s.Pins = hood.Pins{Diameter: 8, Depth: 6, Clearance: 0.1, Spacing: 400}
	d, err := hood.Build(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, name := range []string{"back", "cleat"} {
		p, _ := d.Part(name)
		fmt.Printf("%s: %d holes of %g mm, %g mm deep\n", name, len(p.Work.Pockets), s.Pins.Diameter+s.Pins.Clearance, p.Work.Pockets[0].Depth)
	}
	// Output:
	// back: 4 holes of 8.1 mm, 6 mm deep
	// cleat: 4 holes of 8.1 mm, 6 mm deep
}
