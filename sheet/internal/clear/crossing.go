package clear

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/exact"
	"gonum.org/v1/gonum/spatial/r2"
)

// crossEps is how deep an arc may cross, beside the largest coordinate, to
// touch only: an arc that is tangent to a wall crosses it by rounding, of some
// 1e-16 of that; a hair in a house is more than 1e-9 of it. Lines cross or do
// not, whatever their size.
const crossEps = 1e-9

// Crossing looks for a point where the loops of a region cross themselves or
// each other; touching is no crossing.
func Crossing(r arc.Region) (at r2.Vec, found bool) {
	outer := NewBody(arc.Region{Outer: r.Outer})
	if at, found = outer.crossing(); found {
		return at, true
	}
	outer.Outside = true
	all := []*Body{outer}
	for _, h := range r.Holes {
		b := NewBody(arc.Region{Outer: h.Reverse()})
		if at, found = b.crossing(); found {
			return at, true
		}
		for _, o := range all {
			if !Near(o.Box, b.Box, 0) && !o.Outside {
				continue
			}
			if at, found = linesCross(b, newRows(o)); found {
				return at, true
			}
			if x, bad := TooNear(b, o, -b.eps()); bad {
				return x.At, true
			}
		}
		all = append(all, b)
	}
	return r2.Vec{}, false
}

// eps returns how deep arcs of the body may cross, mm.
func (b *Body) eps() float64 {
	return crossEps * math.Max(math.Max(math.Abs(b.Box.Min.X), math.Abs(b.Box.Max.X)), math.Max(math.Abs(b.Box.Min.Y), math.Abs(b.Box.Max.Y)))
}

// linesCross looks for two lines of two bodies, or of one, that cross at an
// inner point of both, without rounding.
func linesCross(a *Body, b *rows) (at r2.Vec, found bool) {
	for i := range a.e {
		e := &a.e[i]
		if e.k != 0 {
			continue
		}
		first := len(b.b.e)
		b.near(e.box, 0, func(j int) {
			f := &b.b.e[j]
			if j < first && f.k == 0 && Near(e.box, f.box, 0) && e.apart(f) && f.apart(e) {
				first = j
			}
		})
		if first < len(b.b.e) {
			return b.b.e[first].at(0.5), true
		}
	}
	return r2.Vec{}, false
}

// apart reports whether the ends of f are on different sides of the line e.
func (e *element) apart(f *element) bool {
	return exact.Orient(e.a, e.b, f.a)*exact.Orient(e.a, e.b, f.b) < 0
}

// crossing looks for a point of a single loop that does not have the inside on
// its left and the outside on its right, both a single time around. Elements
// are cut where they may cross another, so that a side cannot change within
// what is left.
func (b *Body) crossing() (at r2.Vec, found bool) {
	r := newRows(b)
	if at, found = linesCross(b, r); found {
		return at, true
	}
	eps := b.eps()
	cuts := make([]float64, 0, 16)
	for i := range b.e {
		e := &b.e[i]
		cuts = append(cuts[:0], 0, 1)
		r.near(e.box, eps, func(j int) {
			if f := &b.e[j]; i != j && Near(e.box, f.box, eps) {
				cuts = e.meets(f.carrier, cuts)
			}
		})
		slices.Sort(cuts)
		for j := 1; j < len(cuts); j++ {
			for _, part := range [3]float64{0.5, 0.25, 0.75} {
				u := cuts[j-1] + part*(cuts[j]-cuts[j-1])
				p := e.at(u)
				twisted, told := r.twisted(i, u, p, eps)
				if twisted {
					return p, true
				}
				if told {
					break
				}
			}
		}
	}
	return r2.Vec{}, false
}

// twisted reports whether the loop is elsewhere than once around what is left
// of its element i at the point p, or around what is right of it. It looks half
// as far beside p as anything else is. Where that is too near to tell, which
// for lines is where rounding puts it, nothing is told: the loop touches itself
// there.
func (r *rows) twisted(i int, u float64, p r2.Vec, eps float64) (bad, told bool) {
	b := r.b
	e := &b.e[i]
	limit := eps
	if b.straight {
		limit = eps * 1e-6 // the rounding of p
	}
	d := math.Min(r2.Norm(r2.Sub(p, e.a)), r2.Norm(r2.Sub(p, e.b)))
	r.near(r2.Box{Min: p, Max: p}, d, func(j int) {
		if f := &b.e[j]; j != i && gapTo(f.box, p) < d {
			d = math.Min(d, f.distance(p))
		}
	})
	if d <= limit {
		return false, false
	}
	n := e.n // to the left of the middle, or for right turns to the right
	if e.turn < 0 {
		n = r2.Scale(-1, n)
	}
	sin, cos := math.Sincos(e.angleAt(u))
	left := r2.Scale(d/2, r2.Vec{X: n.X*cos - n.Y*sin, Y: n.X*sin + n.Y*cos})
	return r.winding(r2.Add(p, left)) != 1 || r.winding(r2.Sub(p, left)) != 0, true
}

// angleAt returns how far the tangent at a parameter is turned from that at the
// middle: tan(x/2) = (2u−1)·tan(T/2), T being half the turn.
func (e *element) angleAt(u float64) float64 {
	return 2 * math.Atan((2*u-1)*math.Tan(e.turn/2))
}
