package hood

import (
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/proof"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/sheet"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// lineUp names the mark by which plies are stacked.
const lineUp = proof.LineUp

// rolled draws the plies of a section, or its one sheet, from the show face in.
// Left and right give the edges of each, outward.
func (b *builder) rolled(hand Hand, panel string, s curve.Section, left, right plyEdge, pose Pose) []plate {
	out := make([]plate, 0, s.Plies)
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
			b.faults.add("bend.ply.thickness", b.t/float64(s.Plies), "mm", "a panel longer than the bevels at its ends", ErrPlace)
			return nil
		}
		p := b.rolledPlate(hand, panel, s, l, r)
		p.bent, p.pose = stretches(s, mid), pose
		p.pose.At = r3.Add(pose.At, r3.Scale(d[0], pose.In))
		if i == 0 {
			middle = p.middleAt(s.Along(s.Curve.ShowLength/2, mid))
		}
		if s.Plies > 1 {
			b.asPly(&p, s, i, middle)
		} else { // cut while flat
			p.sides[0].bevel, p.sides[2].bevel = slope(back.Low-show.Low, b.t), slope(show.High-back.High, b.t)
		}
		out = append(out, p)
	}
	return out
}

// rolledPlate returns a ply, or the one sheet, of a section between two edges.
func (b *builder) rolledPlate(hand Hand, panel string, s curve.Section, left, right seamEdge) plate {
	p := b.blank(KindSweep, hand, panel, s, left, right)
	p.material, p.density = b.plyMaterial()
	p.thickness = b.t / float64(s.Plies)
	if plywood(p.material) { // it bends across its face grain
		p.grain = sheet.Along
	}
	return p
}

// asPly gives a ply its blank, larger than the trimmed panel, and the lines to
// stack and trim it by. Middle is where all plies of a panel are lined up
// across.
func (b *builder) asPly(p *plate, s curve.Section, i int, middle float64) {
	for j := range p.sides {
		q := &p.sides[j]
		q.saw = q.saw || q.bevel != 0 || b.Bend.Trim > 0
	}
	p.ply = i + 1
	p.blank = b.overSize(p, s.Curve.Plies.Lengths[i])
	p.plyMarks(s, i, s.Depth(b.t, float64(i)+0.5), middle)
	p.label = fmt.Sprintf(" of %d", s.Plies)
	switch i {
	case 0:
		p.label += ", show face"
		p.marks = append(p.marks, Mark{Name: "trim here on the show face", Path: p.trimLine(func(q side) arc.Path { return q.path })})
	case s.Plies - 1:
		p.label += ", on the form"
		p.marks = append(p.marks, Mark{Name: "trim here on the back", Path: p.trimLine(func(q side) arc.Path { return q.back })})
	}
	unit := arc.Millimeters
	if b.Units == "in" {
		unit = arc.Inches
	}
	p.notes = append(p.notes, fmt.Sprintf("net length %s along its middle, from end to end of the curve; cut %s over on every side",
		arc.FormatLength(s.Curve.Plies.Lengths[i], unit), arc.FormatLength(b.Bend.Trim, unit)))
}

// overSize returns what is cut of a ply of a net length: straight lines around
// its trimmed edges, from the left end of the lower one on.
func (b *builder) overSize(p *plate, net float64) arc.Path {
	low, high := 0.0, net // and what the bevels need beyond the curve's ends
	for _, q := range p.sides {
		for _, path := range []arc.Path{q.path, q.back} {
			box := path.Bounds()
			low, high = math.Min(low, box.Min.Y), math.Max(high, box.Max.Y)
		}
	}
	trim, leftTrim, least := b.Bend.Trim, b.Bend.Trim, 0.0
	if b.plumb() { // all as wide as the show face, so that they line up
		least = b.frontWidth() / 2
	} else if q := &p.sides[3]; q.bevel == 0 && q.path.V[0].P.X > 0 { // the shoulder of a rabbet
		leftTrim, q.saw = 0, false
	}
	low, high = low-trim, high+trim
	r0, r1 := p.sides[1].cover(low, high, 1, least, trim)
	l0, l1 := p.sides[3].cover(low, high, -1, least, leftTrim)
	return arc.Polygon(r2.Vec{X: l0, Y: low}, r2.Vec{X: r0, Y: low}, r2.Vec{X: r1, Y: high}, r2.Vec{X: l1, Y: high})
}

// plyMarks adds the lines across a ply by which it is stacked, and where its
// curve ends.
func (p *plate) plyMarks(s curve.Section, i int, mid, middle float64) {
	v := p.blank.V
	low, high := v[0].P, v[2].P
	across := func(y float64) (left, right r2.Vec) {
		f := (y - low.Y) / (high.Y - low.Y)
		return r2.Add(r2.Scale(1-f, v[0].P), r2.Scale(f, v[3].P)), r2.Add(r2.Scale(1-f, v[1].P), r2.Scale(f, v[2].P))
	}
	y := s.Along(s.Curve.ShowLength/2, mid)
	left, right := across(y)
	p.marks = append(p.marks,
		Mark{Name: lineUp, Path: arc.Polyline(left, r2.Vec{X: middle, Y: y}, right)},
		Mark{Name: "middle", Path: arc.Polyline(r2.Vec{X: middle, Y: y - 20}, r2.Vec{X: middle, Y: y + 20})})
	for _, end := range []struct {
		name string
		y    float64
	}{{"lower end of the curve", 0}, {"upper end of the curve", s.Curve.Plies.Lengths[i]}} {
		if end.y > low.Y+rounding && end.y < high.Y-rounding {
			left, right := across(end.y)
			p.marks = append(p.marks, Mark{Name: end.name, Path: arc.Polyline(left, right)})
		}
	}
}

// middleAt returns the middle between the left and the right edge at a height.
func (p plate) middleAt(y float64) float64 {
	return (rise.OutAt(p.sides[1].path, y) + rise.OutAt(p.sides[3].path, y)) / 2
}

// trimLine joins one face of all sides.
func (p plate) trimLine(of func(side) arc.Path) arc.Path {
	out := arc.Path{Closed: true}
	for _, q := range p.sides {
		path := of(q)
		out.V = append(out.V, path.V[:len(path.V)-1]...)
	}
	return out
}

// trimmedAreas returns the areas of a ply's faces, and half way between, after
// trimming.
func (p plate) trimmedAreas() (show, mid, back float64) {
	middle := func(q side) arc.Path {
		out := q.path.Clone()
		for i, v := range q.back.V {
			out.V[i].P = r2.Scale(0.5, r2.Add(out.V[i].P, v.P))
			out.V[i].K = (out.V[i].K + v.K) / 2
		}
		return out
	}
	show = p.trimLine(func(q side) arc.Path { return q.path }).Area()
	back = p.trimLine(func(q side) arc.Path { return q.back }).Area()
	for _, q := range p.sides {
		if len(q.path.V) != len(q.back.V) { // the fold is on one of the faces only
			return show, (show + back) / 2, back
		}
	}
	return show, p.trimLine(middle).Area(), back
}

// cover returns where a straight line stands, low and high, that runs as the
// side does, all of which and what is at least wanted lie within it by trim.
func (s side) cover(low, high, out, least, trim float64) (x0, x1 float64) {
	lowest, highest := s.path.V[0].P, s.path.V[len(s.path.V)-1].P
	if lowest.Y > highest.Y {
		lowest, highest = highest, lowest
	}
	slope := (highest.X - lowest.X) / (highest.Y - lowest.Y)
	most := math.Inf(-1) // outward of the line through x = 0 at y = 0
	if least > 0 {
		most = least
	}
	steep := math.Hypot(1, slope)
	for _, path := range []arc.Path{s.path, s.back} {
		for i, v := range path.V {
			bulge := 0.0
			if i < path.NumSegments() {
				seg := path.Segment(i)
				bulge = math.Abs(seg.K) * seg.Chord() / 2
			}
			for _, q := range [2]r2.Vec{v.P, path.V[min(i+1, len(path.V)-1)].P} {
				most = math.Max(most, out*(q.X-slope*q.Y)+bulge*steep)
			}
		}
	}
	most += trim * steep
	return out*most + slope*low, out*most + slope*high
}

// trimNote tells how the glued panel is trimmed.
func (p plate) trimNote() string {
	var cuts []string
	for _, q := range p.sides {
		if q.saw {
			cuts = append(cuts, fmt.Sprintf("%s %.2f°", q.name, q.bevel.Degrees()))
		}
	}
	if len(cuts) == 0 {
		return "nothing to trim after glue-up"
	}
	return "finish by saw after glue-up: " + strings.Join(cuts, ", ") + " off square"
}

// stretches returns how a ply bends whose middle is at a depth.
func stretches(s curve.Section, mid float64) []Stretch {
	var out []Stretch
	at := 0.0
	for i := range s.Sweep.NumSegments() {
		seg := s.Sweep.Segment(i)
		l := seg.Length() * curve.Stretched(seg, mid)
		if seg.K != 0 {
			out = append(out, Stretch{From: at, To: at + l, Turn: seg.Angle()})
		}
		at += l
	}
	return out
}
