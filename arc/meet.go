package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// ulps is what two points worked out from their segments may be apart though
// they are one, as a share of their coordinates and lengths: two ulps each.
const ulps = 4 * 0x1p-52

// Meet returns where two neighbors meet, a near its end and b near its start,
// as the lengths along each, which may lie beyond its ends: below 0 or above
// its length the segment runs on along its line or circle. It looks no farther
// from those ends than a and b are long. Ends no more than tol >= 0 mm apart
// meet as they are; so do neighbors tangent to each other, which meet nowhere
// else.
func Meet(a, b Segment, tol float64) (onA, onB float64, ok bool) {
	la, lb := a.Length(), b.Length()
	if !(la > 0 && lb > 0) {
		return 0, 0, false
	}
	if near(a.B, b.A, tol) {
		return la, 0, true
	}
	// Newton's method on both lengths; one step for lines. It has arrived where
	// a step is lost in rounding, or where the two points are one but for it: a
	// point comes out of At to about an ulp of its coordinates and its length,
	// and of neighbors that are nearly tangent that rounding moves a step by as
	// much as their angle is small.
	onA = la
	for range 40 {
		p, u := a.At(onA)
		q, v := b.At(onB)
		gap, cross := r2.Sub(q, p), r2.Cross(u, v)
		size := la + lb + math.Abs(p.X) + math.Abs(p.Y)
		if r2.Norm(gap) <= ulps*size {
			return onA, onB, true
		}
		stepA, stepB := r2.Cross(gap, v)/cross, r2.Cross(gap, u)/cross
		onA, onB = onA+stepA, onB+stepB
		if !(math.Abs(onA-la) <= la && math.Abs(onB) <= lb) {
			return 0, 0, false
		}
		if math.Abs(stepA)+math.Abs(stepB) <= 1e-14*size {
			return onA, onB, true
		}
	}
	return 0, 0, false
}

// Shift returns the path with each segment moved square to itself, by[i] mm to
// the left of segment i, or to the right where negative, or by[0] for all if
// it is the only one. Neighbors run on or are trimmed to where they meet, with
// tol as of [Meet]. The segments stay the same in number and sequence, so it
// is for shifts that are small beside them, such as those of bevels; see
// [Path.Offset] for others. It is an error if neighbors do not meet or a
// segment is used up.
func (p Path) Shift(by []float64, tol float64) (Path, error) {
	const fn = "arc.Path.Shift"
	if err := p.Usable(); err != nil {
		return Path{}, err
	}
	if err := needTolerance(fn, tol); err != nil {
		return Path{}, err
	}
	n := p.NumSegments()
	if len(by) != n && len(by) != 1 {
		return Path{}, &ParamError{fn, "by", len(by), "", "one distance, or one for each segment", ErrRange}
	}
	seg := make([]Segment, n)
	for i := range seg {
		d := by[min(i, len(by)-1)]
		if err := needFinite(fn, "by", d, "mm"); err != nil {
			return Path{}, err
		}
		var ok bool
		if seg[i], ok = p.Segment(i).shift(d); !ok {
			return Path{}, &ParamError{fn, "by", d, "mm", "less than the radius of the arc it shrinks", ErrRange}
		}
	}
	return joined(fn, seg, p.Closed, tol)
}

// shift returns the segment moved to the left by d. What is concentric turns as
// far, so it keeps its k. It reports false where an arc shrinks to nothing.
func (s Segment) shift(d float64) (Segment, bool) {
	if s.Curvature()*d >= 1 || s.A == s.B {
		return Segment{}, false
	}
	u, v := s.Tangents()
	return Segment{r2.Add(s.A, r2.Scale(-d, rightOf(u))), r2.Add(s.B, r2.Scale(-d, rightOf(v))), s.K}, true
}

// joined returns the path of segments run on or trimmed to meet their
// neighbors.
func joined(fn string, seg []Segment, closed bool, tol float64) (Path, error) {
	n := len(seg)
	from, to := make([]float64, n), make([]float64, n)
	for i, s := range seg {
		to[i] = s.Length()
	}
	for i := range seg {
		j := (i + 1) % n
		if j == 0 && !closed {
			break
		}
		var ok bool
		if to[i], from[j], ok = Meet(seg[i], seg[j], tol); !ok {
			return Path{}, &ParamError{fn, "by", i, "", "neighbors that meet after segment", ErrEmpty}
		}
	}
	out := Path{Closed: closed}
	for i, s := range seg {
		if !(from[i] < to[i]) {
			return Path{}, &ParamError{fn, "by", i, "", "a shift that leaves something of segment", ErrEmpty}
		}
		s = s.Part(from[i], to[i])
		out.V = append(out.V, Vertex{s.A, s.K})
		if i == n-1 && !closed {
			out.V = append(out.V, Vertex{P: s.B})
		}
	}
	return out, nil
}
