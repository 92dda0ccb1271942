package curve

import (
	"math"

	"example.com/sagitta/hood/internal/rise"
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r2"
)

// Along returns how far up a parallel at a depth lies what stands square to the
// show face u up from the sweep's lower end. Beyond its ends a panel runs on
// straight.
func (s Section) Along(u, depth float64) float64 {
	if u <= 0 {
		return u
	}
	at := 0.0
	for i := range s.Sweep.NumSegments() {
		seg := s.Sweep.Segment(i)
		l, f := seg.Length(), Stretched(seg, depth)
		if u <= l {
			return at + u*f
		}
		u, at = u-l, at+l*f
	}
	return at + u
}

// OffShow returns the point at a depth, square to the show face u up from the
// sweep's lower end.
func (s Section) OffShow(u, depth float64) r2.Vec {
	n := s.Sweep.NumSegments()
	for i := range n {
		seg := s.Sweep.Segment(i)
		l := seg.Length()
		if u > l && i < n-1 {
			u -= l
			continue
		}
		in := max(0, min(u, l))
		q, t := seg.At(in)
		q = r2.Add(q, r2.Scale(u-in, t)) // beyond the ends it is straight
		return r2.Add(q, r2.Scale(depth, r2.Vec{X: -t.Y, Y: t.X}))
	}
	return r2.Vec{}
}

// CutBack returns how far from an end of the sweep, measured on the show face,
// a plane through the end's show edge, off square by a bevel, meets the
// parallel at a depth. Below 0 that is beyond the end, where the panel is
// straight.
//
// On an arc of radius R, with s = ±1 where the show face is convex or concave,
// the plane is met l along it where l² − 2slR·cos β + 2sRd − d² = 0.
func (s Section) CutBack(top bool, depth float64) (float64, bool) {
	if s.Sweep.NumSegments() == 0 {
		return 0, false
	}
	seg, bevel := s.Sweep.Segment(0), float64(s.Lower)
	if top {
		seg, bevel = s.Sweep.Segment(s.Sweep.NumSegments()-1), float64(s.Upper)
	}
	if bevel <= 0 || seg.K == 0 && depth*math.Tan(bevel) <= seg.Length() {
		return depth * math.Tan(bevel), true
	}
	if sense := math.Copysign(1, seg.K); seg.K != 0 {
		r, cos := seg.Radius(), math.Cos(bevel)
		l := (2*r*depth - sense*depth*depth) / (r*cos + math.Sqrt(r*r*cos*cos-sense*2*r*depth+depth*depth))
		if u := r * math.Asin(l*math.Sin(bevel)/(r-sense*depth)); u <= seg.Length() {
			return u, true
		}
	}
	return s.meetBevel(top, bevel, depth)
}

// meetBevel is cutBack beyond the first segment.
func (s Section) meetBevel(top bool, bevel, depth float64) (float64, bool) {
	end, sign := 0.0, 1.0
	if top {
		end, sign = s.Curve.ShowLength, -1
	}
	edge := s.OffShow(end, 0)
	in := r2.Sub(s.OffShow(end, 1), edge)
	into := r2.Scale(sign, r2.Vec{X: in.Y, Y: -in.X})
	sin, cos := math.Sincos(bevel)
	plane := rise.HalfPlane{At: edge, Out: r2.Sub(r2.Scale(cos, into), r2.Scale(sin, in))}
	u, err := num.Root(func(u float64) float64 { return plane.Over(s.OffShow(end+sign*u, depth)) }, 0, s.Curve.ShowLength/2, 1e-12)
	return u, err == nil
}

// A Span is the stretch of a face, or of a parallel, between the ends of the
// trimmed panel.
type Span struct{ Low, High float64 }

// FaceSpan returns where the face at a depth ends, on a ply whose middle is at
// another.
func (s Section) FaceSpan(depth, mid float64) (Span, bool) {
	low, ok1 := s.CutBack(false, depth)
	high, ok2 := s.CutBack(true, depth)
	p := Span{s.Along(low, mid), s.Along(s.Curve.ShowLength-high, mid)}
	return p, ok1 && ok2 && p.Low < p.High
}

// Ends returns between which ends a section was sketched.
func (s Section) Ends() Ends {
	if len(s.Sweep.V) == 0 {
		return Ends{}
	}
	low, high := s.Sweep.V[0].P, s.Sweep.V[len(s.Sweep.V)-1].P
	return Ends{low.X, high.X, s.Skirt, high.Y}
}
