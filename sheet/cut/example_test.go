package cut_test

import (
	"context"
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"example.com/sagitta/sheet/cut"
	"gonum.org/v1/gonum/spatial/r2"
)

// A shelf with a dado and a round opening, cut from a small sheet and proved.
func ExamplePlan() {
	shelf := sheet.Part{Name: "shelf", Thickness: 18, Outline: arc.Region{
		Outer: arc.Rect(0, 0, 500, 300),
		Holes: []arc.Path{arc.Circle(r2.Vec{X: 400, Y: 200}, 40).Reverse()},
	}}
	job := cut.Job{
		Title:      "Pantry shelf",
		Stock:      sheet.Stock{Material: "plywood", Thickness: 18, Length: 600, Width: 400},
		Parts:      []sheet.Part{shelf},
		Works:      []cut.Work{{Slots: []cut.Slot{{From: r2.Vec{X: -6, Y: 60}, To: r2.Vec{X: 506, Y: 60}, Width: 12, Depth: 6}}}},
		Placements: []sheet.Placement{{At: r2.Vec{X: 50, Y: 50}}},
	}
	opt := cut.Options{Tools: []cut.Tool{{Number: 1, Diameter: 10}, {Number: 2, Diameter: 12}}}
	p, err := cut.Plan(context.Background(), job, opt)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range p.Operations {
		fmt.Printf("%-8s tool %d, %.1f mm deep, %d tabs\n", o.Kind, o.Tool, o.Depth, o.Tabs)
	}
	fmt.Printf("%.1f minutes\n", p.Minutes)
	rep, err := cut.Replay(context.Background(), job, p.Moves(), opt)
	fmt.Println(len(rep.Faults), err)
	// Output:
	// slot     tool 2, 6.0 mm deep, 0 tabs
	// opening  tool 1, 18.2 mm deep, 2 tabs
	// outline  tool 1, 18.2 mm deep, 4 tabs
	// 1.4 minutes
	// 0 <nil>
}

// A program that leaves out a kerf does not pass.
func ExampleReplay() {
	panel := sheet.Part{Name: "panel", Thickness: 19, Outline: arc.Region{Outer: arc.Rect(0, 0, 200, 100)}}
	kerf := func(y float64) cut.Slot {
		return cut.Slot{From: r2.Vec{X: -2, Y: y}, To: r2.Vec{X: 202, Y: y}, Width: 3.2, Depth: 17}
	}
	job := cut.Job{
		Stock:      sheet.Stock{Thickness: 19, Length: 300, Width: 200},
		Parts:      []sheet.Part{panel},
		Works:      []cut.Work{{Slots: []cut.Slot{kerf(30), kerf(60)}}},
		Placements: []sheet.Placement{{At: r2.Vec{X: 50, Y: 50}}},
	}
	opt := cut.Options{Tools: cut.Tools(9.525, 3.2, 19)}
	p, _ := cut.Plan(context.Background(), job, opt)
	p.Operations = append(p.Operations[:1], p.Operations[2:]...)
	rep, _ := cut.Replay(context.Background(), job, p.Moves(), opt)
	for _, f := range rep.Faults {
		fmt.Printf("%v: %s, %s: z = %.1f, need %.1f\n", f.Kind, f.Name, f.Feature, f.Z, f.Need)
	}
	// Output:
	// not cut as asked: panel.1, slot 2: z = 19.0, need 2.0
}

// Feed of a cutter: 1/2 in, two flutes, 18,000 rev/min.
func ExampleChipLoad() {
	low, high := cut.ChipLoad(arc.Inch/2, arc.Inch/2)
	fmt.Printf("%.3f to %.3f in per tooth\n", low/arc.Inch, high/arc.Inch)
	fmt.Printf("%.0f in/min\n", 18000*2*low/arc.Inch)
	// Output:
	// 0.020 to 0.025 in per tooth
	// 720 in/min
}
