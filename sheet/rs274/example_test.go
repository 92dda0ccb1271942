package rs274_test

import (
	"fmt"
	"os"
	"strings"

	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
	"gonum.org/v1/gonum/spatial/r3"
)

func ExampleEncode() {
	a, b := r3.Vec{X: 50, Y: 50, Z: 15}, r3.Vec{X: 150, Y: 50, Z: 15}
	over := r3.Vec{X: 50, Y: 50, Z: 34}
	p := cut.Program{
		Title: "One arc", Safe: 34, Thickness: 19,
		Tools: []cut.Tool{{Number: 1, Diameter: 6, Speed: 18000}},
		Operations: []cut.Operation{{Tool: 1, Name: "lid", Depth: 4, Moves: []cut.Move{
			{From: over, To: over, Rapid: true, Speed: 18000},
			{From: over, To: a, Feed: 800},
			{From: a, To: b, K: 1, Feed: 3000}, // half a circle to the left
		}}},
	}
	var text strings.Builder
	err := rs274.Encode(&text, p, rs274.Options{})
	// The header of comments is left out here.
	fmt.Fprint(os.Stdout, text.String()[strings.Index(text.String(), "G17"):], err)
	// Output:
	// G17 G21 G40 G49 G54 G80 G90 G94 G61
	// (tool 1: end mill 6 mm)
	// M5
	// T1 M6
	// S18000 M3
	// G0 G43 H1 Z34
	// (1: slot of lid, 4 mm deep)
	// G0 X50 Y50
	// G1 Z15 F800
	// G3 X150 Y50 I50 J0 F3000
	// G0 Z34
	// M5
	// M2
	// <nil>
}

func ExampleRead() {
	text := `G17 G21 G40 G49 G54 G80 G90 G94 G61
T1 M6
S18000 M3
G0 G43 H1 Z20
G0 X0 Y0
G1 X100 F6000
G3 X100 Y50 I0 J25
M5
M2`
	moves, _, err := rs274.Read(strings.NewReader(text), rs274.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range moves {
		fmt.Printf("line %d: %.1f mm\n", m.Line, m.Length())
	}
	_, _, err = rs274.Read(strings.NewReader(strings.Replace(text, "J25", "J20", 1)), rs274.Options{})
	fmt.Println(err)
	// Output:
	// line 6: 100.0 mm
	// line 7: 78.5 mm
	// rs274: line 7, column 1: "G3": need a center as far from the end as from the start
}
