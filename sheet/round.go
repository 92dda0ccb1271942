package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A round is the circle of an arc; it is hollow where the material lies
// outside. On a sheet the radius leaves the gap or the margin.
type round struct {
	c      r2.Vec
	r      float64
	hollow bool
}

// roundsOf lists the circles of a region, each once, with the radius of solid
// ones d more and that of hollow ones d less.
func roundsOf(g arc.Region, d float64) []round {
	var out []round
	for _, l := range g.Loops() {
		for i := range l.NumSegments() {
			s := l.Segment(i)
			if s.K == 0 {
				continue
			}
			o := round{s.Center(), s.Radius() + d, s.K < 0}
			if o.hollow {
				o.r -= 2 * d
			}
			if !slices.ContainsFunc(out, o.like) {
				out = append(out, o)
			}
		}
	}
	return out
}

func (o round) like(p round) bool {
	return o.hollow == p.hollow && r2.Norm(r2.Sub(o.c, p.c)) < 1e-9 && math.Abs(o.r-p.r) < 1e-9
}

// disc returns the outer circle of a region, if it is one.
func disc(g arc.Region) (round, bool) {
	o := roundsOf(arc.Region{Outer: g.Outer}, 0)
	if len(o) != 1 || o[0].hollow {
		return round{}, false
	}
	for i := range g.Outer.NumSegments() {
		if s := g.Outer.Segment(i); s.K == 0 && s.Chord() > 0 {
			return round{}, false
		}
	}
	return o[0], true
}

// halfChord returns how far from the middle of its chord a line at a distance
// from the center meets the circle, both ways. One that just misses it counts
// as touching.
func (o round) halfChord(d float64) []float64 {
	h := o.r*o.r - d*d
	switch {
	case h < -1e-9*o.r*o.r:
		return nil
	case h < 0:
		h = 0
	}
	h = math.Sqrt(h)
	return []float64{-h, h}
}

// meets returns where two circles of different centers meet.
func (o round) meets(p round) []r2.Vec {
	v := r2.Sub(p.c, o.c)
	d := r2.Norm(v)
	if d < 1e-9*o.r {
		return nil
	}
	u := r2.Scale(1/d, v)
	along := (d*d + o.r*o.r - p.r*p.r) / (2 * d)
	var out []r2.Vec
	for _, h := range o.halfChord(along) {
		out = append(out, r2.Add(o.c, r2.Add(r2.Scale(along, u), r2.Scale(h, r2.Vec{X: -u.Y, Y: u.X}))))
	}
	return out
}
