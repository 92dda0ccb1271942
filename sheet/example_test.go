package sheet_test

import (
	"context"
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// Shelves and round trays of Larch Lane's pantry on one sheet of plywood.
func ExampleNest() {
	parts := []sheet.Part{
		{Name: "shelf", Qty: 4, Material: "plywood", Thickness: 18, Grain: sheet.Along,
			Outline: arc.Region{Outer: arc.Rect(0, 0, 1100, 280)}},
		{Name: "tray", Qty: 3, Material: "plywood", Thickness: 18,
			Outline: arc.Region{Outer: arc.Circle(r2.Vec{}, 170)}},
	}
	stock := []sheet.Stock{{Material: "plywood", Thickness: 18, Length: 2440, Width: 1220, Price: 74}}
	opt := sheet.Options{Gap: 8, Margin: 10, LeastSide: 100, Seed: 1, Iterations: 100}

	l, err := sheet.Nest(context.Background(), parts, stock, opt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d sheet, %.0f %% used, costs %.0f\n", len(l.Sheets), 100*l.Use, l.Cost)
	fmt.Println("left out:", len(l.Unplaced))
	fmt.Println("legal:", sheet.Check(parts, stock, l, opt) == nil)
	// Output:
	// 1 sheet, 51 % used, costs 74
	// left out: 0
	// legal: true
}

// The same shop's drawer parts for the panel saw: strips along the sheet
// first, each then cut to length.
func ExampleNestStraight() {
	rect := func(l, w float64) arc.Region { return arc.Region{Outer: arc.Rect(0, 0, l, w)} }
	parts := []sheet.Part{
		{Name: "side", Qty: 4, Material: "plywood", Thickness: 12, Outline: rect(500, 150)},
		{Name: "front", Qty: 4, Material: "plywood", Thickness: 12, Outline: rect(420, 150)},
	}
	stock := []sheet.Stock{{Material: "plywood", Thickness: 12, Length: 1525, Width: 1525, Price: 40}}
	saw := sheet.Saw{Kerf: 3.2, Trim: 5, Stages: 2, First: sheet.AlongLength}

	l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 20})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d sheet, %d cuts, %d turns\n", len(l.Sheets), len(l.Cuts[0]), l.Turns)
	for _, c := range l.Cuts[0][4:6] {
		fmt.Printf("stage %d at %.1f\n", c.Stage, c.At)
	}
	// Output:
	// 1 sheet, 15 cuts, 3 turns
	// stage 1 at 155.0
	// stage 1 at 308.2
}

func ExampleWriteCutList() {
	parts := []sheet.Part{{Name: "tray", Qty: 2, Material: "plywood", Thickness: 18, Outline: arc.Region{Outer: arc.Circle(r2.Vec{}, 170)}}}
	l := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{{At: r2.Vec{X: 200, Y: 200}}, {Copy: 1, At: r2.Vec{X: 600, Y: 200}}}}}}
	var b strings.Builder
	if err := sheet.WriteCutList(&b, parts, l); err != nil {
		fmt.Println(err)
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n"))
	// Output:
	// part,quantity,placed,material,thickness_mm,length_mm,width_mm,area_mm2,grain,sheets,note
	// tray,2,2,plywood,18,340,340,90792.028,any,1,
}
