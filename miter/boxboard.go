package miter

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// endAt returns how far the end of a board lies outward from the corner of the
// show faces, at v up the slope and depth d behind the show face. The plane of
// the cut has the normal (cos B cos M, cos B sin M, −sin B).
func (e End) endAt(v, d float64) float64 {
	sin, cos := math.Sincos(float64(e.Miter))
	return -(v*sin + d*math.Tan(float64(e.Bevel)) + e.Setback) / cos
}

// span returns the board's extent along at a height and depth.
func (s side) span(v, d float64) (lo, hi float64) {
	return -s.left.endAt(v, d), s.length + s.right.endAt(v, d)
}

// heights returns how far up the slope the lower and upper edges lie at depth
// d, for a box of height h.
func (s side) heights(h, d float64, rim Rim) (lo, hi float64) {
	sin, cos := math.Sincos(float64(s.Tilt))
	lo, hi = 0, h/sin
	if rim == LevelRim {
		lo += d * cos / sin
		hi += d * cos / sin
	}
	return lo, hi
}

// board returns the true board, or false where it has no width.
func (s side) board(h float64, rim Rim) (BoxBoard, bool) {
	b := BoxBoard{Left: s.left, Right: s.right}
	if rim == LevelRim {
		b.Lower = math.Pi/2 - s.Tilt
		b.Upper = -b.Lower
	}
	lo, hi := s.heights(h, 0, rim)
	// The show face must reach the height, be it in a point.
	a, c := s.span(hi, 0)
	if c-a < -slack {
		return b, false
	}
	var ok, okBack bool
	b.Show, ok = s.face(lo, hi, 0)
	lo, hi = s.heights(h, s.Thickness, rim)
	b.Back, okBack = s.face(lo, hi, s.Thickness)
	return b, ok && okBack
}

// face returns the outline at a depth between two heights up the slope, cut off
// where the ends cross, or false where nothing is left.
func (s side) face(lo, hi, d float64) (arc.Path, bool) {
	width := func(v float64) float64 {
		a, b := s.span(v, d)
		return b - a
	}
	w0, w1 := width(lo), width(hi)
	if w0 <= slack && w1 <= slack {
		return arc.Path{}, false
	}
	if cross := lo + (hi-lo)*w0/(w0-w1); w0 < -slack {
		lo = cross
	} else if w1 < -slack {
		hi = cross
	}
	var p []r2.Vec
	add := func(v float64, turned bool) {
		a, b := s.span(v, d)
		switch {
		case b-a <= slack:
			p = append(p, r2.Vec{X: (a + b) / 2, Y: v})
		case turned:
			p = append(p, r2.Vec{X: b, Y: v}, r2.Vec{X: a, Y: v})
		default:
			p = append(p, r2.Vec{X: a, Y: v}, r2.Vec{X: b, Y: v})
		}
	}
	add(lo, false)
	add(hi, true)
	return arc.Polygon(p...), true
}

// topOf returns the outline of the show faces at height h, in plan.
func topOf(sides []side, h float64) []r2.Vec {
	out := make([]r2.Vec, 0, 2*len(sides))
	for _, s := range sides {
		// The corner line of the show faces, without any setback.
		s.left.Setback, s.right.Setback = 0, 0
		v := h / math.Sin(float64(s.Tilt))
		in := v * math.Cos(float64(s.Tilt))
		a, _ := s.span(v, 0)
		left := r2.Vec{X: -s.along.Y, Y: s.along.X}
		out = append(out, r2.Add(s.start, r2.Add(r2.Scale(a, s.along), r2.Scale(in, left))))
	}
	return out
}

// simple reports whether no two sides of a polygon cross. Sides that only
// touch, as at the point of a pyramid, do not.
func simple(p []r2.Vec) bool {
	n := len(p)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if crosses(p[i], p[i+1], p[j], p[(j+1)%n]) {
				return false
			}
		}
	}
	return true
}

// crosses reports whether the inner parts of two segments cross by more than
// slack.
func crosses(a, b, c, d r2.Vec) bool {
	off := func(p, q, x r2.Vec) float64 {
		v := r2.Sub(q, p)
		l := r2.Norm(v)
		if l <= slack {
			return 0
		}
		return r2.Cross(v, r2.Sub(x, p)) / l
	}
	apart := func(x, y float64) bool { return x > slack && y < -slack || x < -slack && y > slack }
	return apart(off(a, b, c), off(a, b, d)) && apart(off(c, d, a), off(c, d, b))
}
