package draw_test

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"gonum.org/v1/gonum/spatial/r2"
)

// A template with the two sizes that lay it out in a shop, as a value: an encoder
// writes it, here only its extent and its labels are asked for.
func Example() {
	a, err := arc.FromChordSag(760, 45)
	if err != nil {
		fmt.Println(err)
		return
	}
	curve := a.Path()
	d := draw.Drawing{
		Title: "Template of a sweep",
		Layers: []draw.Layer{
			{Name: draw.Outline, Weight: 0.5, Paths: []arc.Path{curve}},
			{Name: draw.Dims, Dimensions: []draw.Dimension{draw.ChordSag(curve.Segment(0), 30, draw.Style{})}},
		},
	}
	fmt.Println(d.Check())
	for _, t := range d.Layers[1].AllTexts() {
		fmt.Println(t.Text)
	}
	// Output:
	// <nil>
	// 760
	// sag 45
}

// Sizes in inches are written as a rule reads, in fractions.
func ExampleHorizontal() {
	d := draw.Horizontal(r2.Vec{}, r2.Vec{X: 41.375 * arc.Inch}, -20, draw.Style{Unit: arc.Inches})
	fmt.Println(d.Labels[0].Text, "over", d.Labels[0].At.X, "mm")
	// Output:
	// 41 3/8 in over 525.4625 mm
}

// A square of 40 mm hatched every 10 mm at 45 degrees: six lines fit across its
// diagonal of 56.6, and together they are as long as area over pitch, 160, within
// a tenth.
func ExampleHatch() {
	lines, err := draw.Hatch(arc.Region{Outer: arc.Rect(0, 0, 40, 40)}, 45*arc.Degree, 10)
	sum := 0.0
	for _, l := range lines {
		sum += l.Length()
	}
	fmt.Printf("%d lines, %.0f mm in all, %v\n", len(lines), sum, err)
	// Output:
	// 6 lines, 159 mm in all, <nil>
}

// A bar that is measured on the print tells whether the scale is true.
func ExampleWithCheckBar() {
	d := draw.Drawing{Layers: []draw.Layer{{Name: draw.Outline, Paths: []arc.Path{arc.Rect(0, 0, 60, 30)}}}}
	with := draw.WithCheckBar(d, arc.Millimeters)
	fmt.Println(len(with.Layers)-len(d.Layers), "layer more, page wide enough:", with.Sheet().Max.X-with.Sheet().Min.X >= 100)
	// Output:
	// 1 layer more, page wide enough: true
}
