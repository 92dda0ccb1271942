package boards

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/plate"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/sheet"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// lineUp names the mark by which plies are stacked.
const lineUp = proof.LineUp

// rolled draws the plies of a section, or its one sheet, from the show face in.
// Left and right give the edges of each, outward.
func (b *builder) rolled(hand part.Hand, panel string, s curve.Section, left, right plyEdge, pose part.Pose) []plate.Plate {
	out := make([]plate.Plate, 0, s.Plies)
	middle := 0.0
	for i := range s.Plies {
		d := [2]float64{s.Depth(b.t, float64(i)), s.Depth(b.t, float64(i+1))}
		mid := (d[0] + d[1]) / 2
		show, ok1 := s.FaceSpan(d[0], mid)
		back, ok2 := s.FaceSpan(d[1], mid)
		faces := [2]curve.Span{show, back}
		l, ok3 := left(d, mid, faces)
		r, ok4 := right(d, mid, faces)
		if !ok1 || !ok2 || !ok3 || !ok4 {
			b.faults.Add("bend.ply.thickness", b.t/float64(s.Plies), "mm", "a panel longer than the bevels at its ends", spec.ErrPlace)
			return nil
		}
		p := b.rolledPlate(hand, panel, s, l, r)
		p.Bent, p.Pose = stretches(s, mid), pose
		p.Pose.At = r3.Add(pose.At, r3.Scale(d[0], pose.In))
		if i == 0 {
			middle = p.MiddleAt(s.Along(s.Curve.ShowLength/2, mid))
		}
		if s.Plies > 1 {
			b.asPly(&p, s, i, middle)
		} else { // cut while flat
			p.Sides[0].Bevel, p.Sides[2].Bevel = slope(back.Low-show.Low, b.t), slope(show.High-back.High, b.t)
		}
		out = append(out, p)
	}
	return out
}

// rolledPlate returns a ply, or the one sheet, of a section between two edges.
func (b *builder) rolledPlate(hand part.Hand, panel string, s curve.Section, left, right seamEdge) plate.Plate {
	p := b.blank(KindSweep, hand, panel, s, left, right)
	p.Material, p.Density = b.PlyMaterial()
	p.Thickness = b.t / float64(s.Plies)
	if spec.Plywood(p.Material) { // it bends across its face grain
		p.Grain = sheet.Along
	}
	return p
}

// asPly gives a ply its blank, larger than the trimmed panel, and the lines to
// stack and trim it by. Middle is where all plies of a panel are lined up
// across.
func (b *builder) asPly(p *plate.Plate, s curve.Section, i int, middle float64) {
	for j := range p.Sides {
		q := &p.Sides[j]
		q.Saw = q.Saw || q.Bevel != 0 || b.Bend.Trim > 0
	}
	p.Ply = i + 1
	p.Blank = b.overSize(p, s.Curve.Plies.Lengths[i])
	plyMarks(p, s, i, s.Depth(b.t, float64(i)+0.5), middle)
	p.Label = fmt.Sprintf(" of %d", s.Plies)
	switch i {
	case 0:
		p.Label += ", show face"
		p.Marks = append(p.Marks, part.Mark{Name: "trim here on the show face", Path: p.TrimLine(func(q plate.Side) arc.Path { return q.Path })})
	case s.Plies - 1:
		p.Label += ", on the form"
		p.Marks = append(p.Marks, part.Mark{Name: "trim here on the back", Path: p.TrimLine(func(q plate.Side) arc.Path { return q.Back })})
	}
	p.Notes = append(p.Notes, fmt.Sprintf("net length %s along its middle, from end to end of the curve; cut %s over on every side",
		b.faults.In.Length(s.Curve.Plies.Lengths[i]), b.faults.In.Length(b.Bend.Trim)))
}

// overSize returns what is cut of a ply of a net length: straight lines around
// its trimmed edges, from the left end of the lower one on.
func (b *builder) overSize(p *plate.Plate, net float64) arc.Path {
	low, high := 0.0, net // and what the bevels need beyond the curve's ends
	for _, q := range p.Sides {
		for _, path := range []arc.Path{q.Path, q.Back} {
			box := path.Bounds()
			low, high = math.Min(low, box.Min.Y), math.Max(high, box.Max.Y)
		}
	}
	trim, leftTrim, least := b.Bend.Trim, b.Bend.Trim, 0.0
	if b.Plumb() { // all as wide as the show face, so that they line up
		least = b.frontWidth() / 2
	} else if q := &p.Sides[3]; q.Bevel == 0 && q.Path.V[0].P.X > 0 { // the shoulder of a rabbet
		leftTrim, q.Saw = 0, false
	}
	low, high = low-trim, high+trim
	r0, r1 := p.Sides[1].Cover(low, high, 1, least, trim)
	l0, l1 := p.Sides[3].Cover(low, high, -1, least, leftTrim)
	return arc.Polygon(r2.Vec{X: l0, Y: low}, r2.Vec{X: r0, Y: low}, r2.Vec{X: r1, Y: high}, r2.Vec{X: l1, Y: high})
}

// plyMarks adds the lines across a ply by which it is stacked, and where its
// curve ends.
func plyMarks(p *plate.Plate, s curve.Section, i int, mid, middle float64) {
	v := p.Blank.V
	low, high := v[0].P, v[2].P
	across := func(y float64) (left, right r2.Vec) {
		f := (y - low.Y) / (high.Y - low.Y)
		return r2.Add(r2.Scale(1-f, v[0].P), r2.Scale(f, v[3].P)), r2.Add(r2.Scale(1-f, v[1].P), r2.Scale(f, v[2].P))
	}
	y := s.Along(s.Curve.ShowLength/2, mid)
	left, right := across(y)
	p.Marks = append(p.Marks,
		part.Mark{Name: lineUp, Path: arc.Polyline(left, r2.Vec{X: middle, Y: y}, right)},
		part.Mark{Name: "middle", Path: arc.Polyline(r2.Vec{X: middle, Y: y - 20}, r2.Vec{X: middle, Y: y + 20})})
	for _, end := range []struct {
		name string
		y    float64
	}{{"lower end of the curve", 0}, {"upper end of the curve", s.Curve.Plies.Lengths[i]}} {
		if end.y > low.Y+rounding && end.y < high.Y-rounding {
			left, right := across(end.y)
			p.Marks = append(p.Marks, part.Mark{Name: end.name, Path: arc.Polyline(left, right)})
		}
	}
}

// stretches returns how a ply bends whose middle is at a depth.
func stretches(s curve.Section, mid float64) []part.Stretch {
	var out []part.Stretch
	at := 0.0
	for i := range s.Sweep.NumSegments() {
		seg := s.Sweep.Segment(i)
		l := seg.Length() * curve.Stretched(seg, mid)
		if seg.K != 0 {
			out = append(out, part.Stretch{From: at, To: at + l, Turn: seg.Angle()})
		}
		at += l
	}
	return out
}
