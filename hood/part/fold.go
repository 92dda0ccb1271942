package part

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Folded is a part bent and set in its place by its pose, worked out from
// nothing but the part: its outline, its kerfs, what they turn, and its edges.
type Folded struct {
	Part
	Curved   bool      // by kerfs or along stretches; the next three are of no other
	Neutral  arc.Path  // what keeps its length: x away from In, y Up, from the lower edge at 0, 0
	BackLine arc.Path  // the back face, in the same plane: of the lands, mouths of kerfs bridged
	Web      float64   // twice the depth of the neutral line, mm
	Breaks   []float64 // heights on the blank, rising, at which it bends or stops bending, and its ends, mm

	starts []float64 // of the segments of the neutral line, along it
}

// Fold bends a part at its slots by what its kerfs turn, or evenly along its
// stretches, and sets it in its place; a part with neither stays flat. The
// error is an arc.ParamError that names the field of the part that cannot be
// used, or says that a bend is tighter than the part is thick.
func Fold(p Part) (Folded, error) {
	if err := p.check(); err != nil {
		return Folded{}, err
	}
	out := Folded{Part: p}
	box := p.Outline.Bounds()
	length := box.Max.Y - box.Min.Y
	out.Breaks = append(out.Breaks, 0)
	if len(p.Bent) > 0 {
		return out.roll(length)
	}
	if len(p.Kerfs) > 0 {
		blank := bend.Blank{Length: length}
		for i, k := range p.Kerfs {
			s := p.Work.Slots[i]
			blank.Board = bend.Board{Thickness: p.Thickness, KerfWidth: s.Width, Web: p.Thickness - s.Depth}
			blank.Kerfs = append(blank.Kerfs, bend.Kerf{At: s.From.Y, Turn: k.Turn})
			out.Breaks = append(out.Breaks, s.From.Y-s.Width/2, s.From.Y, s.From.Y+s.Width/2)
		}
		s, err := bend.Refold(blank, r2.Vec{}, 90*arc.Degree)
		if err != nil {
			return out, err
		}
		out.Curved, out.Neutral, out.BackLine, out.Web = true, s.Neutral, s.Back, blank.Board.Web
		at := 0.0
		for i := range s.Neutral.NumSegments() {
			out.starts = append(out.starts, at)
			at += s.Neutral.Segment(i).Length()
		}
	}
	out.Breaks = append(out.Breaks, length)
	return out, nil
}

// Point returns where a point of the flat part comes to lie. Beyond its ends a
// blank runs on straight.
func (p Folded) Point(at r2.Vec, depth float64) r3.Vec {
	if !p.Curved {
		return p.Pose.Point(at, depth)
	}
	q := p.lifted(at.Y, depth)
	v := r3.Add(p.Pose.At, r3.Scale(at.X, p.Pose.Right))
	return r3.Add(r3.Add(v, r3.Scale(q.Y, p.Pose.Up)), r3.Scale(-q.X, p.Pose.In))
}

// lifted returns where a height on the flat blank comes to lie at a depth, x away
// from In and y Up.
func (p Folded) lifted(y, depth float64) r2.Vec {
	q, left := p.onNeutral(y)
	return r2.Add(q, r2.Scale(depth-p.Web/2, left))
}

// onNeutral returns the point of the neutral line at a height on the flat
// blank, and the normal to its left. The neutral line keeps its length.
func (p Folded) onNeutral(y float64) (q, left r2.Vec) {
	if !p.Curved {
		return r2.Vec{Y: y}, r2.Vec{X: -1}
	}
	l := p.Breaks[len(p.Breaks)-1]
	in := math.Max(0, math.Min(y, l))
	i, found := slices.BinarySearch(p.starts, in)
	if !found {
		i--
	}
	q, t := p.Neutral.Segment(i).At(in - p.starts[i])
	return r2.Add(q, r2.Scale(y-in, t)), r2.Vec{X: -t.Y, Y: t.X}
}
