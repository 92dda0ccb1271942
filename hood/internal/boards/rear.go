package boards

import (
	"example.com/sagitta/arc"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/part"
	"gonum.org/v1/gonum/spatial/r2"
)

// scribeMarks returns the line to cut a rear edge to where the wall has been
// measured, from one height to another: x toward the wall, y where the part has
// each height. Beyond the measured heights the nearest gap goes on.
func (b *builder) scribeMarks(low, high float64, up func(float64) float64) []part.Mark {
	if len(b.Scribe.Wall) == 0 {
		return nil
	}
	line := arc.Polyline(r2.Vec{X: b.gapAt(low), Y: up(low)})
	for _, w := range b.Scribe.Wall {
		if w[0] > low && w[0] < high {
			line.V = append(line.V, arc.Vertex{P: r2.Vec{X: w[1], Y: up(w[0])}})
		}
	}
	line.V = append(line.V, arc.Vertex{P: r2.Vec{X: b.gapAt(high), Y: up(high)}})
	return []part.Mark{{Name: "scribe to the wall", Path: line}}
}

// gapAt returns the gap to the wall at a height, between the measured ones.
func (b *builder) gapAt(y float64) float64 {
	w := b.Scribe.Wall
	for i := 1; i < len(w); i++ {
		if a, b := w[i-1], w[i]; y > a[0] && y < b[0] {
			return a[1] + (b[1]-a[1])*(y-a[0])/(b[0]-a[0])
		}
	}
	if y <= w[0][0] {
		return w[0][1]
	}
	last := w[len(w)-1]
	for i := range w {
		if w[i][0] == y {
			last = w[i]
		}
	}
	return last[1]
}

// mirroredMarks returns the marks drawn mirrored in x.
func mirroredMarks(marks []part.Mark) []part.Mark {
	for i := range marks {
		marks[i].Path = marks[i].Path.Transform(arc.MirrorX())
	}
	return marks
}

// rear returns the edge of a side along the wall, with the scribe allowance.
// A left edge is drawn outward from x = 0, to the left.
func (b *builder) rear(low, high, backLow, backHigh float64) seamEdge {
	a := b.Scribe.Allowance
	return seamEdge{
		show: arc.Polyline(r2.Vec{X: a, Y: low}, r2.Vec{X: a, Y: high}),
		back: arc.Polyline(r2.Vec{X: a, Y: backLow}, r2.Vec{X: a, Y: backHigh}),
	}
}

// rearRabbet returns the rabbet for the back along x = 0, the part lying to
// the right of it.
func (b *builder) rearRabbet(height float64) []plate.Recess {
	r, tb, out, a := b.Back.Rabbet, b.BackFace(), b.runOut(), b.Scribe.Allowance
	if r == 0 {
		return nil
	}
	return []plate.Recess{{
		Area: arc.Region{Outer: arc.Rect(-a, 0, tb, height)}, Run: arc.Region{Outer: arc.Rect(-a-out, -out, tb, height+out)}, Depth: r,
	}}
}

// runOut returns how far a groove leaves a part: as wide as the cutter for
// outlines, which so finds room in any groove, and stands clear at its ends.
func (b *builder) runOut() float64 { return b.Cut.Tool }
