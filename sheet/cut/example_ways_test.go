package cut_test

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
)

// A square lid takes the cutter's diameter between parts, and its radius beyond
// them.
func ExampleClearance() {
	lid := sheet.Part{Name: "lid", Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 400, 300)}}
	job := cut.Job{Stock: sheet.Stock{Material: "mdf", Thickness: 18, Length: 1220, Width: 610}, Parts: []sheet.Part{lid}}
	opt := cut.Options{Tools: cut.Tools(6, 0, 18)}
	fmt.Printf("%.1f mm apart, %.1f mm from the sheet's edge\n", cut.Clearance(job, opt), cut.Overhang(job, opt))
	// Output:
	// 6.0 mm apart, 3.0 mm from the sheet's edge
}

// What can be made of two bevels of one lid before it is laid anywhere: one leans
// in by what the V cutter has, the other undercuts the show face, which nothing
// from above can cut.
func ExampleWays() {
	lid := sheet.Part{Name: "lid", Material: "mdf", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, 400, 300)}}
	v := lid.Outline.Outer.V
	work := cut.Work{Bevels: []cut.Bevel{
		{Name: "front", Edge: arc.Polyline(v[0].P, v[1].P), Angle: 45 * arc.Degree},
		{Name: "back", Edge: arc.Polyline(v[2].P, v[3].P), Angle: -45 * arc.Degree},
	}}
	made, err := cut.Ways(lid, work, cut.Options{Tools: cut.Tools(6, 0, 18, 90*arc.Degree)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, m := range made {
		fmt.Printf("%s: %v; %q\n", work.Bevels[i].Name, m.Way, m.Why)
	}
	// Output:
	// front: V cutter; ""
	// back: saw; "undercuts"
}
