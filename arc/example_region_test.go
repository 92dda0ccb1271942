package arc_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// The path of a cutter of 10 mm around a board with an arched top, and the
// first pass in a hole through it.
func ExampleRegion_Offset() {
	board := arc.Region{
		Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(600, 0, 0), arc.V(600, 300, 0.2), arc.V(0, 300, 0)}, Closed: true},
		Holes: []arc.Path{arc.Circle(r2.Vec{X: 300, Y: 150}, 80).Reverse()},
	}
	grown, err := board.Offset(5, arc.OffsetOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	g := grown[0]
	b := g.Bounds()
	fmt.Printf("%.0f by %.0f, %d segments\n", b.Max.X-b.Min.X, b.Max.Y-b.Min.Y, g.Outer.NumSegments())
	fmt.Printf("hole of radius %.0f\n", g.Holes[0].Segment(0).Radius())
	// Output:
	// 610 by 370, 8 segments
	// hole of radius 75
}

func ExampleDifference() {
	panel := arc.Region{Outer: arc.Rect(0, 0, 400, 300)}
	duct := arc.Region{Outer: arc.Circle(r2.Vec{X: 200, Y: 300}, 75)}
	left, err := arc.Difference([]arc.Region{panel}, []arc.Region{duct}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d piece, %.1f mm²\n", len(left), left[0].Area())
	// Output:
	// 1 piece, 111164.3 mm²
}

func ExampleContacts() {
	line := arc.Polyline(r2.Vec{X: -20}, r2.Vec{X: 20})
	cs, err := arc.Contacts(line, arc.Circle(r2.Vec{Y: 6}, 10), 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range cs {
		fmt.Printf("%.0f along the line: crosses %t\n", c.AtP, c.Crosses)
	}
	// Output:
	// 12 along the line: crosses true
	// 28 along the line: crosses true
}
