package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A way is a closed track of the axis along a loop, with the middles of its
// tabs.
type way struct {
	t    track
	tabs []float64
}

// ways returns the ways around a loop of an outline on its waste side.
func (p *planner) ways(q *piece, what string, loop arc.Path) ([]way, error) {
	found, err := loop.Offset(p.mill.Diameter/2, arc.OffsetOptions{})
	if err != nil {
		return nil, p.fault(q, what, p.mill.Diameter, "mm", "a cutter that gets round it: "+err.Error(), ErrNoWay)
	}
	if len(found) == 0 {
		return nil, p.fault(q, what, p.mill.Diameter, "mm", "a cutter narrower than it", ErrNoWay)
	}
	short, frees := p.short(loop), p.frees(loop)
	var out []way
	for _, l := range found {
		if p.opt.Climb {
			l = l.Reverse()
		}
		t := newTrack(l)
		t = t.from(t.longest())
		v := way{t: t}
		if frees {
			v.tabs = p.tabs(q, t, short)
		}
		out = append(out, v)
	}
	return out, nil
}

// fewTabs is how long the edge of an opening may be that needs no two tabs, in
// widths of a tab and the cutter together.
const fewTabs = 24

// short reports whether a loop is that of a small opening.
func (p *planner) short(loop arc.Path) bool {
	return loop.Area() < 0 && loop.Length() <= fewTabs*(p.opt.TabWidth+p.mill.Diameter)
}

// loose reports whether the waste of a small opening would come loose, for want
// of a straight edge as long as a tab.
func (p *planner) loose(loop arc.Path, ways []way) bool {
	if p.opt.Hold != ByTabs || !p.short(loop) || !p.frees(loop) {
		return false
	}
	for _, w := range ways {
		if len(w.tabs) == 0 {
			return true
		}
	}
	return false
}

// frees reports whether what is cut inside of a loop leaves a piece. In a small
// opening no wider than two cutters it does not.
func (p *planner) frees(loop arc.Path) bool {
	if !p.short(loop) {
		return true
	}
	left, err := loop.Offset(p.mill.Diameter, arc.OffsetOptions{})
	return err != nil || len(left) > 0
}

// profile cuts along the ways of a loop, through the sheet.
func (p *planner) profile(q *piece, k Kind, loop arc.Path, ways []way) {
	p.corners(q, k, loop, p.mill.Diameter/2)
	for _, v := range ways {
		w := p.pen(p.mill)
		w.tool.Feed *= Slowing(p.mill.Diameter, p.top)
		w.rounds(v.t, p.top, p.opt.floor(), v.tabs)
		p.keep(w, q, k, p.top-p.opt.floor(), len(v.tabs))
	}
}

// rounds cuts along a closed track from one height down to another. Each round enters by a
// ramp that begins where the last one began; the last ramp is gone over once
// more.
func (p *pen) rounds(t track, z, to float64, tabs []float64) {
	l := t.length()
	p.down(t.at(0), z)
	ramp := 0.0
	for _, next := range steps(z, to, p.tool.Step) {
		ramp = p.ramp(t, z, next, l/4)
		p.follow(t, p.overTabs(ramp, l, next, tabs))
		z = next
	}
	p.follow(t, []knot{{l, z}, {l + ramp, z}})
}

// tabRise is the slope of the sides of a tab.
const tabRise = 30 * arc.Degree

// overTabs returns the heights of a pass from a length to another that rises
// over the tabs.
func (p *pen) overTabs(from, to, z float64, tabs []float64) []knot {
	out := []knot{{from, z}}
	if rise := p.o.TabHeight - z; rise > 0 {
		flat := (p.o.TabWidth + p.tool.Diameter) / 2
		if p.tool.V() {
			// No wider than it is at the tab's height with its tip below it.
			flat = p.o.TabWidth/2 + math.Min(p.tool.Diameter/2, p.o.TabHeight*p.tool.slope())
		}
		slope := rise / math.Tan(float64(tabRise))
		for i, s := range tabs {
			half := math.Inf(1) // of the way from the last tab
			if i > 0 {
				half = (s - tabs[i-1]) / 2
			}
			switch {
			case half >= flat+slope:
				out = append(out, knot{s - flat - slope, z}, knot{s - flat, p.o.TabHeight})
			case half > flat:
				// Down to where the two slopes meet, and up again.
				out[len(out)-1] = knot{s - half, p.o.TabHeight - rise*(half-flat)/slope}
				out = append(out, knot{s - flat, p.o.TabHeight})
			default:
				out = out[:len(out)-2]
			}
			out = append(out, knot{s + flat, p.o.TabHeight}, knot{s + flat + slope, z})
		}
	}
	return append(out, knot{to, z})
}

// tabSpan returns half the length a tab takes on the way of the axis.
func (p *planner) tabSpan() float64 {
	return (p.opt.TabWidth+p.mill.Diameter)/2 + (p.opt.TabHeight+p.opt.Through)/math.Tan(float64(tabRise))
}

// tabs returns where along the way of the axis the middles of the tabs are:
// spread evenly over what is neither beveled nor near a corner, or over what
// is not beveled, or over all of it, the first of these that has room for two;
// and clear of the entry. In a small opening only the first will do.
func (p *planner) tabs(q *piece, t track, short bool) []float64 {
	if p.opt.Hold != ByTabs {
		return nil
	}
	l, half := t.length(), p.tabSpan()
	from, to := p.freeFrom(t)+half, l-half
	want := max(2, int(math.Ceil(l/p.opt.TabSpacing)))
	n := int(math.Min(5000, math.Max(0, (to-from)/2))) + 1
	var best []float64
	for most := range 3 {
		var room []float64
		for i := range n {
			if s := from + (to-from)*float64(i)/float64(n); to > from && p.tabCost(q, t, s) <= most && !p.atMouth(q, t.at(s)) {
				room = append(room, s)
			}
		}
		if best = spread(room, want, 2*half); len(best) >= 2 || short {
			break
		}
	}
	return best
}

// spread picks up to n of the places, evenly, no two nearer than apart.
func spread(places []float64, n int, apart float64) []float64 {
	var out []float64
	for i := range n {
		if len(places) == 0 {
			break
		}
		s := places[min(len(places)-1, int((float64(i)+0.5)/float64(n)*float64(len(places))))]
		if len(out) == 0 || s-out[len(out)-1] >= apart {
			out = append(out, s)
		}
	}
	return out
}

// freeFrom returns the length of the longest entry.
func (p *planner) freeFrom(t track) float64 {
	depth := p.top + p.opt.Through
	step := depth / math.Ceil(depth/p.mill.Step-1e-9)
	return p.pen(p.mill).rampLength(step, t.length()/4)
}

// tabCost is 2 where a tab would sit on a bevel, 1 where across a corner.
func (p *planner) tabCost(q *piece, t track, s float64) int {
	half := p.tabSpan()
	for _, at := range [3]float64{s - half, s, s + half} {
		if p.onBevel(q, t.at(at)) {
			return 2
		}
	}
	if t.find(s-half) != t.find(s+half) {
		return 1
	}
	return 0
}

// atMouth reports whether a tab would stand where a slot runs out of its part:
// it would hold the slot's walls, not the part.
func (p *planner) atMouth(q *piece, at r2.Vec) bool {
	for _, s := range q.work.Slots {
		u := r2.Sub(s.To, s.From)
		l := r2.Norm(u)
		v := r2.Sub(at, s.From)
		x, y := r2.Dot(v, u)/l, math.Abs(r2.Cross(u, v))/l
		if y < (s.Width+p.opt.TabWidth)/2 && x > -p.mill.Diameter && x < l+p.mill.Diameter {
			return true
		}
	}
	return false
}

// onBevel reports whether a point of the axis's way cuts along an edge that is
// beveled.
func (p *planner) onBevel(q *piece, at r2.Vec) bool {
	for i, b := range q.work.Bevels {
		if p.made(q.part)[i].cut() && b.Edge.Distance(at) < p.mill.Diameter/2+0.01 {
			return true
		}
	}
	return false
}

// corners lists the inside corners and arcs of a loop that a cutter of a
// radius does not reach into.
func (p *planner) corners(q *piece, k Kind, loop arc.Path, r float64) {
	for _, c := range insideCorners(loop, r) {
		if k == PocketCut && !q.outline.Contains(c.at) {
			continue // over waste
		}
		p.rest = append(p.rest, Rest{Placement: q.at, Name: q.name, Kind: k, At: c.at, Left: c.left})
	}
}

// A tight is where a loop turns too sharply for the cutter on its right: in a
// corner, or along an arc.
type tight struct {
	at   r2.Vec
	left float64 // how far from it the cut stays
	span float64 // how far along the loop from it the cut may stay off
}

// leastLeft is the rest in a corner that is not worth telling, mm.
const leastLeft = 0.01

// insideCorners returns where a loop turns right more sharply than a circle of
// radius r on its right can follow.
func insideCorners(loop arc.Path, r float64) []tight {
	var out []tight
	n := loop.NumSegments()
	for i := range n {
		s := loop.Segment(i)
		if s.Chord() == 0 {
			continue
		}
		if rad := s.Radius(); s.K < 0 && rad < r {
			// The circle touches the mouth of the arc at best.
			half := math.Min(math.Pi/2, math.Abs(float64(s.Angle()))/2)
			if left := (r - rad) * (1/math.Cos(math.Min(half, 1.4)) - 1); left > leastLeft {
				out = append(out, tight{s.Mid(), left, s.Length()/2 + r})
			}
		}
		turn := cornerTurn(loop, i)
		if turn >= -1e-6 {
			continue
		}
		half := -turn / 2
		if left := r * (1/math.Cos(math.Min(half, 1.55)) - 1); left > leastLeft {
			out = append(out, tight{s.B, left, r * math.Tan(math.Min(half, 1.55))})
		}
	}
	return out
}

// cornerTurn returns by how much a closed path turns left between segment i and
// the next.
func cornerTurn(loop arc.Path, i int) float64 {
	n := loop.NumSegments()
	s := loop.Segment(i)
	next := loop.Segment((i + 1) % n)
	for j := 2; next.Chord() == 0 && j < n; j++ {
		next = loop.Segment((i + j) % n)
	}
	_, u := s.At(s.Length())
	_, v := next.At(0)
	return math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
}
