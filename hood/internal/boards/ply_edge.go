package boards

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r2"
)

// A plyEdge gives an edge of a ply whose faces lie at two depths, its middle at
// another and its faces between two spans: outward and upward, as a seamEdge.
type plyEdge func(depth [2]float64, mid float64, faces [2]curve.Span) (seamEdge, bool)

// plumbEdge is the edge of a panel at plumb cheeks, wide over both.
func plumbEdge(wide float64, bevel arc.Angle) plyEdge {
	return func(depth [2]float64, _ float64, faces [2]curve.Span) (seamEdge, bool) {
		upright := func(i int) arc.Path {
			x := wide/2 - depth[i]*math.Tan(float64(bevel))
			return arc.Polyline(r2.Vec{X: x, Y: faces[i].Low}, r2.Vec{X: x, Y: faces[i].High})
		}
		return seamEdge{show: upright(0), back: upright(1), bevel: bevel}, true
	}
}

// rearEdge is the edge of a flared side along the wall. What lies in the rabbet
// for the back stops at its shoulder.
func (b *builder) rearEdge() plyEdge {
	return func(depth [2]float64, _ float64, faces [2]curve.Span) (seamEdge, bool) {
		x := b.Scribe.Allowance
		if b.inRabbet(depth[0]) {
			x = -b.BackFace()
		}
		upright := func(i int) arc.Path {
			return arc.Polyline(r2.Vec{X: x, Y: faces[i].Low}, r2.Vec{X: x, Y: faces[i].High})
		}
		return seamEdge{show: upright(0), back: upright(1)}, true
	}
}

// inRabbet reports whether what lies deeper than a depth is taken by the rabbet
// for the back.
func (b *builder) inRabbet(depth float64) bool {
	return b.Back.Rabbet > 0 && depth > b.t-b.Back.Rabbet-rounding
}

// cornerEdge is the edge of a panel at its seam with another: at every depth it
// is where the parallels of both at that depth meet, so that ply meets ply.
func (b *builder) cornerEdge(s, other curve.Section, bevel arc.Angle, saw bool) plyEdge {
	last, lastDepth := seamLine(nil), -1.0 // the back of a ply is the face of the next
	at := func(depth, mid float64) (arc.Path, bool) {
		if depth != lastDepth {
			last, lastDepth = seamAt(s, other, depth), depth
		}
		return last.onPly(s, mid), len(last) > 0
	}
	return func(depth [2]float64, mid float64, _ [2]curve.Span) (seamEdge, bool) {
		show, ok1 := at(depth[0], mid)
		back, ok2 := at(depth[1], mid)
		return seamEdge{show, back, bevel, saw}, ok1 && ok2
	}
}

// A seamLine is a seam at a depth, upward: ends and middles of its pieces by
// turns, x out, y developed on the show face.
type seamLine []r2.Vec

// onPly returns the line on a ply whose middle is at a depth, as arcs through
// the ends and the middle of each piece.
func (l seamLine) onPly(s curve.Section, mid float64) arc.Path {
	var p arc.Path
	at := func(i int) r2.Vec { return r2.Vec{X: l[i].X, Y: s.Along(l[i].Y, mid)} }
	for i := 0; i < len(l); i += 2 {
		p.V = append(p.V, arc.Vertex{P: at(i)})
		if n := len(p.V); n > 1 {
			p.V[n-2].K = through(p.V[n-2].P, at(i-1), p.V[n-1].P)
		}
	}
	return p
}

// A seam is told by pieces that leave the true line, a quarter and three
// quarters along, by no more than seamOff, mm, where halving each of the first
// pieces so many times comes to that.
const (
	seamOff    = 0.005
	seamPieces = 8
	seamHalves = 8
)

// seamAt returns where the parallels of two sections at a depth meet, along the
// first; nothing where they do not.
func seamAt(s curve.Section, other curve.Section, depth float64) seamLine {
	low, ok1 := s.CutBack(false, depth)
	high, ok2 := s.CutBack(true, depth)
	high = s.Curve.ShowLength - high
	if !ok1 || !ok2 || low >= high || !other.Fold(other.Ends(), depth) {
		return nil
	}
	at := func(u float64) r2.Vec { return r2.Vec{X: rise.OutAt(other.Inner, s.OffShow(u, depth).Y), Y: u} }
	out := append(make(seamLine, 0, 4*seamPieces), at(low))
	to := func(end float64, pieces int) {
		from := out[len(out)-1]
		for i := range pieces {
			a, c := out[len(out)-1], at(from.Y+(end-from.Y)*float64(i+1)/float64(pieces))
			out = out.grow(at, a, at((a.Y+c.Y)/2), c, seamHalves)
		}
	}
	if fold, ok := foldOf(s, other, low, high, depth); ok {
		to(fold, 2)
	}
	to(high, seamPieces)
	return out
}

// grow adds a piece that begins where the line ends, m being in its middle and
// c its end, in as many pieces as it takes.
func (l seamLine) grow(at func(float64) r2.Vec, a, m, c r2.Vec, halves int) seamLine {
	first, second := at((a.Y+m.Y)/2), at((m.Y+c.Y)/2)
	piece := arc.Segment{A: a, B: c, K: through(a, m, c)}
	if halves == 0 || piece.Distance(first) < seamOff && piece.Distance(second) < seamOff {
		return append(l, m, c)
	}
	return l.grow(at, a, first, m, halves-1).grow(at, m, second, c, halves-1)
}

// through returns the K of an arc from a to c by way of a point near its
// middle.
func through(a, m, c r2.Vec) float64 {
	chord := r2.Sub(c, a)
	return -2 * r2.Cross(chord, r2.Sub(m, a)) / r2.Norm2(chord)
}

// foldOf returns where along a section its parallel is as high as the fold of
// another's at the same depth.
func foldOf(s curve.Section, other curve.Section, low, high, depth float64) (float64, bool) {
	if other.Skirt == 0 {
		return 0, false
	}
	over := func(u float64) float64 { return s.OffShow(u, depth).Y - other.Inner.V[1].P.Y }
	if over(low) > -rounding || over(high) < rounding {
		return 0, false
	}
	u, err := num.Root(over, low, high, 1e-12)
	return u, err == nil && u < high-rounding
}
