package cut

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A ruling is a beveled face whose bevel changes along it: level lines square
// to across lead from the show edge to points of the back edge that lie as far
// along across, and the face goes up straight between the two.
type ruling struct {
	show, back []arc.Segment
	rule, up   r2.Vec // unit: along the lines into the part, and square to them as the edge runs
	thickness  float64
}

// newRuling returns the face of a bevel, or false where its edges do not go on
// throughout across the lines.
func newRuling(b Bevel, thickness float64) (*ruling, bool) {
	g := &ruling{rule: r2.Unit(b.Rule), thickness: thickness}
	run := r2.Sub(b.Edge.V[len(b.Edge.V)-1].P, b.Edge.V[0].P)
	if r2.Cross(run, g.rule) < 0 { // the part lies to the left of its edge
		g.rule = r2.Scale(-1, g.rule)
	}
	g.up = r2.Vec{X: g.rule.Y, Y: -g.rule.X}
	for _, e := range []struct {
		p   arc.Path
		out *[]arc.Segment
	}{{b.Edge, &g.show}, {b.Back, &g.back}} {
		for i := range e.p.NumSegments() {
			s := e.p.Segment(i)
			if s.Chord() == 0 {
				continue
			}
			u, v := s.Tangents()
			if r2.Dot(u, g.up) < steepest || r2.Dot(v, g.up) < steepest || r2.Dot(r2.Sub(s.B, s.A), g.up) <= 0 {
				return nil, false
			}
			*e.out = append(*e.out, s)
		}
	}
	return g, len(g.show) > 0 && len(g.back) > 0
}

// steepest is the least sine between an edge and the lines of its face.
const steepest = 0.05

// along returns how far along rule a run of segments stands at v along up, and
// how fast that grows; beyond its ends it runs on straight.
func (g *ruling) along(run []arc.Segment, v float64) (x, slope float64) {
	for i, s := range run {
		a, b := r2.Dot(s.A, g.up), r2.Dot(s.B, g.up)
		first, last := i == 0, i == len(run)-1
		switch {
		case first && v <= a:
			u, _ := s.Tangents()
			k := r2.Dot(u, g.rule) / r2.Dot(u, g.up)
			return r2.Dot(s.A, g.rule) + k*(v-a), k
		case v < b:
		case last:
			_, u := s.Tangents()
			k := r2.Dot(u, g.rule) / r2.Dot(u, g.up)
			return r2.Dot(s.B, g.rule) + k*(v-b), k
		default:
			continue
		}
		l := s.Length() * (v - a) / (b - a)
		for range 30 {
			p, u := s.At(l)
			d := (v - r2.Dot(p, g.up)) / r2.Dot(u, g.up)
			if l += d; math.Abs(d) < 1e-10 {
				break
			}
		}
		p, u := s.At(l)
		return r2.Dot(p, g.rule), r2.Dot(u, g.rule) / r2.Dot(u, g.up)
	}
	return math.NaN(), 0
}

// at returns the point of the face at v and a height, and the way of the face's
// level line there, run as the edge.
func (g *ruling) at(v, z float64) (p, u r2.Vec) {
	x0, k0 := g.along(g.show, v)
	x1, k1 := g.along(g.back, v)
	f := z / g.thickness
	p = r2.Add(r2.Scale(x0+f*(x1-x0), g.rule), r2.Scale(v, g.up))
	return p, r2.Unit(r2.Add(r2.Scale(k0+f*(k1-k0), g.rule), g.up))
}

// tan returns the tangent of the bevel at v, less than 0 where it undercuts.
func (g *ruling) tan(v float64) float64 {
	x0, k0 := g.along(g.show, v)
	x1, _ := g.along(g.back, v)
	return (x1 - x0) / math.Hypot(1, k0) / g.thickness
}

// span returns v at the start and at the end of the show edge.
func (g *ruling) span() (from, to float64) {
	return r2.Dot(g.show[0].A, g.up), r2.Dot(g.show[len(g.show)-1].B, g.up)
}

// maxSpan is how far apart the stations of a pass are at most, mm: an arc through
// its ends and its middle leaves the curve by less than a thousandth.
const maxSpan = 24.0

// stations returns values of v from the start of the show edge to its end: where
// either edge begins to bend otherwise, and between.
func (g *ruling) stations() []float64 {
	from, to := g.span()
	var at []float64
	for _, run := range [2][]arc.Segment{g.show, g.back} {
		for _, s := range run {
			at = append(at, r2.Dot(s.B, g.up))
		}
	}
	at = append(at, to)
	slices.Sort(at)
	out := []float64{from}
	for _, v := range at {
		last := out[len(out)-1]
		if v-last < 0.01 || v > to {
			continue
		}
		n := math.Ceil((v - last) / maxSpan)
		for i := 1.0; i <= n; i++ {
			out = append(out, last+(v-last)*i/n)
		}
	}
	out[len(out)-1] = to
	return out
}

// beside is how far inside its stretch the direction at a station is taken, mm,
// as an edge may turn there.
const beside = 1e-6

// line returns the face's level line at a height, shifted so far into the part,
// as arcs through points of it, or false where it is too round for the shift.
func (g *ruling) line(stations []float64, z, shift float64) (arc.Path, bool) {
	point := func(v, to float64) r2.Vec {
		p, _ := g.at(v, z)
		_, u := g.at(v+math.Copysign(math.Min(beside, math.Abs(to-v)/4), to-v), z)
		return r2.Add(p, r2.Scale(shift, left(u)))
	}
	var seg []arc.Segment
	for i := 1; i < len(stations); i++ {
		v, w := stations[i-1], stations[i]
		s, ok := through(point(v, w), point((v+w)/2, w), point(w, v))
		if !ok {
			return arc.Path{}, false
		}
		if len(seg) == 0 {
			seg = append(seg, s)
		} else if seg, ok = turnInto(seg, s); !ok {
			return arc.Path{}, false
		}
	}
	var out arc.Path
	for _, s := range seg {
		out.V = append(out.V, arc.Vertex{P: s.A, K: s.K})
	}
	out.V = append(out.V, arc.Vertex{P: seg[len(seg)-1].B})
	return out, true
}

// through returns the arc through three points, of less than half a circle on
// either side of the second.
func through(a, m, b r2.Vec) (arc.Segment, bool) {
	u, w := r2.Sub(m, a), r2.Sub(b, m)
	if r2.Dot(u, w) <= 0 {
		return arc.Segment{}, false
	}
	k := math.Tan(math.Atan2(r2.Cross(u, w), r2.Dot(u, w)) / 2)
	if math.Abs(k) < 1e-7 {
		k = 0
	}
	return arc.Segment{A: a, B: b, K: k}, true
}

// turnInto adds a segment to a run. Where the line turns left, its shifted ends
// are apart: an arc about the corner joins them; where it turns right they cross, and
// both end there.
func turnInto(run []arc.Segment, s arc.Segment) ([]arc.Segment, bool) {
	n := len(run) - 1
	last := run[n]
	if r2.Norm(r2.Sub(s.A, last.B)) < 1e-4 {
		s.A = last.B
		return append(run, s), true
	}
	_, u := last.Tangents()
	w, _ := s.Tangents()
	turn := math.Atan2(r2.Cross(u, w), r2.Dot(u, w))
	if r2.Dot(r2.Sub(s.A, last.B), r2.Add(u, w)) > 0 {
		return append(run, arc.Segment{A: last.B, B: s.A, K: math.Tan(turn / 4)}, s), true
	}
	a, b, ok := arc.Meet(last, s, joint)
	if !ok || a <= 0 || b >= s.Length() {
		return nil, false
	}
	run[n] = last.Part(0, a)
	s = s.Part(b, s.Length())
	s.A = run[n].B
	return append(run, s), true
}

// changes reports whether the bevel changes along its edge.
func (b Bevel) changes() bool { return len(b.Back.V) > 0 }
