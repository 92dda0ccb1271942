package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// bevel cuts a bevel the way that is chosen for it, or lists it for the saw.
func (p *planner) bevel(q *piece, at int, b Bevel, outline []way) {
	m := p.made(q.part)[at]
	if m.cut() {
		p.bevels = append(p.bevels, Beveled{q.at, q.name, b.side(at), b.Angle, m})
	}
	switch m.Way {
	case ByV:
		p.veed(q, b, outline)
	case BySteps:
		p.stepped(q, b, outline)
	case BySaw:
		p.saw = append(p.saw, Saw{Placement: q.at, Name: q.name, Side: b.side(at), Edge: b.Edge, Angle: b.Angle, Why: m.Why})
	}
}

// veed cuts the face of a bevel with its V cutter. With the tip at height z
// over the show face its flank lies in the bevel where the tip follows the show
// edge shifted inward by z·tan(angle): pass by pass the tip goes down and
// outward, to end on the show edge.
//
// Where tabs have to sit on the bevel, as all of an outline is beveled, the tip
// rises over them.
func (p *planner) veed(q *piece, b Bevel, outline []way) {
	tool, heights, tracks, _ := p.flanks(q, b)
	w := p.pen(tool)
	w.over = p.onEdge(b.Edge, outline)
	if b.Edge.Closed {
		w.sinkRounds(tracks, heights)
	} else {
		w.sink(tracks, heights)
	}
	p.keep(w, q, BevelCut, p.top, len(w.over))
}

// side names the edge of bevel i.
func (b Bevel) side(i int) string {
	if b.Name != "" {
		return b.Name
	}
	return fmt.Sprintf("bevel %d", i+1)
}

// flanks returns the V cutter of a bevel and the ways of its tip at each height,
// or why there are none.
func (p *planner) flanks(q *piece, b Bevel) (Tool, []float64, []track, string) {
	tool, why := p.opt.bevelTool(b, p.top)
	if why != "" {
		return Tool{}, nil, nil, why
	}
	heights := append([]float64{p.top}, steps(p.top, 0, tool.Step)...)
	tracks, why := p.bevelWays(q, b.Edge, heights, math.Tan(float64(b.Angle)))
	return tool, heights, tracks, why
}

// onEdge returns the middles of the tabs along an edge, on the axis's way
// around the outline.
func (p *planner) onEdge(edge arc.Path, outline []way) []r2.Vec {
	var out []r2.Vec
	half := (p.opt.TabWidth + p.mill.Diameter) / 2
	for _, v := range outline {
		for _, s := range v.tabs {
			for _, at := range [3]float64{s - half, s, s + half} {
				if edge.Distance(v.t.at(at)) < p.mill.Diameter/2+0.01 {
					out = append(out, v.t.at(s))
					break
				}
			}
		}
	}
	return out
}

// bevelWays returns the way of the tip at each height.
func (p *planner) bevelWays(q *piece, edge arc.Path, heights []float64, tan float64) ([]track, string) {
	var out []track
	for _, z := range heights {
		way, ok := shifted(edge, math.Max(0, z*tan))
		if !ok {
			return nil, "its edge is too short or too round for its width"
		}
		t := newTrack(way)
		if !edge.Closed {
			t, ok = p.ends(q, edge, t, tan, z)
			if !ok {
				return nil, "it ends in inside corners"
			}
		}
		out = append(out, t)
	}
	return out, ""
}

// shifted returns the path with every segment moved to the left by a distance,
// neighbors run on or trimmed to where they meet.
func shifted(p arc.Path, by float64) (arc.Path, bool) {
	out, err := p.Shift([]float64{by}, joint)
	return out, err == nil
}

func left(u r2.Vec) r2.Vec { return r2.Vec{X: -u.Y, Y: u.X} }

// ends lets the way of the tip run on past the ends of an edge, or stop short
// of them, so that the flank makes all of the bevel and nothing beyond.
func (p *planner) ends(q *piece, edge arc.Path, t track, tan, z float64) (track, bool) {
	n := len(t.seg)
	last := edge.Segment(edge.NumSegments() - 1)
	_, u0 := edge.Segment(0).At(0)
	_, u1 := last.At(last.Length())
	before, after := p.beside(q, last.B, u1, edge.V[0].P, u0)
	wide := (p.top - z) * tan
	from, to := 0.0, t.length()
	from -= p.runOn(before, wide, z*tan, p.top*tan)
	to += p.runOn(after, wide, z*tan, p.top*tan)
	if to-from < 1 {
		return t, false
	}
	// Lines run on straight; arcs too, along their tangent.
	if from > 0 || to < t.length() {
		t = cutTrack(t, math.Max(0, from), math.Min(t.length(), to))
		n = len(t.seg)
	}
	var seg []arc.Segment
	if from < 0 {
		_, u := t.seg[0].At(0)
		seg = append(seg, arc.Segment{A: r2.Add(t.seg[0].A, r2.Scale(from, u)), B: t.seg[0].A})
	}
	seg = append(seg, t.seg...)
	if more := to - edgeLength(t, from); more > joint {
		e := t.seg[n-1]
		_, u := e.At(e.Length())
		seg = append(seg, arc.Segment{A: e.B, B: r2.Add(e.B, r2.Scale(more, u))})
	}
	return trackOf(seg), true
}

// edgeLength returns how far along the untrimmed track the trimmed one ends.
func edgeLength(t track, from float64) float64 { return math.Max(0, from) + t.length() }

func trackOf(seg []arc.Segment) track {
	var t track
	sum := 0.0
	for _, s := range seg {
		sum += s.Length()
		t.seg = append(t.seg, s)
		t.end = append(t.end, sum)
	}
	return t
}

func cutTrack(t track, from, to float64) track { return trackOf(t.pieces(from, to)) }

// beside returns by how much the outline turns left at the start and at the
// end of an edge: the interior angle there is π less that.
func (p *planner) beside(q *piece, end, endTangent, start, startTangent r2.Vec) (before, after float64) {
	loop := q.outline.Outer
	for i := range loop.NumSegments() {
		s := loop.Segment(i)
		if s.Chord() == 0 {
			continue
		}
		if r2.Norm(r2.Sub(s.B, start)) < 1e-6 {
			_, u := s.At(s.Length())
			before = math.Atan2(r2.Cross(u, startTangent), r2.Dot(u, startTangent))
		}
		if r2.Norm(r2.Sub(s.A, end)) < 1e-6 {
			_, u := s.At(0)
			after = math.Atan2(r2.Cross(endTangent, u), r2.Dot(endTangent, u))
		}
	}
	return before, after
}

// runOn returns how far the tip runs on past an end at which the outline turns
// left by an angle; negative where it stops short. wide is the radius of the
// cutter at the sheet's top, in the shift of the tip, full that of the back
// edge.
//
// At an outside corner the neighbor cuts off the bevel; where that lies
// beyond the square end of the edge the flank follows, for as far as the
// bevel is wide. At an inside corner the cutter keeps its radius from the
// neighbor's wall.
func (p *planner) runOn(turn, wide, in, full float64) float64 {
	if turn > 1e-9 {
		return p.opt.Overrun + math.Max(0, math.Min(full, full/math.Tan(turn)))
	}
	back := wide
	if turn < -math.Pi/2 {
		x := -turn
		back = math.Max(back, (wide+in*math.Cos(x))/math.Sin(x))
	}
	return -back
}

// sink cuts along ways from one to the next lower, back and forth. While it
// goes down along a way the tip is higher than it will be there, and its flank
// off the bevel.
func (p *pen) sink(ways []track, heights []float64) {
	p.down(ways[0].at(0), p.top)
	for i := 1; i < len(ways); i++ {
		t, z, next := ways[i], heights[i-1], heights[i]
		if i%2 == 0 {
			t = t.reversed()
		}
		p.feed(t.at(0), 0, z)
		p.pass(t, z, next)
	}
}

// sinkRounds does so along closed ways.
func (p *pen) sinkRounds(ways []track, heights []float64) {
	last := ways[len(ways)-1]
	at := last.at(last.longest())
	ramp, end := 0.0, 0.0
	var t track
	for i := 1; i < len(ways); i++ {
		z, next := heights[i-1], heights[i]
		s, _ := ways[i].nearest(at)
		t = ways[i].from(s)
		if i == 1 {
			p.down(t.at(0), p.top)
		}
		p.feed(t.at(0), 0, z)
		end = t.length()
		ramp = p.ramp(t, z, next, end/4)
		p.follow(t, p.rise(t, ramp, end, next))
	}
	z := heights[len(heights)-1]
	p.follow(t, p.rise(t, 0, ramp, z))
}

// rise returns the heights from one length to another, over the tabs.
func (p *pen) rise(t track, from, to, z float64) []knot {
	if len(p.over) == 0 {
		return []knot{{from, z}, {to, z}}
	}
	var at []float64
	for _, o := range p.over {
		s, _ := t.nearest(o)
		at = append(at, s)
		if t.closed {
			at = append(at, s-t.length(), s+t.length())
		}
	}
	slices.Sort(at)
	return clip(p.overTabs(-t.length(), 2*t.length(), z, at), from, to)
}

// heightAt returns the height of a run of knots at a length.
func heightAt(k []knot, s float64) float64 {
	for i := 1; i < len(k); i++ {
		if a, b := k[i-1], k[i]; s <= b.s && b.s > a.s {
			return a.z + (b.z-a.z)*math.Max(0, s-a.s)/(b.s-a.s)
		}
	}
	return k[len(k)-1].z
}

// clip returns the knots between two lengths.
func clip(k []knot, from, to float64) []knot {
	out := []knot{{from, heightAt(k, from)}}
	for _, n := range k {
		if n.s > from+joint && n.s < to-joint {
			out = append(out, n)
		}
	}
	return append(out, knot{to, heightAt(k, to)})
}

// enter returns the heights of a ramp, over the tabs.
func (p *pen) enter(t track, ramp, z, next float64) []knot {
	k := []knot{{0, z}, {ramp, next}}
	if len(p.over) == 0 {
		return k
	}
	return higher(k, p.rise(t, 0, ramp, next))
}

// higher returns the higher of two runs of knots between the same lengths.
func higher(a, b []knot) []knot {
	all := append(slices.Clone(a), b...)
	slices.SortStableFunc(all, func(x, y knot) int { return cmp.Compare(x.s, y.s) })
	var out []knot
	for _, k := range all {
		s := k.s
		d := heightAt(a, s) - heightAt(b, s)
		if n := len(out); n > 0 {
			if last := out[n-1].s; s-last < joint {
				continue
			} else if before := heightAt(a, last) - heightAt(b, last); before*d < 0 {
				x := last + (s-last)*before/(before-d)
				out = append(out, knot{x, heightAt(a, x)})
			}
		}
		out = append(out, knot{s, math.Max(heightAt(a, s), heightAt(b, s))})
	}
	return out
}
