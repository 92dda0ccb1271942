package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// An offsetter builds the raw offset of loops to their right by d > 0, as the
// strands of an arrangement.
//
// Every segment sweeps, along its right normals, a strip of width d; every
// corner open to the right a wedge. The raw offset is the loops' own winding
// plus, around each strip and wedge, once counter-clockwise: where a strip
// would turn inside out, on the inner side of an arc smaller than d, it ends
// at the arc's center. So a point's winding number is above that of the loops
// exactly where some strip or wedge covers it, which is where it is nearer than
// d to the loops on their right: a nearest point of a loop sees it along a
// normal no longer than the radius there. What is so bounded is the whole
// offset and nothing else; compare Chen and McMains, Polygon Offsetting by
// Computing Winding Numbers, ASME DETC2005-85513.
type offsetter struct {
	d      float64
	limit  float64 // longest miter, as a multiple of d; 0 for round joins
	eps    float64
	trim   bool
	strand []strand
	source []source
	segs   int32      // segments so far; their numbers are the src of parallels
	joint  [][2]int32 // the segments before and after each join; its src is below noSource
}

// A source is a segment of the input, or half of one that turns by more than
// a half circle, with its parallel.
type source struct {
	edge
	src  int32
	out  edge // the parallel
	flat bool // the parallel has shrunk to nothing or turned over
	// What is left of the parallel after trimming.
	from, to r2.Vec
	t0, t1   float64
}

// noSource marks strands that close a strip and never bound the result.
const noSource = -1

// add appends the raw offset of a closed loop.
func (o *offsetter) add(p Path) {
	first := len(o.source)
	for i := range p.NumSegments() {
		o.addSegment(p.Segment(i))
		o.segs++
	}
	loop := o.source[first:]
	if o.trim {
		o.trimLoop(loop)
	}
	for i := range loop {
		o.parallel(&loop[i])
		o.join(&loop[i], &loop[(i+1)%len(loop)])
	}
}

func (o *offsetter) addSegment(s Segment) {
	switch {
	case s.A == s.B:
	case math.Abs(s.K) > 1:
		m, k := s.Mid(), halfTurn(s.K)
		o.addSource(newEdge(s.A, m, k))
		o.addSource(newEdge(m, s.B, k))
	default:
		o.addSource(newEdge(s.A, s.B, s.K))
	}
}

// halfTurn returns tan(x/2) of tan x.
func halfTurn(k float64) float64 { return k / (1 + math.Hypot(1, k)) }

func (o *offsetter) addSource(e edge) {
	u, v := e.tangents()
	s := source{edge: e, src: o.segs, t1: 1}
	s.from = r2.Add(e.a, r2.Scale(o.d, rightOf(u)))
	s.to = r2.Add(e.b, r2.Scale(o.d, rightOf(v)))
	s.flat = e.k < 0 && r2.Dot(r2.Sub(s.to, s.from), r2.Sub(e.b, e.a)) <= 0
	s.out = newEdge(s.from, s.to, e.k)
	o.source = append(o.source, s)
}

// rightOf returns the unit normal to the right of v.
func rightOf(v r2.Vec) r2.Vec {
	n := math.Hypot(v.X, v.Y)
	return r2.Vec{X: v.Y / n, Y: -v.X / n}
}

// trimLoop cuts the parallels on the inner side of corners where they cross.
// What it takes off a strip is nearer to the neighbor, whose strip covers it,
// so the offset stays the same; it spares the arrangement most of its cuts.
func (o *offsetter) trimLoop(loop []source) {
	var hits []hit
	for i := range loop {
		s, next := &loop[i], &loop[(i+1)%len(loop)]
		if s == next || s.flat || next.flat || math.Abs(s.k) > 0.4 || math.Abs(next.k) > 0.4 {
			continue
		}
		_, u := s.tangents()
		v, _ := next.tangents()
		if r2.Dot(u, v) <= 0 || r2.Cross(u, v) >= 0 {
			continue
		}
		hits = s.out.cross(hits[:0], &next.out, o.eps)
		if len(hits) == 1 && hits[0].te > s.t0 && hits[0].tf < next.t1 {
			s.t1, next.t0 = hits[0].te, hits[0].tf
			s.to, next.from = hits[0].p, hits[0].p
		}
	}
}

func (o *offsetter) line(a, b r2.Vec, src int32) { o.curve(a, b, 0, src) }

func (o *offsetter) curve(a, b r2.Vec, k float64, src int32) {
	if a != b {
		o.strand = append(o.strand, strand{edge: newEdge(a, b, k), src: src, w: [2]int8{1, 0}})
	}
}

// parallel appends the outer side of a source's strip.
func (o *offsetter) parallel(s *source) {
	if s.flat {
		c := Segment{s.a, s.b, s.k}.Center()
		o.line(s.from, c, noSource)
		o.line(c, s.to, noSource)
		return
	}
	o.curve(s.from, s.to, s.out.part(s.t0, s.t1), s.src)
}

// join appends what leads from the parallel of s to that of the next.
func (o *offsetter) join(s, next *source) {
	if near(s.to, next.from, o.eps/4) {
		o.line(s.to, next.from, noSource)
		return
	}
	_, u := s.tangents()
	v, _ := next.tangents()
	size := s.chord * next.chord
	cross, dot := r2.Cross(u, v)/size, r2.Dot(u, v)/size
	if cross < 0 && (dot > 0 || cross < -1e-9) {
		// Back to the corner and out again. A full reversal is taken as the tip
		// of a spike: a wedge too many covers nothing that is farther than d.
		o.line(s.to, s.b, noSource)
		o.line(s.b, next.from, noSource)
		return
	}
	if reach := math.Sqrt2 / math.Sqrt(1+dot); o.limit >= reach {
		o.miter(s, next, u, v)
		return
	}
	// tan(β/4) from sin β and cos β.
	o.curve(s.to, next.from, halfTurn(tanHalf(cross, dot)), o.newJoin(s, next))
}

// tanHalf returns tan(β/2) of an angle from 0 to π with the given sine and
// cosine.
func tanHalf(sin, cos float64) float64 {
	if cos > 0 {
		return sin / (1 + cos)
	}
	return (1 - cos) / math.Max(sin, 1e-300)
}

// newJoin numbers a join.
func (o *offsetter) newJoin(s, next *source) int32 {
	o.joint = append(o.joint, [2]int32{s.src, next.src})
	return noSource - int32(len(o.joint))
}

// miter appends the two lines that meet where the end tangents do, ahead of
// the corner by d·tan(β/2), β its angle.
func (o *offsetter) miter(s, next *source, u, v r2.Vec) {
	u, v = r2.Scale(1/s.chord, u), r2.Scale(1/next.chord, v)
	tip := r2.Add(s.to, r2.Scale(o.d*tanHalf(r2.Cross(u, v), r2.Dot(u, v)), u))
	o.line(s.to, tip, o.newJoin(s, next))
	o.line(tip, next.from, o.newJoin(s, next))
}
