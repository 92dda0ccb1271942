package cut

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// profile cuts along a loop of an outline on its waste side, through the
// sheet, with tabs.
func (p *planner) profile(q *piece, k Kind, what string, loop arc.Path) error {
	r := p.mill.Diameter / 2
	ways, err := loop.Offset(r, arc.OffsetOptions{})
	if err != nil {
		return p.fault(q, what, p.mill.Diameter, "mm", "a cutter that gets round it: "+err.Error(), ErrNoWay)
	}
	if len(ways) == 0 {
		return p.fault(q, what, p.mill.Diameter, "mm", "a cutter narrower than it", ErrNoWay)
	}
	p.corners(q, k, loop, r)
	for _, way := range ways {
		if p.opt.Climb {
			way = way.Reverse()
		}
		w := p.pen(p.mill)
		t := newTrack(way)
		t = t.from(t.longest())
		tabs := p.tabs(q, k, loop, t)
		w.rounds(t, -p.opt.Through, tabs)
		p.keep(w, q, k, p.top+p.opt.Through, len(tabs))
	}
	return nil
}

// rounds cuts along a closed track down to a height. Each round enters by a
// ramp that begins where the last one began; the last ramp is gone over once
// more.
func (p *pen) rounds(t track, to float64, tabs []float64) {
	l := t.length()
	z := p.top
	p.down(t.at(0), p.top)
	ramp := 0.0
	for _, next := range steps(p.top, to, p.tool.Step) {
		ramp = p.rampLength(z-next, l/4)
		p.follow(t, []knot{{0, z}, {ramp, next}})
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
		slope := rise / math.Tan(float64(tabRise))
		for _, s := range tabs {
			out = append(out, knot{s - flat - slope, z}, knot{s - flat, p.o.TabHeight}, knot{s + flat, p.o.TabHeight}, knot{s + flat + slope, z})
		}
	}
	return append(out, knot{to, z})
}

// tabSpan returns half the length a tab takes on the way of the axis.
func (p *planner) tabSpan() float64 {
	return (p.opt.TabWidth+p.mill.Diameter)/2 + (p.opt.TabHeight+p.opt.Through)/math.Tan(float64(tabRise))
}

// tabs returns where along the way of the axis the middles of the tabs are:
// evenly spread, moved off corners and bevels where there is room, and clear of
// the entry in the first quarter.
func (p *planner) tabs(q *piece, k Kind, loop arc.Path, t track) []float64 {
	if p.opt.NoTabs {
		return nil
	}
	l, half := t.length(), p.tabSpan()
	free := p.freeFrom(t)
	n := max(2, int(math.Ceil(l/p.opt.TabSpacing)))
	n = min(n, int((l-free)/(2*half)))
	var out []float64
	at := free
	for i := range n {
		// Each has its own share of the way, so that they cannot meet.
		share := (l - free) / float64(n)
		at = free + share*float64(i)
		if s, ok := p.tabAt(q, t, at+half, at+share-half); ok {
			out = append(out, s)
		}
	}
	return out
}

// freeFrom returns the length of the longest entry.
func (p *planner) freeFrom(t track) float64 {
	depth := p.top + p.opt.Through
	step := depth / math.Ceil(depth/p.mill.Step-1e-9)
	w := p.pen(p.mill)
	return w.rampLength(step, t.length()/4)
}

// tabAt returns the best place for a tab between two lengths, the nearest to
// their middle of those that are as good.
func (p *planner) tabAt(q *piece, t track, from, to float64) (float64, bool) {
	if to < from {
		return 0, false
	}
	const tries = 48
	best, score := (from+to)/2, math.Inf(1)
	for i := range 2*tries + 1 {
		f := float64(i-tries) / tries
		s := (from+to)/2 + f*(to-from)/2
		c := math.Abs(f) + p.tabCost(q, t, s)
		if c < score-1e-9 {
			best, score = s, c
		}
	}
	return best, true
}

// tabCost is higher where a tab would sit on a bevel, or across a corner.
func (p *planner) tabCost(q *piece, t track, s float64) float64 {
	half := (p.opt.TabWidth + p.mill.Diameter) / 2
	cost := 0.0
	if t.find(math.Mod(s-half, t.length())) != t.find(math.Mod(s+half, t.length())) {
		cost += 10
	}
	for _, at := range [3]float64{s - half, s, s + half} {
		if p.onBevel(q, t.at(at)) {
			cost += 100
		}
	}
	return cost
}

// onBevel reports whether a point of the axis's way cuts along an edge that a V
// cutter bevels.
func (p *planner) onBevel(q *piece, at r2.Vec) bool {
	for _, b := range q.work.Bevels {
		if _, why := p.opt.bevelTool(b, p.top); why == "" && distance(at, b.Edge) < p.mill.Diameter/2+0.01 {
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
		if rad := s.Radius(); s.Turn < 0 && rad < r {
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
