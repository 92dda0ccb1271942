package dxf_test

import (
	"bytes"
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/dxf"
)

func ExampleEncode() {
	plate := arc.Region{
		Outer: arc.Rect(0, 0, 300, 200),
		Holes: []arc.Path{arc.Circle(r2.Vec{X: 150, Y: 100}, 76).Reverse()},
	}
	var b bytes.Buffer
	err := dxf.Encode(&b, draw.Drawing{
		Title:  "Duct plate",
		Layers: []draw.Layer{{Name: draw.Outline, Regions: []arc.Region{plate}}},
	}, dxf.Options{})
	fmt.Println(err, strings.Count(b.String(), "LWPOLYLINE"), "polylines")
	// Output:
	// <nil> 2 polylines
}
