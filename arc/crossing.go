package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// refuseCrossing returns an error where the loops cross themselves or each
// other. Loops that only touch, or run along each other, may stay.
func (s *shaper) refuseCrossing(loops []Path, all bool, open int) error {
	var strands []strand
	src := int32(0)
	for _, p := range loops {
		n := p.NumSegments()
		if open > 0 {
			n = open
		}
		for i := range n {
			strands = appendStrands(strands, p.Segment(i), src, [2]int8{1, 0})
			src++
		}
	}
	eps := s.tol / 16
	find := func() (r2.Vec, bool) { return badWinding(strands, all, len(loops) == 1, eps) }
	if open > 0 {
		find = func() (r2.Vec, bool) { return properCrossing(strands, eps) }
	}
	if p, found := find(); found {
		return &ParamError{s.fn, "crossing", r2.Add(p, s.center), "mm", "loops that do not cross and holes inside", ErrCrossing}
	}
	return nil
}

// badWinding finds a place where closed loops do not wind around as those of
// regions do: once on the left and not at all on the right.
func badWinding(strands []strand, all, one bool, eps float64) (at r2.Vec, found bool) {
	lo, hi := 0, 1
	if all {
		lo, hi = -1, 0
	}
	a, cuts := cutStrands(strands, eps)
	if a == nil {
		return r2.Vec{}, true
	}
	if one && len(a.node) == len(strands) && !slices.ContainsFunc(cuts, func(c []cut) bool { return len(c) > 2 }) {
		return r2.Vec{}, false // a loop that nowhere comes near itself
	}
	a.build(cuts)
	for _, l := range a.link {
		if w, v := l.left[0], l.right()[0]; min(w, v) < lo || max(w, v) > hi {
			return a.segment(l.from, l.to, l.k).Mid(), true
		}
	}
	return r2.Vec{}, false
}

// appendStrands appends a segment, halved where it turns by more than a half
// circle.
func appendStrands(out []strand, s Segment, src int32, w [2]int8) []strand {
	if s.A == s.B {
		return out
	}
	if math.Abs(s.Turn) > 1 {
		m, k := s.Mid(), halfTurn(s.Turn)
		out = append(out, strand{newEdge(s.A, m, k), src, w})
		return append(out, strand{newEdge(m, s.B, k), src, w})
	}
	return append(out, strand{newEdge(s.A, s.B, s.Turn), src, w})
}

// properCrossing finds two strands that cross away from their ends.
func properCrossing(strands []strand, eps float64) (at r2.Vec, found bool) {
	boxes := make([]r2.Box, len(strands))
	for i := range strands {
		boxes[i] = strands[i].box()
	}
	x := newIndex(boxes)
	var hits []hit
	for i := range strands {
		x.search(boxes[i], func(j int) bool {
			if j <= i {
				return true
			}
			e, f := &strands[i].edge, &strands[j].edge
			hits = meet(hits[:0], e, f, eps)
			at, found = deepCrossing(e, f, hits, eps)
			return !found
		})
		if found {
			break
		}
	}
	return at, found
}

// deepCrossing picks a hit at which e and f cross and not only touch: they
// stand more than eps off each other on either side of it, with opposite
// signs, within the stretches that lead to the next hit or end.
func deepCrossing(e, f *edge, hits []hit, eps float64) (r2.Vec, bool) {
	for i, h := range hits {
		if h.te == 0 || h.te == 1 || h.tf == 0 || h.tf == 1 {
			continue
		}
		lo, hi := 0.0, 1.0
		for j, g := range hits {
			if j != i && g.te <= h.te {
				lo = math.Max(lo, g.te)
			}
			if j != i && g.te > h.te {
				hi = math.Min(hi, g.te)
			}
		}
		x, y := f.off(e.at((lo+h.te)/2)), f.off(e.at((hi+h.te)/2))
		if math.Min(math.Abs(x), math.Abs(y)) > eps && x*y < 0 {
			return h.p, true
		}
	}
	return r2.Vec{}, false
}
