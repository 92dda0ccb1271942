package clear

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Round is the circle of an arc; it is hollow where the material lies
// outside. On a sheet the radius leaves the gap or the margin.
type Round struct {
	C      r2.Vec
	R      float64
	Hollow bool
}

// RoundsOf lists the circles of a region, each once, with the radius of solid
// ones d more and that of hollow ones d less.
func RoundsOf(g arc.Region, d float64) []Round {
	var out []Round
	for _, l := range g.Loops() {
		for i := range l.NumSegments() {
			s := l.Segment(i)
			if s.K == 0 {
				continue
			}
			o := Round{s.Center(), s.Radius() + d, s.K < 0}
			if o.Hollow {
				o.R -= 2 * d
			}
			if !slices.ContainsFunc(out, o.like) {
				out = append(out, o)
			}
		}
	}
	return out
}

func (o Round) like(p Round) bool {
	return o.Hollow == p.Hollow && r2.Norm(r2.Sub(o.C, p.C)) < 1e-9 && math.Abs(o.R-p.R) < 1e-9
}

// Disc returns the outer circle of a region, if it is one.
func Disc(g arc.Region) (Round, bool) {
	o := RoundsOf(arc.Region{Outer: g.Outer}, 0)
	if len(o) != 1 || o[0].Hollow {
		return Round{}, false
	}
	for i := range g.Outer.NumSegments() {
		if s := g.Outer.Segment(i); s.K == 0 && s.Chord() > 0 {
			return Round{}, false
		}
	}
	return o[0], true
}

// HalfChord returns how far from the middle of its chord a line at a distance
// from the center meets the circle, both ways. One that just misses it counts
// as touching.
func (o Round) HalfChord(d float64) []float64 {
	h := o.R*o.R - d*d
	switch {
	case h < -1e-9*o.R*o.R:
		return nil
	case h < 0:
		h = 0
	}
	h = math.Sqrt(h)
	return []float64{-h, h}
}

// Meets returns where two circles of different centers meet.
func (o Round) Meets(p Round) []r2.Vec {
	v := r2.Sub(p.C, o.C)
	d := r2.Norm(v)
	if d < 1e-9*o.R {
		return nil
	}
	u := r2.Scale(1/d, v)
	along := (d*d + o.R*o.R - p.R*p.R) / (2 * d)
	var out []r2.Vec
	for _, h := range o.HalfChord(along) {
		out = append(out, r2.Add(o.C, r2.Add(r2.Scale(along, u), r2.Scale(h, r2.Vec{X: -u.Y, Y: u.X}))))
	}
	return out
}
