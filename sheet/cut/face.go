package cut

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Face is what a replay measured of a beveled face that the program cut.
type Face struct {
	Placement int
	Name      string  // of the part and its copy
	Side      string  // of the edge
	Stand     float64 // most that wood stands off the true face, square to it, mm
	Bite      float64 // most that the face is cut behind it, mm
	Places    int     // at which it was measured
}

// Joint returns what a miter of two faces is as they leave the machine, at most:
// how far the show edges stand apart, square to the joint, where the faces are
// pressed together as they are, and how wide the joint gapes anywhere behind
// once what stands off is sanded down to the ground between the steps.
func Joint(a, b Face) (open, behind float64) {
	return a.Stand + b.Stand, a.Bite + b.Bite
}

// measure compares what was cut with the true face at every probe on a bevel
// that no other feature touches and no tab stands on.
func (r *replayer) measure() {
	index := map[[2]int32]int{}
	for i := range r.probe {
		p := &r.probe[i]
		if p.feature < bevelOf || p.grow != 0 || p.station != 0 || r.onTab(p) {
			continue
		}
		z, sin, ok := r.surface[p.piece].truth(p)
		if !ok {
			continue
		}
		key := [2]int32{p.piece, p.feature}
		k, known := index[key]
		if !known {
			q := &r.pieces[p.piece]
			at := int(p.feature - bevelOf)
			k = len(r.rep.Bevels)
			index[key] = k
			r.rep.Bevels = append(r.rep.Bevels, Face{Placement: q.at, Name: q.name, Side: q.work.Bevels[at].side(at)})
		}
		f := &r.rep.Bevels[k]
		off := (float64(p.z) - z) * sin
		f.Stand, f.Bite = math.Max(f.Stand, off), math.Max(f.Bite, -off)
		f.Places++
	}
}

// truth returns the height of the true face under a probe, and the sine of its
// bevel; false where it is not this face alone that is met there.
func (s *surface) truth(p *probe) (z, sin float64, ok bool) {
	at := p.at()
	if depth(s.loops, at, 1) < s.side {
		return 0, 0, false
	}
	d := demand{low: s.top, high: math.Inf(1)}
	s.addSlots(&d, at)
	for i := range s.pockets {
		s.pockets[i].add(&d, at, s.side, 0)
	}
	if d.low < s.top {
		return 0, 0, false
	}
	z = math.Inf(1)
	for i := range s.bevels {
		f := &s.bevels[i]
		g, in, beside := f.under(at, s)
		if in < 0 || in > g.width || !beside && f.at == int(p.feature-bevelOf) {
			continue
		}
		if h := in / g.tan; h < z {
			z, sin, ok = h, g.sin, beside && f.at == int(p.feature-bevelOf)
		}
	}
	return z, sin, ok
}

// under returns the slope of a bevel at a point, how far inside its edge that is,
// and whether it has to be cut there.
func (f *slope) under(p r2.Vec, s *surface) (g slope, in float64, asked bool) {
	if f.face != nil {
		return f.local(p, s)
	}
	w := f.width + s.side
	if p.X < f.box.Min.X-4*w || p.X > f.box.Max.X+4*w || p.Y < f.box.Min.Y-4*w || p.Y > f.box.Max.Y+4*w {
		return *f, -1, false
	}
	l, dist, in := foot(f.seg, p)
	if dist <= math.Abs(in)+1e-9 {
		return *f, in, l > f.from && l < f.to
	}
	if f.stopA && l <= 0 || f.stopB && l > 0 {
		return *f, -1, false
	}
	_, in = f.seg.Project(p)
	return *f, in, false
}
