package sheet_test

import (
	"context"
	"fmt"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// Parts of priority 0 are laid however many priorities above them find no
// place. From four on they were left out with "no room left".
func TestManyPriorities(t *testing.T) {
	for ranks := range 9 {
		var parts []sheet.Part
		add := func(name string, o arc.Path, prio, qty int) {
			parts = append(parts, sheet.Part{Name: name, Material: "m", Thickness: 18, Priority: prio, Qty: qty, Outline: arc.Region{Outer: o}})
		}
		for p := 1; p <= ranks; p++ {
			add(fmt.Sprintf("too large %d", p), arc.Rect(0, 0, 3000, 3000), p, 1)
		}
		add("L", arc.Polygon(r2.Vec{}, r2.Vec{X: 600}, r2.Vec{X: 600, Y: 200}, r2.Vec{X: 200, Y: 200}, r2.Vec{X: 200, Y: 600}, r2.Vec{Y: 600}), 0, 2)
		stock := []sheet.Stock{{Material: "m", Thickness: 18, Length: 850, Width: 850, Count: 1, Price: 50}}
		l, err := sheet.Nest(context.Background(), parts, stock, sheet.Options{Gap: 5, Iterations: 200})
		if err != nil || len(l.Unplaced) != ranks {
			t.Errorf("%d priorities above: %v, %d unplaced", ranks, err, len(l.Unplaced))
		}
	}
}

// A part of a higher priority comes before any area of lower ones, however
// small it is: where only one of the two fits, it is the one.
func TestPriorityBeforeAnyArea(t *testing.T) {
	parts := []sheet.Part{
		{Name: "all", Material: "m", Thickness: 18, Qty: 1, Outline: arc.Region{Outer: arc.Rect(0, 0, 2000, 1000)}},
		{Name: "chip", Material: "m", Thickness: 18, Qty: 1, Priority: 1, Outline: arc.Region{Outer: arc.Rect(0, 0, 4, 4)}},
	}
	stock := []sheet.Stock{{Material: "m", Thickness: 18, Length: 2000, Width: 1000, Count: 1, Price: 50}}
	l, err := sheet.Nest(context.Background(), parts, stock, sheet.Options{Iterations: 200})
	if err != nil || len(l.Unplaced) != 1 || l.Unplaced[0].Part != 0 {
		t.Errorf("%v, unplaced %v", err, l.Unplaced)
	}
}
