package bend

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
	"gonum.org/v1/gonum/spatial/r2"
)

// Drawing returns the test strip as it is cut, back face up, with its kerfs,
// its pitch, and the stages it is bent in, in the given unit.
func (s Strip) Drawing(unit arc.Unit) draw.Drawing {
	style := draw.Style{Unit: unit}
	box := s.Outline.Bounds()
	length := func(mm float64) string { return arc.FormatLength(mm, unit) }
	d := draw.Drawing{
		Title: "Test strip",
		Desc:  fmt.Sprintf("%d kerfs across the back of a strip, to be bent in stages", len(s.Slots)),
		Layers: []draw.Layer{
			{Name: draw.Outline, Weight: 0.5, Regions: []arc.Region{s.Outline}},
			{Name: draw.Kerf, Paths: s.Slots},
			{Name: draw.Centering, Weight: 0.13, Dash: []float64{6, 1.5, 1, 1.5}, Paths: s.Centers},
			{Name: draw.Dims, Weight: 0.13},
			{Name: draw.Note, Texts: s.notes(box.Min.Y-24, length)},
		},
	}
	dims := &d.Layers[3].Dimensions
	*dims = append(*dims,
		draw.Horizontal(r2.Vec{X: box.Min.X, Y: box.Max.Y}, box.Max, box.Max.Y+24, style),
		draw.Vertical(box.Min, r2.Vec{X: box.Min.X, Y: box.Max.Y}, box.Min.X-12, style))
	if n := len(s.Centers); n > 0 {
		top := func(i int) r2.Vec { return s.Centers[i].V[1].P }
		*dims = append(*dims, draw.Horizontal(r2.Vec{X: box.Min.X, Y: box.Max.Y}, top(0), box.Max.Y+12, style))
		if n > 1 {
			*dims = append(*dims, draw.Horizontal(top(0), top(1), box.Max.Y+12, style))
		}
	}
	return d
}

// notes says what to cut and what to measure, downward from a height.
func (s Strip) notes(y float64, length func(float64) string) []draw.Text {
	bend, face := "over", "hollow"
	if !s.Opens {
		bend, face = "around", "round"
	}
	lines := []string{
		fmt.Sprintf("Test strip, back face up: %d kerfs, %s wide, %s left of %s, every %s",
			len(s.Slots), length(s.Board.KerfWidth), length(s.Board.Web), length(s.Board.Thickness), length(s.Pitch)),
		fmt.Sprintf("Bend it %s a form so that the show face comes to be %s; at each stage look for cracks, and for kerfs that show:", bend, face),
	}
	for i, g := range s.Stages {
		lines = append(lines, g.note(i, length))
	}
	lines = append(lines,
		"Note the tightest stage that it stood; its strain is the most to plan with, and a panel held bent for good stands less.",
		"Common practice: cut it from the board of the panel, with the same cutter and setting; mask, guard and glasses on.")
	texts := make([]draw.Text, len(lines))
	for i, l := range lines {
		texts[i] = draw.Text{At: r2.Vec{X: 0, Y: y - 7*float64(i)}, Text: l}
	}
	return texts
}

// note says what a stage looks like.
func (g Stage) note(i int, length func(float64) string) string {
	what := fmt.Sprintf("%.3g times the panel's bend", margins[i])
	switch {
	case g.Closed:
		what = "every kerf closed"
	case i == 0:
		what = "the panel's own bend"
	}
	return fmt.Sprintf("stage %d, %s: radius %s, sag %s over a chord of %s, strain %.4f", i+1, what, length(g.Radius), length(g.Sag), length(g.Chord), g.Strain)
}

// Drawing returns the bent panel seen along its kerfs: the wood, and the
// neutral line in it.
func (s Section) Drawing() draw.Drawing {
	d := draw.Drawing{
		Title: "Bent panel",
		Desc:  fmt.Sprintf("section of a panel bent at %d kerfs", len(s.Mouths)),
		Layers: []draw.Layer{
			{Name: draw.Outline, Paths: []arc.Path{s.Outline}},
			{Name: draw.Centering, Weight: 0.13, Dash: []float64{6, 1.5, 1, 1.5}, Paths: []arc.Path{s.Neutral}},
		},
	}
	return d
}
