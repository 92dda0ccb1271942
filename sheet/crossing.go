package sheet

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// chord is a straight piece of a flattened loop.
type chord struct {
	a, b   r2.Vec
	lo, hi float64 // extent in x
}

// crossing looks for a point where the outlines of a region cross by more than
// about twice the tolerance they are flattened with; touching is no crossing.
func crossing(r arc.Region) (at r2.Vec, found bool) {
	const tol = 1e-3
	var all []chord
	for _, l := range r.Loops() {
		flat, err := l.Flatten(tol)
		if err != nil || len(flat.V) > 40*maxVertices {
			continue // so large that a thousandth is beyond it
		}
		for i := range flat.NumSegments() {
			s := flat.Segment(i)
			all = append(all, chord{s.A, s.B, math.Min(s.A.X, s.B.X), math.Max(s.A.X, s.B.X)})
		}
	}
	slices.SortFunc(all, func(a, b chord) int { return cmp.Compare(a.lo, b.lo) })
	for i, c := range all {
		for _, d := range all[i+1:] {
			if d.lo > c.hi {
				break
			}
			if c.crosses(d, 2*tol) {
				return r2.Scale(0.5, r2.Add(d.a, d.b)), true
			}
		}
	}
	return r2.Vec{}, false
}

// crosses reports whether each chord has its ends on both sides of the other,
// more than tol away.
func (c chord) crosses(d chord, tol float64) bool {
	return c.parts(d.a, d.b, tol) && d.parts(c.a, c.b, tol)
}

func (c chord) parts(p, q r2.Vec, tol float64) bool {
	u := r2.Sub(c.b, c.a)
	l := tol * r2.Norm(u)
	x, y := r2.Cross(u, r2.Sub(p, c.a)), r2.Cross(u, r2.Sub(q, c.a))
	return x > l && y < -l || x < -l && y > l
}
