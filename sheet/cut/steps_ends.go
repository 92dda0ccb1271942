package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// An end is what lies beyond an end of a bevel.
type end struct {
	at    r2.Vec
	turn  float64     // by how much the outline turns left there: less than 0 in an inside corner
	next  arc.Segment // of the outline, leading on from the end
	found bool        // next
}

// endsOf returns the ends of an open run of a part's outline.
func (q *piece) endsOf(edge arc.Path) (before, after end) {
	first, last := edge.Segment(0), edge.Segment(edge.NumSegments()-1)
	_, u := first.At(0)
	_, v := last.At(last.Length())
	before, after = end{at: first.A}, end{at: last.B}
	loop := q.outline.Outer
	for i := range loop.NumSegments() {
		s := loop.Segment(i)
		if s.Chord() == 0 {
			continue
		}
		if r2.Norm(r2.Sub(s.B, first.A)) < 1e-6 {
			_, w := s.At(s.Length())
			before.turn, before.next, before.found = math.Atan2(r2.Cross(w, u), r2.Dot(w, u)), s.Reverse(), true
		}
		if r2.Norm(r2.Sub(s.A, last.B)) < 1e-6 {
			_, w := s.At(0)
			after.turn, after.next, after.found = math.Atan2(r2.Cross(v, w), r2.Dot(v, w)), s, true
		}
	}
	return before, after
}

// outside reports whether the outline turns away from the waste there.
func (e *end) outside() bool { return e.turn > 1e-9 }

// run returns how far the axis runs on past an end, given the last of the way
// of the flank and of the axis; negative where it stops short.
//
// At an outside corner the flank goes on, as it bends, to where it leaves the
// part through the neighbor. In an inside corner, or where the outline goes
// straight on, the cutter keeps off what stands there.
func (e *end) run(f *flight, flank, axis arc.Segment) float64 {
	in := r2.Norm(r2.Sub(flank.B, e.at))
	if !e.outside() {
		return -e.back(in, f.radius)
	}
	x := 0.0
	if f.face == nil {
		x = in / math.Tan(e.turn)
	}
	if e.found {
		if l, _, ok := arc.Meet(flank, e.next, joint); ok {
			x = (l - flank.Length()) * axis.Length() / flank.Length()
		}
	}
	return x + f.overrun
}

// back returns how far short of the end the axis of a cutter stops: it keeps
// its radius from the wood beyond the end, and from the neighbor's wall where
// that stands nearer.
func (e *end) back(in, radius float64) float64 {
	h := radius - in // of the axis, outside the edge
	b := radius
	if h > 0 {
		b = math.Sqrt(radius*radius - h*h)
	}
	sin, cos := math.Sincos(-e.turn)
	if sin < 1e-9 {
		return b
	}
	if w := (radius - h*cos) / sin; h*sin-w*cos > 0 {
		b = math.Max(b, w)
	}
	return b
}

// shortOf lists where the passes stop short of the face's ends, and the inside
// corners of the edge that the cutter leaves round.
func (f *flight) shortOf() []tight {
	var out []tight
	if !f.edge.Closed {
		for _, e := range [2]*end{&f.before, &f.after} {
			if !e.outside() {
				b := e.back(f.heights[0]*f.tan+f.shift, f.radius)
				out = append(out, tight{at: e.at, left: b})
			}
		}
	}
	n := f.edge.NumSegments()
	for i := range n {
		if !f.edge.Closed && i == n-1 {
			break
		}
		turn := cornerTurn(f.edge, i)
		if left := f.radius * (1/math.Cos(math.Min(-turn/2, 1.55)) - 1); turn < -1e-6 && left > leastLeft {
			out = append(out, tight{at: f.edge.Segment(i).B, left: left})
		}
	}
	return out
}

// bite is how far into a part beyond a face a cutter may be seen to reach
// before its way is refused, mm.
const bite = 0.02

// obstacle looks for wood that the cutter would take off the part beside the
// face, as in a notch narrower than it, and says so.
func (q *piece) obstacle(f *flight, passes []stair) string {
	var other []loop
	for _, l := range q.outline.Loops() {
		other = append(other, othersOf(newLoop(l), f.edge))
	}
	all := loopsOf(q.outline)
	for i := range passes {
		s := &passes[i]
		ways := s.clear
		if i == 0 || i == len(passes)/2 || i == len(passes)-1 {
			ways = append(ways[:len(ways):len(ways)], s.t)
		}
		own, in := newLoop(f.edge), math.Min(s.z*f.tan+f.shift, f.top*f.tan)
		if f.face != nil {
			flank, _, _ := f.lines(s.z, f.shift)
			own, in = newLoop(flank), 0
		}
		for _, t := range ways {
			if f.blocked(own, other, all, t, in) {
				return "the cutter has no room beside it"
			}
		}
	}
	return ""
}

// blocked reports whether a cutter on a way bites, at places 3 mm apart and at
// its end.
func (f *flight) blocked(own loop, other, all []loop, t track, in float64) bool {
	n := int(math.Min(5000, math.Ceil(t.length()/3)))
	for k := range n + 1 {
		at := t.at(t.length() * float64(k) / float64(max(1, n)) * (1 - 1e-12))
		if anyNear(other, at, f.radius) && f.bites(own, all, at, in) {
			return true
		}
	}
	return false
}

// othersOf returns the segments of a loop that are not of an edge.
func othersOf(l loop, edge arc.Path) loop {
	var out loop
	for i, s := range l.seg {
		if m, _ := s.At(s.Length() / 2); edge.Distance(m) > 1e-6 {
			out.seg, out.box = append(out.seg, s), append(out.box, l.box[i])
		}
	}
	return out
}

func anyNear(loops []loop, p r2.Vec, d float64) bool {
	for _, l := range loops {
		for i, s := range l.seg {
			b := l.box[i]
			if p.X > b.Min.X-d && p.X < b.Max.X+d && p.Y > b.Min.Y-d && p.Y < b.Max.Y+d && s.Distance(p) < d {
				return true
			}
		}
	}
	return false
}

// bites reports whether a cutter reaches into a part farther than a strip along
// the edge.
func (f *flight) bites(own loop, all []loop, at r2.Vec, in float64) bool {
	const around = 48
	for i := range around {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / around)
		p := r2.Add(at, r2.Scale(f.radius-bite, r2.Vec{X: cos, Y: sin}))
		if insetOf(own, p) > in+bite && depth(all, p, 1) > bite {
			return true
		}
	}
	return false
}

// insetOf returns how far inside an edge a point is, by the nearest of its
// segments run on straight.
func insetOf(edge loop, p r2.Vec) float64 {
	best, in := math.Inf(1), 0.0
	for _, s := range edge.seg {
		l, d, side := foot(s, p)
		if d >= best {
			continue
		}
		e, u := s.At(l)
		if best = d; d > math.Abs(side)+1e-9 {
			side = r2.Cross(u, r2.Sub(p, e))
		}
		in = side
	}
	return in
}
