package packet

import (
	"math"
	"strconv"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
)

// letterWidth bounds how wide a letter of a label is, in heights of a capital:
// that of a plain typeface on average, as in package draw.
const letterWidth = 0.8

// Heights of the labels of a sheet, mm: it is looked at from afar, or at a tenth
// of its size.
var labelHeights = []float64{44, 34, 26, 20, 15}

// labels names a part inside its wood, with its size below where there is room
// for both. Where there is none for the name, a number stands for it.
func labels(wood arc.Region, name, size string, number int) (texts []draw.Text, led bool) {
	for _, h := range labelHeights {
		if at, turn, ok := roomFor(wood, wide(name, h), 2.2*h, wide(size, 0.7*h)); ok {
			up := arc.Rotate(turn).Apply(r2.Vec{Y: 0.6 * h})
			return []draw.Text{
				{At: r2.Add(at, up), Text: name, Height: h, Align: draw.Middle, Angle: turn},
				{At: r2.Sub(at, up), Text: size, Height: 0.7 * h, Align: draw.Middle, Angle: turn},
			}, false
		}
	}
	if t := fitted(wood, name); len(t) > 0 {
		return t, false
	}
	return fitted(wood, strconv.Itoa(number)), true
}

// fitted returns a text inside a region, as large as it goes, or none.
func fitted(wood arc.Region, text string) []draw.Text {
	for _, h := range labelHeights {
		if at, turn, ok := roomFor(wood, wide(text, h), 1.3*h, 0); ok {
			return []draw.Text{{At: at, Text: text, Height: h, Align: draw.Middle, Angle: turn}}
		}
	}
	return nil
}

func wide(text string, height float64) float64 {
	return letterWidth * height * float64(utf8.RuneCountInString(text))
}

// roomFor returns the middle of a box of a size, level or upright, that lies
// in a region: of those looked at the nearest to the region's middle.
func roomFor(r arc.Region, w, h, also float64) (at r2.Vec, turn arc.Angle, ok bool) {
	const (
		steps = 16
		rim   = 6 // of wood left around it, both sides together, mm
	)
	w, h = max(w, also)+rim, h+rim
	b := r.Bounds()
	mid, best := r2.Scale(0.5, r2.Add(b.Min, b.Max)), 0.0
	for _, t := range []arc.Angle{0, 90 * arc.Degree} {
		bw, bh := w, h
		if t != 0 {
			bw, bh = h, w
		}
		room := r2.Vec{X: b.Max.X - b.Min.X - bw, Y: b.Max.Y - b.Min.Y - bh}
		if room.X < 0 || room.Y < 0 {
			continue
		}
		for i := range steps + 1 {
			for j := range steps + 1 {
				c := r2.Vec{X: b.Min.X + bw/2 + room.X*float64(i)/steps, Y: b.Min.Y + bh/2 + room.Y*float64(j)/steps}
				if d := r2.Norm(r2.Sub(c, mid)); (!ok || d < best-1e-9) && boxInside(r, c, bw, bh) {
					at, turn, best, ok = c, t, d, true
				}
			}
		}
	}
	return at, turn, ok
}

// boxInside reports whether a box lies in a region: points around it do, and no
// corner of the region, and none of its holes, lies in it.
func boxInside(r arc.Region, c r2.Vec, w, h float64) bool {
	const n = 6
	for i := range n + 1 {
		f := float64(i)/n - 0.5
		for _, p := range [4]r2.Vec{{X: f * w, Y: -h / 2}, {X: f * w, Y: h / 2}, {X: -w / 2, Y: f * h}, {X: w / 2, Y: f * h}} {
			if !r.Contains(r2.Add(c, p)) {
				return false
			}
		}
	}
	for _, v := range r.Outer.V { // no notch reaches in between them
		if math.Abs(v.P.X-c.X) < w/2 && math.Abs(v.P.Y-c.Y) < h/2 {
			return false
		}
	}
	for _, hole := range r.Holes { // none lies within
		b := hole.Bounds()
		if b.Max.X > c.X-w/2 && b.Min.X < c.X+w/2 && b.Max.Y > c.Y-h/2 && b.Min.Y < c.Y+h/2 {
			return false
		}
	}
	return true
}
