package arc

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// refuseCrossing returns an error where the loops cross themselves or each
// other. Loops that only touch, or run along each other, may stay.
func (s *shaper) refuseCrossing(ctx context.Context, loops []Path, all bool, open int) error {
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
	find := func() (r2.Vec, bool) { return badWinding(ctx, strands, all, len(loops) == 1, eps) }
	if open > 0 {
		find = func() (r2.Vec, bool) { return crossingOf(ctx, loops[0], open, s.tol) }
	}
	p, found := find()
	if err := ctx.Err(); err != nil {
		return err
	}
	if found {
		return &ParamError{s.fn, "crossing", r2.Add(p, s.center), "mm", "loops that do not cross and holes inside", ErrCrossing}
	}
	return nil
}

// badWinding finds a place where closed loops do not wind around as those of
// regions do: once on the left and not at all on the right. When ctx is done
// what it tells means nothing.
func badWinding(ctx context.Context, strands []strand, all, one bool, eps float64) (at r2.Vec, found bool) {
	lo, hi := 0, 1
	if all {
		lo, hi = -1, 0
	}
	a, cuts := cutStrands(ctx, strands, eps)
	if a == nil {
		return r2.Vec{}, true
	}
	if one && len(a.node) == len(strands) && !slices.ContainsFunc(cuts, func(c []cut) bool { return len(c) > 2 }) {
		return r2.Vec{}, false // a loop that nowhere comes near itself
	}
	if !a.build(cuts) {
		return r2.Vec{}, true
	}
	for i := range a.link {
		l := &a.link[i]
		if w, v := l.left[0], l.right()[0]; min(w, v) < lo || max(w, v) > hi {
			return a.knot(int32(i)), true
		}
	}
	return r2.Vec{}, false
}

// knot follows link i to the first node at which more than two links meet, where
// the strands cross or part; where there is none it returns the middle of i.
func (a *arrangement) knot(i int32) r2.Vec {
	at, node := i, a.link[i].to
	for range a.link {
		f := a.fan(node)
		if len(f) != 2 {
			return a.node[node]
		}
		next := f[0]
		if next.link == at {
			next = f[1]
		}
		if at = next.link; at == i {
			break
		}
		if node = a.link[at].from; next.start {
			node = a.link[at].to
		}
	}
	return a.segment(a.link[i].from, a.link[i].to, a.link[i].k).Mid()
}

// appendStrands appends a segment, halved where it turns by more than a half
// circle.
func appendStrands(out []strand, s Segment, src int32, w [2]int8) []strand {
	if s.A == s.B {
		return out
	}
	if math.Abs(s.K) > 1 {
		m, k := s.Mid(), halfTurn(s.K)
		out = append(out, strand{newEdge(s.A, m, k), src, w})
		return append(out, strand{newEdge(m, s.B, k), src, w})
	}
	return append(out, strand{newEdge(s.A, s.B, s.K), src, w})
}

// crossingOf finds a place where the first n segments of p, an open path,
// cross each other.
func crossingOf(ctx context.Context, p Path, n int, tol float64) (at r2.Vec, found bool) {
	all, err := Path{V: p.V[:n+1]}.SelfContactsContext(ctx, tol)
	if err != nil {
		return r2.Vec{}, true
	}
	i := slices.IndexFunc(all, func(c Contact) bool { return c.Crosses })
	if i < 0 {
		return r2.Vec{}, false
	}
	return all[i].At, true
}
