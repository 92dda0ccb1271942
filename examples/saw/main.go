// Command saw lays the parts of a cabinet on sheets for a panel saw, lists the
// cuts in the order in which they are made, and draws the first sheet.
//
//	saw [FILE.svg]
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"example.com/sagitta/arc/svg"
	"example.com/sagitta/sheet"
)

func main() {
	file := "saw.svg"
	if len(os.Args) > 1 {
		file = os.Args[1]
	}
	f, err := os.Create(file)
	if err == nil {
		err = run(os.Stdout, f)
		f.Close()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// board is one rectangle of the pantry of Miss Larkin, in birch plywood.
func board(name string, qty int, length, width float64) sheet.Part {
	return sheet.Part{Name: name, Qty: qty, Material: "birch plywood", Thickness: 18, Outline: arc.Region{Outer: arc.Rect(0, 0, length, width)}}
}

func run(out, figure io.Writer) error {
	parts := []sheet.Part{
		board("side", 2, 2080, 380), board("shelf", 6, 764, 360), board("top", 1, 800, 380),
		board("door", 2, 1010, 394), board("drawer front", 3, 396, 182), board("kick", 1, 764, 90),
	}
	stock := []sheet.Stock{{Name: "full sheet", Material: "birch plywood", Thickness: 18, Length: 2440, Width: 1220, Price: 88}}
	saw := sheet.Saw{Kerf: 3.2, Trim: 8, Stages: 3}
	l, err := sheet.NestStraight(context.Background(), parts, stock, saw, sheet.Options{Iterations: 30})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d sheets, %.1f %% used, %d without a place\n", len(l.Sheets), 100*l.Use, len(l.Unplaced))
	for i, cuts := range l.Cuts {
		for j, c := range cuts {
			along := "across"
			if c.AlongX {
				along = "along"
			}
			turn := ""
			if c.Turn {
				turn = ", piece turned"
			}
			fmt.Fprintf(out, "sheet %d cut %d: %s the sheet at %.1f mm%s\n", i+1, j+1, along, c.At, turn)
		}
	}
	layers, err := sheet.DrawCuts(parts, stock, l, 0)
	if err != nil {
		return err
	}
	return svg.Encode(figure, draw.Drawing{Title: "Sheet 1, cut by cut", Layers: layers}, svg.Options{})
}
