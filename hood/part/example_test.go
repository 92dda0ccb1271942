package part_test

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// sheetOf draws a rectangular sheet with its four edges cut square.
func sheetOf(name string, width, length, thickness float64) part.Part {
	c := [5]r2.Vec{{}, {X: width}, {X: width, Y: length}, {Y: length}, {}}
	p := part.Part{Cells: true}
	p.Name, p.Thickness = name, thickness
	p.Outline.Outer = arc.Rect(0, 0, width, length)
	p.Back.Outer = p.Outline.Outer.Clone()
	for i, name := range []string{"bottom", "right", "top", "left"} {
		edge := arc.Polyline(c[i], c[i+1])
		p.Edges = append(p.Edges, part.Edge{Name: name, Show: edge, Back: edge.Clone()})
	}
	return p
}

// A barrel ceiling over a hall 2 m wide: sheets of 6 mm, seen from below, that
// rise 400 mm. The sheet stands on the left wall and turns over to the right.
func Example() {
	ceiling, err := arc.FromChordSag(2000, 400)
	if err != nil {
		fmt.Println(err)
		return
	}
	const thick = 6
	turn := ceiling.Turn()
	middle := (ceiling.Radius() + thick/2.) * float64(turn) // the show face is inside the bend
	p := sheetOf("barrel-1", 1200, middle, thick)
	p.Bent = []part.Stretch{{To: middle, Turn: -turn}}
	p.Material = "plywood"
	sin, cos := math.Sincos(float64(turn / 2)) // it springs from the wall at half the turn
	p.Pose = part.Pose{Right: r3.Vec{Z: 1}, Up: r3.Vec{X: cos, Y: sin}, In: r3.Vec{X: -sin, Y: cos}}
	f, err := part.Fold(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	end := f.Point(r2.Vec{Y: middle}, 0)
	crown := f.Point(r2.Vec{Y: middle / 2}, 0)
	solid := f.Solid()
	fmt.Printf("sheet %.1f mm long, turning %v\n", middle, turn)
	fmt.Printf("reaches %.3f mm across, %.3f mm up, crown at %.3f mm\n", end.X, math.Abs(end.Y), crown.Y)
	fmt.Printf("%d triangles, %.4f m³, center of gravity %.1f mm up\n", len(solid.Triangles), solid.Volume()*1e-9, solid.Centroid().Y)
	// Output:
	// sheet 2211.5 mm long, turning 87.2056°
	// reaches 2000.000 mm across, 0.000 mm up, crown at 400.000 mm
	// 740 triangles, 0.0159 m³, center of gravity 266.7 mm up
}
