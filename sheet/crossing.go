package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// sideStep is how far beside an outline its sides are looked at, in mm; webs
// and slots thinner than that count as crossings.
const sideStep = 2e-3

// crossing looks for a point where the loops of a region cross themselves or
// each other; touching is no crossing.
func crossing(r arc.Region) (at r2.Vec, found bool) {
	outer := newBody(arc.Region{Outer: r.Outer})
	if at, found = outer.crossing(); found {
		return at, true
	}
	outer.outside = true
	var holes []*body
	for _, h := range r.Holes {
		b := newBody(arc.Region{Outer: h.Reverse()})
		if at, found = b.crossing(); found {
			return at, true
		}
		for _, o := range append(holes, outer) {
			if !meet(o.box, b.box, 0) && !o.outside {
				continue
			}
			if x, bad := tooNear(b, o, -sideStep); bad {
				return x.at, true
			}
		}
		holes = append(holes, b)
	}
	return r2.Vec{}, false
}

// crossing looks for a point of a single loop that does not have the inside on
// its left and the outside on its right, both a single time around. Elements
// are cut where they may cross another, so that a side cannot change within
// what is left.
func (b *body) crossing() (at r2.Vec, found bool) {
	cuts := make([]float64, 0, 16)
	for i := range b.e {
		e := &b.e[i]
		cuts = append(cuts[:0], 0, 1)
		for j := range b.e {
			if f := &b.e[j]; i != j && meet(e.box, f.box, 0) {
				cuts = e.meets(f.carrier, cuts)
			}
		}
		slices.Sort(cuts)
		for j := 1; j < len(cuts); j++ {
			p, q := e.at(cuts[j-1]), e.at(cuts[j])
			l := r2.Norm(r2.Sub(q, p))
			if l < 4*sideStep {
				continue
			}
			m := e.at((cuts[j-1] + cuts[j]) / 2)
			d := math.Min(sideStep, l/4)
			left := r2.Scale(d/l, r2.Vec{X: p.Y - q.Y, Y: q.X - p.X})
			if b.winding(r2.Add(m, left)) != 1 || b.winding(r2.Sub(m, left)) != 0 {
				return m, true
			}
		}
	}
	return r2.Vec{}, false
}
