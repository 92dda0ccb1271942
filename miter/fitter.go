package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A curve gives the point and the direction of travel, of any length, for a
// parameter from 0 to 1.
type curve func(w float64) (p, tangent r2.Vec)

// Limits of the fit: the shortest piece as a part of its curve, the points at
// which a pair of arcs is held against it, and the part of the tolerance
// allowed there, since the deviation is a little larger in between.
const (
	shortest  = 1.0 / (1 << 14)
	fitPoints = 9
	fitShare  = 0.9
)

// A fitter lays a path of lines and arcs along curves.
type fitter struct {
	tol float64
	v   []arc.Vertex
	ok  bool
}

// add carries the path on along a curve that starts where the path ends. The
// pieces are pairs of arcs that share their tangent and have the curve's
// tangents at their ends, each about as long as the tolerance lets it be.
func (f *fitter) add(c curve) {
	for w, step := 0.0, 1.0; w < 1; {
		pair, end, ok := f.longest(c, w, step)
		if !ok {
			f.ok = false
			return
		}
		f.push(pair[0])
		f.push(pair[1])
		w, step = end, end-w
	}
}

// longest returns a pair from w that stays within the tolerance, no more than a
// tenth shorter than the longest one found to, and where it ends.
func (f *fitter) longest(c curve, w, step float64) (best [2]arc.Segment, end float64, ok bool) {
	good, bad := w, 2.0
	for end := math.Min(1, w+2*step); ; {
		if pair, fits := f.pair(c, w, end); fits {
			best, good = pair, end
		} else {
			bad = end
		}
		switch {
		case good == 1 || good > w && bad-good < 0.1*(good-w):
			return best, good, true
		case bad-w < shortest:
			return best, w, false
		case bad > 1: // nothing has failed yet
			end = math.Min(1, w+2*(good-w))
		default:
			end = (good + bad) / 2
		}
	}
}

// pair returns the pair of arcs along a piece of the curve, and whether it
// stays within the tolerance.
func (f *fitter) pair(c curve, w0, w1 float64) ([2]arc.Segment, bool) {
	p0, t0 := c(w0)
	p1, t1 := c(w1)
	if !(r2.Dot(t0, t1) >= 0) { // no more than a quarter turn
		return [2]arc.Segment{}, false
	}
	pair, err := arc.Biarc(p0, t0, p1, t1)
	return pair, err == nil && f.close(pair, c, w0, w1)
}

// close reports whether the pair stays within the tolerance of the curve.
func (f *fitter) close(pair [2]arc.Segment, c curve, w0, w1 float64) bool {
	for i := 1; i <= fitPoints; i++ {
		p, _ := c(w0 + (w1-w0)*float64(i)/(fitPoints+1))
		near, far := pair[0], pair[1]
		if 2*i > fitPoints+1 {
			near, far = far, near
		}
		if near.Distance(p) > fitShare*f.tol && far.Distance(p) > fitShare*f.tol {
			return false
		}
	}
	return true
}

// straightShare is the part of the tolerance below which the sag of an arc, or
// the corner between two lines, is left out: half of what fitShare leaves.
const straightShare = (1 - fitShare) / 2

// push adds a segment, in line with the last one where both are lines.
func (f *fitter) push(s arc.Segment) {
	if s.Sag() < straightShare*f.tol {
		s.K = 0
	}
	if s.A == s.B {
		return
	}
	n := len(f.v)
	if n == 0 {
		f.v = append(f.v, arc.Vertex{P: s.A, K: s.K}, arc.Vertex{P: s.B})
		return
	}
	if n > 1 && s.K == 0 && f.v[n-2].K == 0 {
		line := arc.Segment{A: f.v[n-2].P, B: s.B}
		if line.Distance(s.A) < straightShare*f.tol {
			f.v[n-1].P = s.B
			return
		}
	}
	f.v[n-1].K = s.K
	f.v = append(f.v, arc.Vertex{P: s.B})
}
