package draw

import (
	"math"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// Align says which point of a text is at its place.
type Align uint8

// The left end of the baseline, its middle, its right end, and the middle of
// the text both ways.
const (
	Left Align = iota
	Center
	Right
	Middle
)

// A Text is one line of text.
type Text struct {
	At     r2.Vec
	Text   string
	Height float64   // of a capital letter, mm; 0 means 3.5
	Angle  arc.Angle // of the baseline, counter-clockwise
	Align  Align
}

// defaultHeight is one of the letter heights of ISO 3098 (2.5, 3.5, 5 mm).
const defaultHeight = 3.5

// CapHeight returns the height a capital letter is drawn with, in mm.
func (t Text) CapHeight() float64 {
	if t.Height == 0 {
		return defaultHeight
	}
	return t.Height
}

// Baseline returns where the text's baseline passes: At, or for Middle half a
// capital letter below it.
func (t Text) Baseline() r2.Vec {
	if t.Align != Middle {
		return t.At
	}
	sin, cos := math.Sincos(float64(t.Angle))
	h := t.CapHeight() / 2
	return r2.Vec{X: t.At.X + h*sin, Y: t.At.Y - h*cos}
}

// width estimates how long the text is: a letter of a plain typeface is on
// average about 0.8 capital heights wide (common practice, no source).
func (t Text) width() float64 {
	return 0.8 * t.CapHeight() * float64(utf8.RuneCountInString(t.Text))
}

// corners returns the estimated corners of the text, descenders included.
func (t Text) corners() [4]r2.Vec {
	w, h := t.width(), t.CapHeight()
	x := map[Align]float64{Left: 0, Center: -w / 2, Right: -w, Middle: -w / 2}[t.Align]
	m := arc.Rotate(t.Angle).Then(arc.Shift(t.Baseline()))
	lo, hi := -0.3*h, h
	return [4]r2.Vec{
		m.Apply(r2.Vec{X: x, Y: lo}), m.Apply(r2.Vec{X: x + w, Y: lo}),
		m.Apply(r2.Vec{X: x + w, Y: hi}), m.Apply(r2.Vec{X: x, Y: hi}),
	}
}
