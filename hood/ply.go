package hood

import (
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
	"example.com/sagitta/internal/num"
	"example.com/sagitta/sheet"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Plies tells how a panel is laminated, or bent as it is in one sheet; the zero
// Plies is neither.
type Plies struct {
	Count      int
	Thickness  float64   // of one, mm
	Strain     float64   // at the faces of the one bent most: on the form, or as it is
	Use        float64   // of what the material stands, at the tightest place; 1 is all of it
	FormRadius float64   // of the form's face inside the bend, at the tightest place, before springback, mm; 0 without a form
	Lengths    []float64 // net, along the middle of each, from the show face in, mm
}

// roll works out the plies of a section, or its one sheet.
func (b *builder) roll(path string, s *section, w Sweep) {
	s.plies = 1
	if b.way(w) == laminate {
		s.plies = b.plies()
	}
	ply := b.t / float64(s.plies)
	limit, err := b.stands(b.way(w), ply)
	if err != nil {
		b.faults.add("bend.strain", b.Bend.Strain, "", "a limit for this material: "+err.Error(), ErrBend)
		return
	}
	c := &s.curve
	c.Plies = s.pliesOver(0, s.sweep.NumSegments(), b.t, limit)
	c.FlatLength = c.Plies.Lengths[0]
	for i := range c.Arcs {
		a := &c.Arcs[i]
		a.Plies = s.pliesOver(i, i+1, b.t, limit)
		a.FlatLength = a.Plies.Lengths[0]
	}
	if c.Plies.Use <= 1 {
		return
	}
	if s.plies == 1 {
		b.faults.add(path+"."+w.size(), w.Sag, "mm", fmt.Sprintf(
			"an inside radius of at least %.6g mm for %.6g mm bent as it is (%s), a thinner board or another method", limit.least(ply), ply, limit.source), ErrBend)
		return
	}
	b.faults.add("bend.ply.thickness", ply, "mm", b.thinner(*s, w), ErrBend)
}

// thinner says which plies would take a curve.
func (b *builder) thinner(s section, w Sweep) string {
	for s.plies++; s.plies <= maxPlies; s.plies++ {
		ply := b.t / float64(s.plies)
		limit, err := b.stands(laminate, ply)
		if err == nil && s.pliesOver(0, s.sweep.NumSegments(), b.t, limit).Use <= 1 {
			return fmt.Sprintf("%.6g mm or less for this curve on its form (%s)", ply, limit.source)
		}
	}
	return "a wider curve, which no ply is thin enough for"
}

// pliesOver returns the plies of some segments of a section of thickness t.
func (s section) pliesOver(from, to int, t float64, limit stand) Plies {
	n := s.plies
	p := Plies{Count: n, Thickness: t / float64(n), Lengths: make([]float64, n)}
	for i := from; i < to; i++ {
		seg := s.sweep.Segment(i)
		for k := range p.Lengths {
			p.Lengths[k] += seg.Length() * stretched(seg, s.depth(t, float64(k)+0.5))
		}
		if seg.Turn == 0 {
			continue
		}
		inside := seg.Radius()
		if seg.Turn > 0 {
			inside -= t
		}
		if n > 1 {
			middle, err := bend.FormRadius(inside+t/2, n)
			if inside = middle - t/2; err != nil {
				inside = 0
			}
			if p.FormRadius == 0 || inside < p.FormRadius {
				p.FormRadius = inside
			}
		}
		if use := limit.use(p.Thickness, inside); use > p.Use {
			p.Use = use
			p.Strain = p.Thickness / (2*inside + p.Thickness)
		}
	}
	return p
}

// depth returns the depth of a number of plies.
func (s section) depth(t, plies float64) float64 { return t * plies / float64(s.plies) }

// stretched returns how long a parallel at a depth is beside its segment.
func stretched(s arc.Segment, depth float64) float64 {
	if s.Turn == 0 {
		return 1
	}
	return 1 - math.Copysign(depth, s.Turn)/s.Radius()
}

// along returns how far up a parallel at a depth lies what stands square to the
// show face u up from the sweep's lower end. Beyond its ends a panel runs on
// straight.
func (s section) along(u, depth float64) float64 {
	if u <= 0 {
		return u
	}
	at := 0.0
	for i := range s.sweep.NumSegments() {
		seg := s.sweep.Segment(i)
		l, f := seg.Length(), stretched(seg, depth)
		if u <= l {
			return at + u*f
		}
		u, at = u-l, at+l*f
	}
	return at + u
}

// cutBack returns how far from an end of the sweep, measured on the show face,
// a plane through the end's show edge, off square by a bevel, meets the
// parallel at a depth. Below 0 that is beyond the end, where the panel is
// straight.
//
// On an arc of radius R, with s = ±1 where the show face is convex or concave,
// the plane is met l along it where l² − 2slR·cos β + 2sRd − d² = 0.
func (s section) cutBack(top bool, depth float64) (float64, bool) {
	path, bevel := s.sweep, float64(s.lower)
	if top {
		path, bevel = path.Reverse(), float64(s.upper)
	}
	seg := path.Segment(0)
	if bevel <= 0 || seg.Turn == 0 && depth*math.Tan(bevel) <= seg.Length() {
		return depth * math.Tan(bevel), true
	}
	sense := math.Copysign(1, s.sweep.Segment(0).Turn)
	if top {
		sense = math.Copysign(1, s.sweep.Segment(s.sweep.NumSegments()-1).Turn)
	}
	r, cos := seg.Radius(), math.Cos(bevel)
	if seg.Turn != 0 {
		l := (2*r*depth - sense*depth*depth) / (r*cos + math.Sqrt(r*r*cos*cos-sense*2*r*depth+depth*depth))
		u := r * math.Asin(l*math.Sin(bevel)/(r-sense*depth))
		if u <= seg.Length() {
			return u, true
		}
	}
	return s.meetBevel(path, top, bevel, depth)
}

// meetBevel is cutBack beyond the first segment.
func (s section) meetBevel(path arc.Path, top bool, bevel, depth float64) (float64, bool) {
	if top {
		depth = -depth // the board is on the right of the reversed path
	}
	side := math.Copysign(1, depth)
	in, _ := endNormals(path.Segment(0))
	tangent := r2.Vec{X: in.Y, Y: -in.X}
	in = r2.Scale(side, in)
	sin, cos := math.Sincos(bevel)
	plane := halfPlane{path.V[0].P, r2.Sub(r2.Scale(cos, tangent), r2.Scale(sin, in))}
	u, err := num.Root(func(u float64) float64 {
		at := 0.0
		for i := range path.NumSegments() {
			seg := path.Segment(i)
			l := seg.Length()
			if u <= at+l || i == path.NumSegments()-1 {
				q, t := seg.At(u - at)
				return plane.over(r2.Add(q, r2.Scale(depth, r2.Vec{X: -t.Y, Y: t.X})))
			}
			at += l
		}
		return math.NaN()
	}, 0, s.curve.ShowLength/2, 1e-12)
	return u, err == nil
}

// A span is the stretch of a face, or of a parallel, between the ends of the
// trimmed panel.
type span struct{ low, high float64 }

// faceSpan returns where the face at a depth ends, on a ply whose middle is at
// another.
func (s section) faceSpan(depth, mid float64) (span, bool) {
	low, ok1 := s.cutBack(false, depth)
	high, ok2 := s.cutBack(true, depth)
	p := span{s.along(low, mid), s.along(s.curve.ShowLength-high, mid)}
	return p, ok1 && ok2 && p.low < p.high
}

// lineUp names the mark by which plies are stacked.
const lineUp = "line up plies and form here"

// rolled draws the plies of a section, or its one sheet, from the show face in.
// Left and right give the edges of each, outward.
func (b *builder) rolled(name string, s section, left, right plyEdge, pose Pose) []plate {
	out := make([]plate, 0, s.plies)
	n, middle := s.plies, 0.0
	for i := range n {
		d := [2]float64{s.depth(b.t, float64(i)), s.depth(b.t, float64(i+1))}
		mid := (d[0] + d[1]) / 2
		show, ok1 := s.faceSpan(d[0], mid)
		back, ok2 := s.faceSpan(d[1], mid)
		faces := [2]span{show, back}
		l, ok3 := left(d, mid, faces)
		r, ok4 := right(d, mid, faces)
		if !ok1 || !ok2 || !ok3 || !ok4 {
			b.faults.add("bend.ply.thickness", b.t/float64(n), "mm", "a panel longer than the bevels at its ends", ErrPlace)
			return nil
		}
		p := b.blank(plyName(name, i, n), s, l, r)
		p.material, p.density = b.plyMaterial()
		p.thickness = b.t / float64(n)
		if plywood(p.material) { // it bends across its face grain
			p.grain = sheet.Along
		}
		p.bent = s.stretches(mid)
		p.pose = pose
		p.pose.At = r3.Add(pose.At, r3.Scale(d[0], pose.In))
		if n == 1 {
			for j, level := range [2]int{0, 2} { // cut while flat
				run := [2]float64{back.low - show.low, show.high - back.high}[j]
				p.sides[level].bevel = slope(run, b.t)
			}
		} else {
			if i == 0 {
				middle = p.middleAt(s.along(s.curve.ShowLength/2, mid))
			}
			b.asPly(&p, s, i, middle)
		}
		out = append(out, p)
	}
	return out
}

// plyName names a ply of a panel.
func plyName(panel string, i, n int) string {
	if n == 1 {
		return panel
	}
	return fmt.Sprintf("%s-ply-%d", panel, i+1)
}

// stretches returns how a ply bends whose middle is at a depth.
func (s section) stretches(mid float64) []Stretch {
	var out []Stretch
	at := 0.0
	for i := range s.sweep.NumSegments() {
		seg := s.sweep.Segment(i)
		l := seg.Length() * stretched(seg, mid)
		if seg.Turn != 0 {
			out = append(out, Stretch{at, at + l, seg.Angle()})
		}
		at += l
	}
	return out
}

// middleAt returns the middle between the left and the right edge at a height.
func (p plate) middleAt(y float64) float64 {
	return (outAtAny(p.sides[1].path, y) + outAtAny(p.sides[3].path, y)) / 2
}

// asPly gives a ply its blank, larger than the trimmed panel, and the lines to
// stack and trim it by. Middle is where all plies of a panel are lined up
// across.
func (b *builder) asPly(p *plate, s section, i int, middle float64) {
	trim := b.Bend.Trim
	mid := s.depth(b.t, float64(i)+0.5)
	net := s.curve.Plies.Lengths[i]
	low, high := 0.0, net // and what the bevels need beyond the curve's ends
	for j := range p.sides {
		q := &p.sides[j]
		q.saw = q.saw || q.bevel != 0 || trim > 0
		for _, path := range []arc.Path{q.path, q.back} {
			box := path.Bounds()
			low, high = math.Min(low, box.Min.Y), math.Max(high, box.Max.Y)
		}
	}
	low, high = low-trim, high+trim
	least := 0.0
	if b.plumb() { // all as wide as the show face, so that they line up
		least = b.frontWidth() / 2
	}
	leftTrim := trim
	if inset := p.sides[3].path.V[0].P.X; !b.plumb() && p.sides[3].bevel == 0 && inset > 0 { // the shoulder of a rabbet
		leftTrim, p.sides[3].saw = 0, false
	}
	r0, r1 := p.sides[1].cover(low, high, 1, least, trim)
	l0, l1 := p.sides[3].cover(low, high, -1, least, leftTrim)
	p.blank = arc.Polygon(r2.Vec{X: l0, Y: low}, r2.Vec{X: r0, Y: low}, r2.Vec{X: r1, Y: high}, r2.Vec{X: l1, Y: high})
	across := func(y float64) (left, right r2.Vec) {
		f := (y - low) / (high - low)
		return r2.Vec{X: l0 + f*(l1-l0), Y: y}, r2.Vec{X: r0 + f*(r1-r0), Y: y}
	}
	y := s.along(s.curve.ShowLength/2, mid)
	left, right := across(y)
	at := r2.Vec{X: middle, Y: y}
	p.marks = append(p.marks,
		Mark{lineUp, arc.Polyline(left, at, right)},
		Mark{"middle", arc.Polyline(r2.Vec{X: middle, Y: y - 20}, r2.Vec{X: middle, Y: y + 20})})
	for _, end := range []struct {
		name string
		y    float64
	}{{"lower end of the curve", 0}, {"upper end of the curve", net}} {
		if end.y > low+rounding && end.y < high-rounding {
			left, right := across(end.y)
			p.marks = append(p.marks, Mark{end.name, arc.Polyline(left, right)})
		}
	}
	p.label = fmt.Sprintf("%s of %d", p.name, s.plies)
	switch i {
	case 0:
		p.label += ", show face"
		p.marks = append(p.marks, Mark{"trim here on the show face", p.trimLine(func(q side) arc.Path { return q.path })})
	case s.plies - 1:
		p.label += ", on the form"
		p.marks = append(p.marks, Mark{"trim here on the back", p.trimLine(func(q side) arc.Path { return q.back })})
	}
	p.notes = append(p.notes, b.plyNotes(*p, s, i)...)
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
			out.V[i].Turn = (out.V[i].Turn + v.Turn) / 2
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
				bulge = math.Abs(seg.Turn) * seg.Chord() / 2
			}
			for _, q := range [2]r2.Vec{v.P, path.V[min(i+1, len(path.V)-1)].P} {
				most = math.Max(most, out*(q.X-slope*q.Y)+bulge*steep)
			}
		}
	}
	most += trim * steep
	return out*most + slope*low, out*most + slope*high
}

// plyNotes tells what has to be known of a ply at the bench.
func (b *builder) plyNotes(p plate, s section, i int) []string {
	unit := arc.Millimeters
	if b.Units == "in" {
		unit = arc.Inches
	}
	length := func(mm float64) string { return arc.FormatLength(mm, unit) }
	return []string{
		fmt.Sprintf("net length %s along its middle, from end to end of the curve; cut %s over on every side", length(s.curve.Plies.Lengths[i]), length(b.Bend.Trim)),
	}
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
