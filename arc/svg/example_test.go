package svg_test

import (
	"fmt"
	"os"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
)

func ExampleEncode() {
	disc := arc.Circle(r2.Vec{X: 50, Y: 50}, 40)
	err := svg.Encode(os.Stdout, draw.Drawing{
		Title:  "Duct plate",
		Desc:   "A disc of 80 mm",
		Layers: []draw.Layer{{Name: draw.Outline, Paths: []arc.Path{disc}}},
	}, svg.Options{Inline: true})
	fmt.Println(err)
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" version="1.1" role="img" width="90mm" height="90mm" viewBox="5 -95 90 90">
	// <title>Duct plate</title>
	// <desc>A disc of 80 mm</desc>
	// <g data-layer="outline" fill="none" stroke="#000000" stroke-width="0.25" stroke-linejoin="round" stroke-linecap="round">
	// <path d="M90 -50 A40 40 0 0 0 50 -90 A40 40 0 0 0 10 -50 A40 40 0 0 0 50 -10 A40 40 0 0 0 90 -50 Z"/>
	// </g>
	// </svg>
	// <nil>
}
