package hood

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A placed is a part set in its place and bent, worked out from nothing but
// the part: its outline, its kerfs, what they turn, and its edges.
type placed struct {
	Part
	pose    Pose
	bent    bool
	neutral arc.Path  // x away from In, y Up, from the lower edge at 0, 0
	back    arc.Path  // of the lands, mouths bridged
	starts  []float64 // of the segments of the neutral line, along it
	web     float64   // twice the depth of the neutral line
	breaks  []float64 // heights on the blank at which it bends or stops bending
}

// fold bends a part at its slots by what its kerfs turn.
func fold(p Part) (placed, error) {
	out := placed{Part: p, pose: p.Pose}
	box := p.Outline.Bounds()
	length := box.Max.Y - box.Min.Y
	out.breaks = append(out.breaks, 0)
	if len(p.Bent) > 0 {
		return out.roll(length)
	}
	if len(p.Kerfs) > 0 {
		blank := bend.Blank{Length: length}
		for i, k := range p.Kerfs {
			s := p.Work.Slots[i]
			blank.Board = bend.Board{Thickness: p.Thickness, KerfWidth: s.Width, Web: p.Thickness - s.Depth}
			blank.Kerfs = append(blank.Kerfs, bend.Kerf{At: s.From.Y, Turn: k.Turn})
			out.breaks = append(out.breaks, s.From.Y-s.Width/2, s.From.Y, s.From.Y+s.Width/2)
		}
		s, err := bend.Refold(blank, r2.Vec{}, 90*arc.Degree)
		if err != nil {
			return out, err
		}
		out.bent, out.neutral, out.back, out.web = true, s.Neutral, s.Back, blank.Board.Web
		at := 0.0
		for i := range s.Neutral.NumSegments() {
			out.starts = append(out.starts, at)
			at += s.Neutral.Segment(i).Length()
		}
	}
	out.breaks = append(out.breaks, length)
	return out, nil
}

// point returns where a point of the flat part comes to lie. Beyond its ends a
// blank runs on straight.
func (p placed) point(at r2.Vec, depth float64) r3.Vec {
	if !p.bent {
		return p.pose.point(at, depth)
	}
	q, left := p.onNeutral(at.Y)
	q = r2.Add(q, r2.Scale(depth-p.web/2, left))
	v := r3.Add(p.pose.At, r3.Scale(at.X, p.pose.Right))
	return r3.Add(r3.Add(v, r3.Scale(q.Y, p.pose.Up)), r3.Scale(-q.X, p.pose.In))
}

// onNeutral returns the point of the neutral line at a height on the flat
// blank, and the normal to its left. The neutral line keeps its length.
func (p placed) onNeutral(y float64) (q, left r2.Vec) {
	l := p.breaks[len(p.breaks)-1]
	in := math.Max(0, math.Min(y, l))
	i, found := slices.BinarySearch(p.starts, in)
	if !found {
		i--
	}
	q, t := p.neutral.Segment(i).At(in - p.starts[i])
	return r2.Add(q, r2.Scale(y-in, t)), r2.Vec{X: -t.Y, Y: t.X}
}

// local returns where a point in space lies in an unbent part.
func (p Pose) local(v r3.Vec) (at r2.Vec, depth float64) {
	d := r3.Sub(v, p.At)
	return r2.Vec{X: r3.Dot(d, p.Right), Y: r3.Dot(d, p.Up)}, r3.Dot(d, p.In)
}
