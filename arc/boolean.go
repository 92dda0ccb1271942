package arc

import (
	"context"

	"gonum.org/v1/gonum/spatial/r2"
)

// Union returns the area that a or b cover, as regions that do not overlap.
// The regions of a, and those of b, may overlap among themselves: with b nil
// it is the union of many regions at once. Arcs stay arcs. Features thinner
// than tol, in mm, may be lost; tol 0 means 1e-6 mm, or 1e-11 of the extent
// where that is more.
//
// Loops must be closed, enclose area, run the right way round and not cross
// themselves or one another in a region: what [Region.Check] finds is refused.
func Union(a, b []Region, tol float64) ([]Region, error) {
	return UnionContext(context.Background(), a, b, tol)
}

// UnionContext is [Union], stopped with the context's error when ctx is done.
func UnionContext(ctx context.Context, a, b []Region, tol float64) ([]Region, error) {
	return combine(ctx, "arc.Union", a, b, tol, func(a, b bool) bool { return a || b })
}

// Intersection returns the area that both a and b cover; see [Union].
func Intersection(a, b []Region, tol float64) ([]Region, error) {
	return IntersectionContext(context.Background(), a, b, tol)
}

// IntersectionContext is [Intersection], stopped with the context's error when ctx is done.
func IntersectionContext(ctx context.Context, a, b []Region, tol float64) ([]Region, error) {
	return combine(ctx, "arc.Intersection", a, b, tol, func(a, b bool) bool { return a && b })
}

// Difference returns the area that a covers and b does not; see [Union].
func Difference(a, b []Region, tol float64) ([]Region, error) {
	return DifferenceContext(context.Background(), a, b, tol)
}

// DifferenceContext is [Difference], stopped with the context's error when ctx is done.
func DifferenceContext(ctx context.Context, a, b []Region, tol float64) ([]Region, error) {
	return combine(ctx, "arc.Difference", a, b, tol, func(a, b bool) bool { return a && !b })
}

// SymmetricDifference returns the area that one of a and b covers and the other
// does not; see [Union].
func SymmetricDifference(a, b []Region, tol float64) ([]Region, error) {
	return SymmetricDifferenceContext(context.Background(), a, b, tol)
}

// SymmetricDifferenceContext is [SymmetricDifference], stopped with the context's error when ctx is done.
func SymmetricDifferenceContext(ctx context.Context, a, b []Region, tol float64) ([]Region, error) {
	return combine(ctx, "arc.SymmetricDifference", a, b, tol, func(a, b bool) bool { return a != b })
}

func combine(ctx context.Context, fn string, a, b []Region, tol float64, in func(a, b bool) bool) ([]Region, error) {
	loops, err := loopsOf(fn, a, b)
	if err != nil || len(loops) == 0 {
		return nil, err
	}
	box := boundsOf(loops)
	if tol, err = tolerance(fn, tol, leastTolerance(box, 0)); err != nil {
		return nil, err
	}
	center := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	if err := needLegal(ctx, fn, center, tol, a, b); err != nil {
		return nil, err
	}
	strands := strandsOf(loops, loopCount(a), center)
	// Many copies that stand a share of one merging distance apart are merged in
	// chains that it does not bound; at another it tells them apart. Finer ones keep
	// the tolerance all the more.
	for _, f := range []float64{1, 0.3, 3, 0.1, 0.03, 0.01} {
		plane := arrange(ctx, strands, f*tol/16)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if plane == nil {
			break
		}
		found, ok := plane.loops(func(w [2]int) bool { return in(w[0] > 0, w[1] > 0) })
		if ok {
			return assemble(ctx, plane.paths(found, center))
		}
	}
	return nil, &ParamError{fn, "tol", tol, "mm", "another tolerance", ErrUnproven}
}

// paths returns loops with area, moved back from the center.
func (a *arrangement) paths(loops [][]step, center r2.Vec) []Path {
	var out []Path
	for _, loop := range loops {
		if p := a.path(loop); !thin(p, 2*a.eps) {
			out = append(out, p.Transform(Shift(center)))
		}
	}
	return out
}

// loopsOf returns all loops, those of a first, each checked.
func loopsOf(fn string, sets ...[]Region) ([]Path, error) {
	var loops []Path
	for _, set := range sets {
		for _, r := range set {
			for _, p := range r.Loops() {
				if err := p.Usable(); err != nil {
					return nil, err
				}
			}
			if err := checkLoops(fn, r); err != nil {
				return nil, err
			}
			loops = append(loops, r.Loops()...)
		}
	}
	return loops, nil
}

func loopCount(set []Region) int {
	n := 0
	for _, r := range set {
		n += 1 + len(r.Holes)
	}
	return n
}

// strandsOf returns the loops, moved so that center is the origin. The first
// count towards the first winding number, the others towards the second.
func strandsOf(loops []Path, first int, center r2.Vec) []strand {
	var out []strand
	home := Shift(r2.Scale(-1, center))
	src := int32(0)
	for i, p := range loops {
		w := [2]int8{1, 0}
		if i >= first {
			w = [2]int8{0, 1}
		}
		p = p.Transform(home)
		for j := range p.NumSegments() {
			out = appendStrands(out, p.Segment(j), src, w)
			src++
		}
	}
	return out
}
