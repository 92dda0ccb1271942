package draw

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// checkBarRoom is the height in mm that a check bar takes below a drawing.
const checkBarRoom = 16

// WithCheckBar returns the drawing with its page carried on downward to hold a
// bar of 100 mm, or of 4 in, which tells whether a print came out at its true
// size. The page is made wide enough for it.
func WithCheckBar(d Drawing, unit arc.Unit) Drawing {
	long, parts, text := 100.0, 10, "100 mm"
	if unit == arc.Inches {
		long, parts, text = 4*arc.Inch, 8, "4 in"
	}
	page := d.Sheet()
	page.Max.X = max(page.Max.X, page.Min.X+long+2*pageMargin)
	page.Min.Y -= checkBarRoom
	x, y := page.Min.X+pageMargin, page.Min.Y+pageMargin
	bar := Layer{Name: Check, Weight: 0.25}
	bar.Paths = append(bar.Paths, arc.Polyline(r2.Vec{X: x, Y: y}, r2.Vec{X: x + long, Y: y}))
	for i := range parts + 1 {
		h := 2.0
		if i%(parts/2) == 0 {
			h = 4
		}
		at := x + long*float64(i)/float64(parts)
		bar.Paths = append(bar.Paths, arc.Polyline(r2.Vec{X: at, Y: y}, r2.Vec{X: at, Y: y + h}))
	}
	bar.Texts = []Text{{
		At: r2.Vec{X: x, Y: y + 5.5}, Height: 2.5,
		Text: "This bar is " + text + " long: measure it before you use the print.",
	}}
	d.Page = page
	d.Layers = append(append([]Layer(nil), d.Layers...), bar)
	return d
}
