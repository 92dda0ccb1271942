package miter_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// A front that leans back by 10 over a rise of 30 meets a side that leans by 5.
func ExampleFromNormals() {
	corner, err := miter.FromNormals(
		r3.Vec{Y: -30, Z: 10}, // looks toward the viewer and up
		r3.Vec{X: 30, Z: 5},   // looks to the right and up
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	cuts, _ := corner.Cuts()
	fmt.Printf("dihedral %.2f°\n", cuts.Dihedral.Degrees())
	fmt.Printf("front: miter %.2f°, bevel %.2f°\n", cuts.First.Miter.Degrees(), cuts.First.Bevel.Degrees())
	fmt.Printf("side:  miter %.2f°, bevel %.2f°\n", cuts.Second.Miter.Degrees(), cuts.Second.Bevel.Degrees())
	// Output:
	// dihedral 92.98°
	// front: miter 8.98°, bevel 43.51°
	// side:  miter 18.20°, bevel 43.51°
}

// A planter of six sides that lean out at 75° from level.
func ExampleRegularBox() {
	corner, err := miter.RegularBox(6, 105*arc.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	cuts, _ := corner.Cuts()
	set, way := miter.Saw{}.Best(cuts.First)
	fmt.Println(set.Stand)
	fmt.Printf("miter %.1f° to the %v, tilt %.1f° to the %v, keep the %v (%v)\n",
		set.Miter.Degrees(), set.MiterTo, set.Tilt.Degrees(), set.TiltTo, set.Keep, way)
	// Output:
	// flat, show face up, lower edge against the fence
	// miter 8.5° to the left, tilt 28.9° to the left, keep the right (direct)
}

// Crown of spring 38° in the corner of a room, flat on the table.
func ExampleCrown() {
	corner, err := miter.Crown(38*arc.Degree, 90*arc.Degree, true)
	if err != nil {
		fmt.Println(err)
		return
	}
	cuts, _ := corner.Cuts()
	set := cuts.First.Setting(miter.Stand{UpperEdge: true})
	fmt.Printf("miter %.1f° %v, tilt %.1f° %v\n", set.Miter.Degrees(), set.MiterTo, set.Tilt.Degrees(), set.TiltTo)
	// Output:
	// miter 31.6° right, tilt 33.9° left
}

// A hollow front meets a straight side.
func ExamplePair_Seam() {
	pair := miter.Pair{
		First:  miter.Panel{Profile: arc.Path{V: []arc.Vertex{arc.V(400, 0, -0.2), arc.V(250, 500, 0)}}, Thickness: 12},
		Second: miter.Panel{Profile: arc.Polyline(r2.Vec{X: 350}, r2.Vec{X: 300, Y: 500}), Thickness: 12},
		Plan:   90 * arc.Degree,
	}
	seam, err := pair.Seam()
	if err != nil {
		fmt.Println(err)
		return
	}
	at, _ := seam.At(250)
	fmt.Printf("front: %.2f along at %.2f up, beveled %.2f°\n", at.First.Show.X, at.First.Show.Y, at.First.Bevel.Degrees())
	fmt.Printf("side:  %.2f along at %.2f up\n", at.Second.Show.X, at.Second.Show.Y)
	front, side, _ := seam.Edges(0.05)
	fmt.Println(front[0].Show.NumSegments(), "and", side[0].Show.NumSegments(), "segments within 0.05 mm")
	_, gap, _ := seam.Steps(1)
	fmt.Printf("one bevel leaves up to %.1f mm\n", gap)
	// Output:
	// front: 325.00 along at 283.52 up, beveled 44.24°
	// side:  270.69 along at 251.25 up
	// 4 and 2 segments within 0.05 mm
	// one bevel leaves up to 1.3 mm
}

// A pyramid of four boards over a plan 600 square.
func ExampleBox() {
	boards, err := miter.Box{
		Plan:   []r2.Vec{{}, {X: 600}, {X: 600, Y: 600}, {Y: 600}},
		Height: 300,
		Boards: []miter.Board{{Tilt: 45 * arc.Degree, Thickness: 12}},
	}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range boards[0].Show.V {
		fmt.Printf("%.1f, %.1f\n", v.P.X, v.P.Y)
	}
	fmt.Printf("miter %.2f°, bevel %.2f°\n", boards[0].Right.Miter.Degrees(), boards[0].Right.Bevel.Degrees())
	// Output:
	// 0.0, 0.0
	// 600.0, 0.0
	// 300.0, 424.3
	// miter 35.26°, bevel 30.00°
}

func ExamplePlanBars() {
	pieces := []float64{1340, 1050, 1050, 470, 470}
	plan, err := miter.PlanBars(pieces, []miter.Bar{{Length: 2400, Price: 21.50}, {Length: 3600, Price: 31}}, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range plan.Bars {
		fmt.Println(b.Stock, b.Pieces, b.Left)
	}
	fmt.Println(plan.Cost, plan.Cost == plan.Bound)
	// Output:
	// 0 [0 1] 4
	// 0 [2 3 4] 401
	// 43 true
}
