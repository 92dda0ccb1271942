package cut

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/exact"
	"gonum.org/v1/gonum/spatial/r2"
)

// A surface is what a part is to look like from above: how deep a point may be
// cut and how deep it has to be. Both are lenient by side, the allowance
// sideways: near the edge of a feature the lower of what may be and the
// higher of what has to be is taken.
type surface struct {
	top, through float64
	side, margin float64
	loops        []loop
	slots        []slotFloor
	pockets      []pocketFloor
	bevels       []slope
}

type loop struct {
	seg []arc.Segment
	box []r2.Box
}

func newLoop(p arc.Path) loop {
	var l loop
	for i := range p.NumSegments() {
		if s := p.Segment(i); s.Chord() > 0 {
			l.seg = append(l.seg, s)
			l.box = append(l.box, s.Bounds())
		}
	}
	return l
}

func loopsOf(r arc.Region) []loop {
	var out []loop
	for _, l := range r.Loops() {
		out = append(out, newLoop(l))
	}
	return out
}

// depth returns how far p is inside a region of loops, negative outside: the
// distance to the boundary, no farther than most.
func depth(loops []loop, p r2.Vec, most float64) float64 {
	in := false
	d := most
	for _, l := range loops {
		for i, s := range l.seg {
			b := l.box[i]
			if crosses(s, b, p) {
				in = !in
			}
			if p.X > b.Min.X-d && p.X < b.Max.X+d && p.Y > b.Min.Y-d && p.Y < b.Max.Y+d {
				d = math.Min(d, s.Distance(p))
			}
		}
	}
	if in {
		return d
	}
	return -d
}

// crosses reports whether a ray from p to the right crosses a segment an odd
// number of times. Its answer is of use away from the segment only.
func crosses(s arc.Segment, b r2.Box, p r2.Vec) bool {
	if p.Y < b.Min.Y || p.Y > b.Max.Y || p.X > b.Max.X {
		return false
	}
	// The chord, and then the piece between it and the arc. Both have to agree
	// on which side of the chord p is, or a point on the chord of two arcs would
	// be in both pieces or in neither.
	left := leftOf(s, p)
	odd := (s.A.Y > p.Y) != (s.B.Y > p.Y) && left == (s.B.Y > s.A.Y)
	if s.K != 0 && left == (s.K < 0) && (exact.ArcSide(s.A, s.B, s.K, p) < 0) == (s.K > 0) {
		odd = !odd
	}
	return odd
}

// leftOf reports whether p is to the left of a chord. A point on it counts as
// one beside it with more x, or where the chord is level, with more y.
func leftOf(s arc.Segment, p r2.Vec) bool {
	side := exact.Orient(s.A, s.B, p)
	switch {
	case side != 0:
		return side > 0
	case s.A.Y != s.B.Y:
		return s.B.Y < s.A.Y
	}
	return s.B.X > s.A.X
}

// A slotFloor is a slot in its own frame.
type slotFloor struct {
	from, u    r2.Vec
	l, half, z float64
	xlo, xhi   float64
	ylo, yhi   float64
}

// A pocketFloor is a pocket; in its corners that a round cutter does not
// reach, nothing is asked.
type pocketFloor struct {
	loops []loop
	tight []tight
	box   r2.Box
	z     float64
}

// A slope is one segment of a bevel that the program is to cut.
type slope struct {
	seg    arc.Segment
	box    r2.Box
	tan    float64
	width  float64 // at the top
	sin    float64
	bends  bool    // past its ends
	slack  float64 // upward: for the angle of a cutter, or the height of a step
	relief float64 // how far the ground of steps may lie below the face

	face           *ruling // of a bevel that changes, from and to being along its up; else nil
	stands, behind float64 // of steps, square to it
	at             int     // index of the bevel
	from, to       float64 // lengths between which it has to be cut

	stopA, stopB bool // it must not go on past that end
}

func newSurface(q *piece, o Options, top float64, made []Made) surface {
	s := surface{top: top, through: o.Through, side: 0.9 * o.Tolerance}
	s.loops = loopsOf(q.outline)
	for _, k := range q.work.Slots {
		u := r2.Sub(k.To, k.From)
		l := r2.Norm(u)
		f := slotFloor{from: k.From, u: r2.Scale(1/l, u), l: l, half: k.Width / 2, z: top - k.Depth}
		out := f.half + 1
		f.xlo, f.xhi = math.Min(k.From.X, k.To.X)-out, math.Max(k.From.X, k.To.X)+out
		f.ylo, f.yhi = math.Min(k.From.Y, k.To.Y)-out, math.Max(k.From.Y, k.To.Y)+out
		s.slots = append(s.slots, f)
	}
	mill, _ := o.mill()
	for _, k := range q.work.Pockets {
		f := pocketFloor{z: top - k.Depth, box: k.Area.Bounds()}
		for _, l := range k.Area.Loops() {
			f.loops = append(f.loops, newLoop(l))
			f.tight = append(f.tight, insideCorners(l.Reverse(), mill.Diameter/2)...)
		}
		s.pockets = append(s.pockets, f)
	}
	for i, b := range q.work.Bevels {
		if made[i].cut() {
			s.addBevel(q, i, b, o, made[i])
		}
	}
	return s
}

// addBevel adds the segments of a bevel. Near an end in an inside corner
// nothing is asked, as the cutter has to stay off the neighbor, nor near an inside
// corner of its own that a round cutter leaves round.
func (s *surface) addBevel(q *piece, at int, b Bevel, o Options, m Made) {
	sin, cos := math.Sincos(float64(b.Angle))
	g := slope{at: at, tan: sin / cos, sin: sin, width: s.top * sin / cos}
	short := 4 * g.width
	mill, _ := o.mill()
	if b.changes() {
		if face, ok := newRuling(b, s.top); ok {
			s.addRuled(g, face, b.Edge, m)
		}
		return
	}
	if m.Way == BySteps {
		g.slack, g.relief, g.bends, short = m.Stands/sin, m.Behind/sin, true, 0
	} else if tool, why := o.bevelTool(b, s.top); why == "" {
		g.slack = math.Abs(math.Tan(float64(tool.Angle/2))-g.tan) * s.top
	}
	n := b.Edge.NumSegments()
	for i := range n {
		f := g
		f.seg = b.Edge.Segment(i)
		f.box, f.to = f.seg.Bounds(), f.seg.Length()
		if i == 0 && !b.Edge.Closed {
			if turn, ok := turnAt(q.outline.Outer, f.seg.A); ok && turn < 1e-9 {
				f.stopA, f.from = true, math.Max(short, roundOff(mill, turn))
			}
		} else if m.Way == BySteps {
			f.from = leftRound(mill, cornerTurn(b.Edge, (i+n-1)%n))
		}
		if i == n-1 && !b.Edge.Closed {
			if turn, ok := turnAt(q.outline.Outer, f.seg.B); ok && turn < 1e-9 {
				f.stopB, f.to = true, f.to-math.Max(short, roundOff(mill, turn))
			}
		} else if m.Way == BySteps {
			f.to -= leftRound(mill, cornerTurn(b.Edge, i))
		}
		s.bevels = append(s.bevels, f)
	}
}

// addRuled adds a bevel that changes along its edge. Its slope is that of the
// place asked for.
func (s *surface) addRuled(g slope, face *ruling, edge arc.Path, m Made) {
	g.face, g.box, g.stands, g.behind = face, edge.Bounds(), m.Stands, m.Behind
	g.from, g.to = face.span()
	most := 0.0
	for _, v := range face.stations() {
		most = math.Max(most, face.tan(v))
	}
	g.width = s.top * most
	s.bevels = append(s.bevels, g)
}

// local returns the slope of a bevel at a point, how far inside the edge that
// is, and whether it is beside the edge rather than past an end.
func (f *slope) local(p r2.Vec, s *surface) (g slope, in float64, beside bool) {
	g = *f
	v := r2.Dot(p, f.face.up)
	x, k := f.face.along(f.face.show, v)
	in = (r2.Dot(p, f.face.rule) - x) / math.Hypot(1, k)
	g.tan = math.Max(1e-6, f.face.tan(v))
	g.sin = g.tan / math.Hypot(1, g.tan)
	g.width, g.slack, g.relief = s.top*g.tan, f.stands/g.sin, f.behind/g.sin
	return g, in, v >= f.from && v <= f.to
}

// leftRound returns how far from a corner between two segments of an edge a
// cutter may leave wood, where it is an inside one.
func leftRound(t Tool, turn float64) float64 {
	if turn > -1e-6 {
		return 0
	}
	return roundOff(t, turn)
}

// roundOff returns how far from an inside corner a cutter may leave wood: no
// less than its diameter.
func roundOff(t Tool, turn float64) float64 {
	return t.Diameter * math.Max(1, math.Tan(math.Min(-turn/2, 1.4)))
}

// turnAt returns by how much a loop turns left at p, where one of its segments
// ends: 0 or less in an inside corner, or where it runs straight on and a bevel
// may end.
func turnAt(loop arc.Path, p r2.Vec) (float64, bool) {
	for i := range loop.NumSegments() {
		if r2.Norm(r2.Sub(loop.Segment(i).B, p)) < 1e-6 {
			return cornerTurn(loop, i), true
		}
	}
	return 0, false
}

// A demand is what a surface asks of a point.
type demand struct {
	low, high float64 // the height may not be below, nor above
	feature   int32   // what asks for it
	sloped    bool    // on a bevel, or within the margin of one
}

// Features are numbered: the face, loops from 1, then slots, pockets and
// bevels, each in a range of its own.
const (
	faceOf   = 0
	loopOf   = 1
	slotOf   = 1 << 24
	pocketOf = 2 << 24
	bevelOf  = 3 << 24
)

// at returns the demand at a point that lies so deep inside the outline.
func (s *surface) at(p r2.Vec, inside float64) demand {
	d := demand{low: s.top, high: math.Inf(1)}
	if inside < s.side {
		d.low = -s.through
		if inside < 0 {
			return d
		}
	}
	s.addSlots(&d, p)
	for i := range s.pockets {
		s.pockets[i].add(&d, p, s.side, int32(pocketOf+i))
	}
	for i := range s.bevels {
		s.bevels[i].add(&d, p, s)
	}
	if inside < s.side {
		d.high = math.Inf(1)
	}
	return d
}

func (s *surface) addSlots(d *demand, p r2.Vec) {
	for i := range s.slots {
		f := &s.slots[i]
		if p.X < f.xlo || p.X > f.xhi || p.Y < f.ylo || p.Y > f.yhi {
			continue
		}
		v := r2.Sub(p, f.from)
		x, y := r2.Dot(v, f.u), math.Abs(r2.Cross(f.u, v))
		beyond := math.Max(-x, x-f.l)
		if y > f.half+s.side || beyond > 0 && math.Hypot(beyond, y) > f.half+s.side {
			continue
		}
		if f.z < d.low {
			d.low, d.feature = f.z, int32(slotOf+i)
		}
		if y < f.half-s.side && beyond < -s.side && f.z < d.high {
			d.high, d.feature = f.z, int32(slotOf+i)
		}
	}
}

func (f *pocketFloor) add(d *demand, p r2.Vec, side float64, feature int32) {
	if p.X < f.box.Min.X-side || p.X > f.box.Max.X+side || p.Y < f.box.Min.Y-side || p.Y > f.box.Max.Y+side {
		return
	}
	in := depth(f.loops, p, 1)
	if in < -side {
		return
	}
	if f.z < d.low {
		d.low, d.feature = f.z, feature
	}
	if in < side || f.z >= d.high || inTight(f.tight, p) {
		return
	}
	d.high, d.feature = f.z, feature
}

// inTight reports whether a point is in a corner that the cutter need not
// reach.
func inTight(t []tight, p r2.Vec) bool {
	for _, c := range t {
		if r2.Norm(r2.Sub(p, c.at)) < c.span+0.1 {
			return true
		}
	}
	return false
}

func (f *slope) add(d *demand, p r2.Vec, s *surface) {
	w := f.width + s.side
	if out := 4*w + s.margin; p.X < f.box.Min.X-out || p.X > f.box.Max.X+out || p.Y < f.box.Min.Y-out || p.Y > f.box.Max.Y+out {
		return
	}
	if f.face != nil {
		g, in, beside := f.local(p, s)
		if in >= 0 {
			d.sloped = d.sloped || in < f.width+s.side+s.margin
			g.ask(d, in, beside, s)
		}
		return
	}
	l, dist, in := foot(f.seg, p)
	square := dist <= math.Abs(in)+1e-9
	if !square {
		if f.stopA && l <= 0 || f.stopB && l > 0 {
			return
		}
		// Past other ends the bevel goes on, allowed but not asked: along the
		// tangent by a V cutter, in steps as the edge bends.
		e, u := f.seg.At(l)
		in = r2.Cross(u, r2.Sub(p, e))
		if f.bends {
			_, in = f.seg.Project(p)
		}
	} else if in < 0 {
		return
	}
	d.sloped = d.sloped || in < w+s.margin
	f.ask(d, in, square && l > f.from && l < f.to, s)
}

// ask adds what a bevel lets and asks be cut, so far inside its edge.
func (f *slope) ask(d *demand, in float64, asked bool, s *surface) {
	if in > f.width+s.side {
		return
	}
	z := math.Max(-s.through, (in-s.side)/f.tan)
	if f.relief > 0 && z > 0 {
		z = math.Max(0, z-f.relief) // behind the face, never past the show edge
	}
	if z < d.low {
		d.low, d.feature = z, int32(bevelOf+f.at)
	}
	if z := (in+s.side)/f.tan + f.slack; asked && z < s.top && z < d.high {
		d.high, d.feature = z, int32(bevelOf+f.at)
	}
}
