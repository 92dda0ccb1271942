package cut

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A stair is one pass over a beveled face: the way of the axis at a height.
type stair struct {
	z     float64
	t     track
	clear []track // ways that take off the waste beside it: from its end back to its start, where it is open
}

// A flight is what the passes over one face have in common. At height z over
// the show face the flank of the cutter stands z·tan(angle) inside the show
// edge, where the face is; each step leaves wood up to the height of the one
// above it, step·sin(angle) square to the face. The lowest step is the
// outline's own.
type flight struct {
	edge          arc.Path
	face          *ruling // where the bevel changes along it, else nil
	stations      []float64
	tan, cos, sin float64
	radius, tall  float64   // of the cutter, and how much it takes at once
	top, tab      float64   // of the sheet, and of the tabs
	step          float64   // height of one, as asked
	shift         float64   // of the steps, inward and level: relief less what is left to sand
	heights       []float64 // of the passes, from the top down
	before, after end
	overrun       float64
}

// Bounds of the passes over one face, and how thick a lip may be left at the show
// edge where the steps lie behind the face, mm: two such lips hold a miter open by
// less than two sheets of paper.
const (
	maxStairs = 2000
	leastLip  = 0.1
)

// newFlight returns the flight of a bevel, or why there is none.
func (p *planner) newFlight(q *piece, b Bevel) (flight, string) {
	switch {
	case b.Angle < 0:
		return flight{}, "undercuts"
	case p.mill.reach() < p.top:
		return flight{}, "the end mill does not reach through the sheet"
	case p.mill.Step < p.opt.TabHeight:
		return flight{}, "the end mill takes less at once than a tab is high"
	}
	angle := float64(b.Angle)
	var face *ruling
	var at []float64
	if b.changes() {
		var why string
		if face, at, angle, why = ruled(b, p.top); why != "" {
			return flight{}, why
		}
	}
	sin, cos := math.Sincos(angle)
	f := flight{
		edge: b.Edge, face: face, stations: at, tan: sin / cos, cos: cos, sin: sin, radius: p.mill.Diameter / 2, tall: p.mill.Step,
		top: p.top, tab: p.opt.TabHeight, shift: (p.opt.Relief - p.opt.Sanding) / cos, overrun: p.opt.Overrun,
	}
	n := math.Max(math.Max(2, math.Ceil(p.top/p.mill.Step-1e-9)), math.Ceil(p.top*sin/p.opt.Scallop-1e-9))
	if n > maxStairs {
		return flight{}, fmt.Sprintf("more than %d passes for steps so fine", maxStairs)
	}
	f.step = p.top / n
	for i := 1; i < int(n); i++ {
		f.heights = append(f.heights, p.top-f.step*float64(i))
	}
	for lip := f.step; p.opt.Relief > 0 && lip > leastLip; {
		lip /= 2
		f.heights = append(f.heights, lip)
	}
	if !b.Edge.Closed {
		f.before, f.after = q.endsOf(b.Edge)
	}
	return f, ""
}

// ruled returns the face of a bevel that changes, its stations and its largest
// bevel, or why it is none that steps make.
func ruled(b Bevel, thickness float64) (g *ruling, at []float64, most float64, why string) {
	g, ok := newRuling(b, thickness)
	if !ok {
		return nil, nil, 0, "its bevel changes along an edge that turns back"
	}
	at = g.stations()
	for _, v := range at {
		t := g.tan(v)
		if t*thickness < -leastBevel {
			return nil, nil, 0, "undercuts along some of it"
		}
		most = math.Max(most, math.Atan(t))
	}
	if most*thickness < leastBevel {
		return nil, nil, 0, "square"
	}
	return g, at, most, ""
}

// stairs returns the passes that make a face in steps, from the top down: one
// set, or two where the last is to take a light cut only. It says why it
// cannot.
func (p *planner) stairs(q *piece, b Bevel) (flight, []stair, string) {
	f, why := p.newFlight(q, b)
	if why != "" {
		return f, nil, why
	}
	out, ok := f.set(p.opt.Finish)
	if ok && p.opt.Finish > 0 {
		var last []stair
		last, ok = f.set(0)
		out = append(out, last...)
	}
	if !ok || len(out) == 0 {
		return f, nil, "its edge is too short or too round for the cutter"
	}
	return f, out, q.obstacle(&f, out)
}

// set returns one set of passes that leave so much more wood on the face. Where
// a pass would take more at once than the cutter may, what stands beside the
// one above is taken off first, never below the tabs.
func (f *flight) set(more float64) ([]stair, bool) {
	var out []stair
	high := f.top // of the waste beside the passes
	low := f.heights[len(f.heights)-1]
	for _, z := range f.heights {
		shift := f.shift - more/f.cos
		if z*f.tan+shift < joint {
			break // from here down the outline makes it
		}
		t, ok := f.way(z, shift)
		if !ok {
			return nil, false
		}
		if n := len(out); n > 0 {
			last := &out[n-1]
			if high-z > f.tall+1e-9 || last.z >= f.tab && z < f.tab && high-low > f.tall+1e-9 {
				if last.clear, ok = f.clearing(last); !ok {
					return nil, false
				}
				high = last.z
			}
		}
		out = append(out, stair{z: z, t: t})
	}
	return out, true
}

// lines returns the way of the flank at a height, shifted so far into the part,
// and that of the axis.
func (f *flight) lines(z, shift float64) (flank, axis arc.Path, ok bool) {
	if f.face != nil {
		flank, ok = f.face.line(f.stations, z, shift)
		if ok {
			axis, ok = f.face.line(f.stations, z, shift-f.radius)
		}
		return flank, axis, ok
	}
	in := z*f.tan + shift
	if axis, ok = shifted(f.edge, in-f.radius); ok && !f.edge.Closed {
		flank, ok = shifted(f.edge, in)
	}
	return flank, axis, ok
}

// way returns the way of the axis at a height, with the flank shifted so far into
// the part.
func (f *flight) way(z, shift float64) (track, bool) {
	flank, axis, ok := f.lines(z, shift)
	if !ok {
		return track{}, false
	}
	t := newTrack(axis)
	if f.edge.Closed {
		return t, len(t.seg) > 0
	}
	n := flank.NumSegments() - 1
	from := f.before.run(f, flank.Segment(0).Reverse(), axis.Segment(0))
	to := f.after.run(f, flank.Segment(n), axis.Segment(n))
	return t.between(-from, t.length()+to)
}

// clearing returns the ways over the waste that stands between a pass and the
// way of the outline. Of an open pass they lead around it, so that the ends are
// cleared too.
func (f *flight) clearing(s *stair) ([]track, bool) {
	n := max(1, int(math.Ceil((s.z*f.tan+f.shift)/(1.8*f.radius))))
	var lanes []track
	for i := range n {
		share := float64(i) / float64(n)
		t, ok := f.way(s.z*share, f.shift*share)
		if !ok {
			return nil, false
		}
		lanes = append(lanes, t)
	}
	if f.edge.Closed {
		return lanes, true
	}
	line := func(a, b r2.Vec) track { return trackOf([]arc.Segment{{A: a, B: b}}) }
	a, far := s.t.at(0), lanes[0]
	out := []track{line(s.t.at(s.t.length()), far.at(far.length())), far.reversed(), line(far.at(0), a)}
	for _, t := range lanes[1:] {
		out = append(out, line(a, t.at(0)), t, t.reversed(), line(t.at(0), a))
	}
	return out, true
}

// between returns the open track from one length to another, run on as it
// bends past its ends where they are beyond.
func (t track) between(from, to float64) (track, bool) {
	l, n := t.length(), len(t.seg)
	if n == 0 || to-from < 1 || from > l-joint || to < joint {
		return t, false
	}
	var seg []arc.Segment
	for i, s := range t.seg {
		a, b := math.Max(from, t.start(i)), math.Min(to, t.end[i])
		if i == 0 {
			a = from
		}
		if i == n-1 {
			b = to
		}
		if b-a > joint {
			seg = append(seg, s.Part(a-t.start(i), b-t.start(i)))
		}
	}
	return trackOf(seg), len(seg) > 0
}
