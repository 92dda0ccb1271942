package place

import (
	"cmp"
	"math"
	"slices"
)

// A pt is a point of the integer grid. Coordinates of a shape stay within
// ±2^25 and those of a layout within ±2^31, so that the products of two
// differences of one pair of shapes fit an int64 with room to spare.
type pt struct{ x, y int64 }

func (a pt) sub(b pt) pt      { return pt{a.x - b.x, a.y - b.y} }
func (a pt) add(b pt) pt      { return pt{a.x + b.x, a.y + b.y} }
func cross(a, b pt) int64     { return a.x*b.y - a.y*b.x }
func dot(a, b pt) int64       { return a.x*b.x + a.y*b.y }
func orient(a, b, c pt) int64 { return cross(b.sub(a), c.sub(a)) }
func sign(v int64) int        { return b2i(v > 0) - b2i(v < 0) }
func (a pt) less(b pt) bool   { return a.x < b.x || a.x == b.x && a.y < b.y }
func mid2(a, b pt) pt         { return pt{a.x + b.x, a.y + b.y} }
func onSegment(a, b, c pt) bool { // c on the closed segment ab
	return orient(a, b, c) == 0 &&
		min(a.x, b.x) <= c.x && c.x <= max(a.x, b.x) &&
		min(a.y, b.y) <= c.y && c.y <= max(a.y, b.y)
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// A region is an outer loop, counter-clockwise, and holes, clockwise.
type region [][]pt

type box struct{ x0, y0, x1, y1 int64 }

func (r region) box() box {
	b := box{math.MaxInt64, math.MaxInt64, math.MinInt64, math.MinInt64}
	for _, p := range r[0] {
		b.x0, b.y0 = min(b.x0, p.x), min(b.y0, p.y)
		b.x1, b.y1 = max(b.x1, p.x), max(b.y1, p.y)
	}
	return b
}

// overlaps reports whether the interiors of a and of b moved by v have a
// point in common. Touching is not overlapping. It is exact.
//
// If no two edges cross properly, cut each edge where the other outline
// touches it. The interiors then meet exactly if some piece runs strictly
// inside the other region, or if two pieces coincide and run the same way,
// for then both interiors lie on the same side of it. If the outlines do not
// even touch, one region lies within the other or they are apart, and a vertex
// of each tells.
func overlaps(a, b region, v pt) bool {
	w := a.box().clip(b.box().move(v))
	if w.x0 >= w.x1 || w.y0 >= w.y1 {
		return false
	}
	var roomA, roomB [windowEdges]edge
	ea, eb := a.edges(roomA[:0], pt{}, w), b.edges(roomB[:0], v, w)
	touch := false
	for i := range ea {
		for j := range eb {
			switch ea[i].meets(&eb[j]) {
			case edgesCross:
				return true
			case edgesTouch:
				touch = true
			}
		}
	}
	if !touch {
		p, q := a[0][0], b[0][0].add(v)
		return b.inside2(mid2(p, p), v) || a.inside2(mid2(q, q), pt{})
	}
	return anyInside(ea, eb, b, v) || anyInside(eb, ea, a, pt{})
}

// How two edges meet: not, by an end of one on the other, or so that the regions
// to the left of both overlap.
const (
	edgesApart = iota
	edgesTouch
	edgesCross
)

func (e *edge) meets(f *edge) int {
	if max(e.a.x, e.b.x) < min(f.a.x, f.b.x) || max(f.a.x, f.b.x) < min(e.a.x, e.b.x) ||
		max(e.a.y, e.b.y) < min(f.a.y, f.b.y) || max(f.a.y, f.b.y) < min(e.a.y, e.b.y) {
		return edgesApart
	}
	s := sign(orient(e.a, e.b, f.a)) * sign(orient(e.a, e.b, f.b))
	if s > 0 {
		return edgesApart
	}
	t := sign(orient(f.a, f.b, e.a)) * sign(orient(f.a, f.b, e.b))
	switch {
	case t > 0:
		return edgesApart
	case s < 0 && t < 0 || e.runsAlong(*f):
		return edgesCross
	}
	return edgesTouch
}

func (b box) move(v pt) box { return box{b.x0 + v.x, b.y0 + v.y, b.x1 + v.x, b.y1 + v.y} }

func (b box) clip(c box) box {
	return box{max(b.x0, c.x0), max(b.y0, c.y0), min(b.x1, c.x1), min(b.y1, c.y1)}
}

type edge struct{ a, b pt }

// windowEdges is how many edges near a window need no memory of their own.
const windowEdges = 40

// edges appends the edges of r moved by v that come near the window.
func (r region) edges(es []edge, v pt, w box) []edge {
	for _, l := range r {
		p := l[len(l)-1].add(v)
		for _, q := range l {
			q = q.add(v)
			if max(p.x, q.x) >= w.x0 && min(p.x, q.x) <= w.x1 && max(p.y, q.y) >= w.y0 && min(p.y, q.y) <= w.y1 {
				es = append(es, edge{p, q})
			}
			p = q
		}
	}
	return es
}

func (e edge) crosses(f edge) bool {
	return sign(orient(e.a, e.b, f.a))*sign(orient(e.a, e.b, f.b)) < 0 &&
		sign(orient(f.a, f.b, e.a))*sign(orient(f.a, f.b, e.b)) < 0
}

// runsAlong reports whether e and f share a piece of positive length and
// run the same way.
func (e edge) runsAlong(f edge) bool {
	d := e.b.sub(e.a)
	if orient(e.a, e.b, f.a) != 0 || orient(e.a, e.b, f.b) != 0 || dot(d, f.b.sub(f.a)) <= 0 {
		return false
	}
	return max(0, dot(d, f.a.sub(e.a))) < min(dot(d, d), dot(d, f.b.sub(e.a)))
}

// anyInside reports whether a piece of an edge of es, cut where the edges fs
// touch it, runs strictly inside r moved by v.
func anyInside(es, fs []edge, r region, v pt) bool {
	for _, e := range es {
		var room [16]pt
		cuts := append(room[:0], e.a, e.b)
		for _, f := range fs {
			if onSegment(e.a, e.b, f.a) {
				cuts = append(cuts, f.a)
			}
			if onSegment(e.a, e.b, f.b) {
				cuts = append(cuts, f.b)
			}
		}
		slices.SortFunc(cuts, func(p, q pt) int { return cmp.Or(cmp.Compare(p.x, q.x), cmp.Compare(p.y, q.y)) })
		for i := 1; i < len(cuts); i++ {
			if cuts[i] != cuts[i-1] && r.inside2(mid2(cuts[i-1], cuts[i]), v) {
				return true
			}
		}
	}
	return false
}

// inside2 reports whether the point with the doubled coordinates m is
// strictly inside r moved by v.
func (r region) inside2(m, v pt) bool {
	in := false
	for _, l := range r {
		p := l[len(l)-1].add(v)
		p = pt{2 * p.x, 2 * p.y}
		for _, q := range l {
			q = q.add(v)
			q = pt{2 * q.x, 2 * q.y}
			if onSegment(p, q, m) {
				return false
			}
			if (p.y > m.y) != (q.y > m.y) && (orient(p, q, m) > 0) == (q.y > p.y) {
				in = !in
			}
			p = q
		}
	}
	return in
}
