package sheet_test

import (
	"context"
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// A layout from elsewhere is checked by the true outlines: two round trays of 300
// lie nearer than the gap.
func ExampleCheck() {
	parts := []sheet.Part{{Name: "tray", Qty: 2, Material: "plywood", Thickness: 18, Outline: arc.Region{Outer: arc.Circle(r2.Vec{X: 150, Y: 150}, 150)}}}
	stock := []sheet.Stock{{Material: "plywood", Thickness: 18, Length: 700, Width: 400}}
	l := sheet.Layout{Sheets: []sheet.Sheet{{Placements: []sheet.Placement{
		{At: r2.Vec{X: 20, Y: 20}}, {Copy: 1, At: r2.Vec{X: 325, Y: 20}},
	}}}}
	err := sheet.Check(parts, stock, l, sheet.Options{Gap: 8, Margin: 10})
	if faults, ok := err.(sheet.Faults); ok {
		for _, f := range faults {
			fmt.Printf("%s: %.2f mm, need %.2f\n", f.Rule, f.Clear, f.Need)
		}
	}
	// Output:
	// gap: 5.00 mm, need 8.00
}

// Six half rounds from a board 250 wide, cut to length: laid in turns, head to
// foot, they take less than their boxes side by side, which are 6 × 200.
func ExampleNestStrip() {
	half := arc.Region{Outer: arc.Path{Closed: true, V: []arc.Vertex{arc.V(0, 0, 1), arc.V(200, 0, 0)}}}
	half.Outer = half.Outer.Transform(arc.Shift(r2.Vec{Y: 100}))
	parts := []sheet.Part{{Name: "half round", Qty: 6, Material: "oak", Thickness: 20, Outline: half}}
	s, err := sheet.NestStrip(context.Background(), parts, 250, sheet.Options{Gap: 4, Margin: 5, Iterations: 40})
	fmt.Println(len(s.Placements), "laid,", s.Length < 6*200, err)
	// Output:
	// 6 laid, true <nil>
}

// What a job takes from the rack and gives back, to book.
func ExampleBook() {
	parts := []sheet.Part{{Name: "door", Qty: 2, Material: "mdf", Thickness: 19, Outline: arc.Region{Outer: arc.Rect(0, 0, 900, 500)}}}
	stock := []sheet.Stock{{ID: "rack 4", Name: "mdf 19", Material: "mdf", Thickness: 19, Length: 2000, Width: 1200, Price: 60, Worth: 20}}
	l, err := sheet.Nest(context.Background(), parts, stock, sheet.Options{Gap: 10, Margin: 10, LeastSide: 300, Iterations: 20})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := sheet.Book("job 12", stock, l, 0)
	for _, t := range b.Takes {
		fmt.Printf("takes %d of %s for %.0f\n", t.Count, t.ID, t.Cost)
	}
	for _, g := range b.Gives {
		fmt.Printf("gives %s, worth %v\n", g.ID, g.Worth > 0)
	}
	fmt.Println(b.Net < 60, err)
	// Output:
	// takes 1 of rack 4 for 60
	// gives job 12-1-1, worth true
	// true <nil>
}
