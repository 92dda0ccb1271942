package arc

import (
	"context"

	"gonum.org/v1/gonum/spatial/r2"
)

// Check reports the first fault that makes a region illegal: [ErrEmpty] or
// [ErrNotFinite] of a loop, [ErrOpen], [ErrZeroArea], [ErrOrientation] of a loop
// run the wrong way round, which [Region.Oriented] and [Regions] mend, and
// [ErrCrossing] where loops cross themselves or each other, run twice around or
// a hole is not inside the outer loop. Loops that touch, or cross less deep than
// tol, in mm, pass; tol 0 means as for [Union].
//
// [Union] and its like, and [Region.Offset], make the same check.
func (r Region) Check(tol float64) error { return r.CheckContext(context.Background(), tol) }

// CheckContext is [Region.Check], stopped with the context's error when ctx is
// done.
func (r Region) CheckContext(ctx context.Context, tol float64) error {
	const fn = "arc.Region.Check"
	loops, err := loopsOf(fn, []Region{r})
	if err != nil {
		return err
	}
	box := boundsOf(loops)
	if tol, err = tolerance(fn, tol, leastTolerance(box, 0)); err != nil {
		return err
	}
	return needSimple(ctx, fn, loops, r2.Scale(0.5, r2.Add(box.Min, box.Max)), tol)
}

// Check reports the first fault that makes a path illegal: what
// [Path.Usable] finds, and [ErrCrossing] where it crosses itself or, closed,
// runs around any point twice. A closed path may run either way but must have
// area. Paths that touch themselves, or cross less deep than tol, in mm, pass;
// tol 0 means as for [Union].
func (p Path) Check(tol float64) error { return p.CheckContext(context.Background(), tol) }

// CheckContext is [Path.Check], stopped with the context's error when ctx is
// done.
func (p Path) CheckContext(ctx context.Context, tol float64) error {
	const fn = "arc.Path.Check"
	if err := p.Usable(); err != nil {
		return err
	}
	box := p.Bounds()
	tol, err := tolerance(fn, tol, leastTolerance(box, 0))
	if err != nil {
		return err
	}
	center := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	if p.Closed {
		if p.Area() == 0 {
			return &ParamError{fn, "area", 0.0, "mm²", "a loop with area", ErrZeroArea}
		}
		return needSimple(ctx, fn, []Path{p.Oriented(true)}, center, tol)
	}
	at, found := crossingOf(ctx, p.Transform(Shift(r2.Scale(-1, center))), p.NumSegments(), tol)
	if err := ctx.Err(); err != nil {
		return err
	}
	if found {
		return &ParamError{fn, "crossing", r2.Add(at, center), "mm", "a path that does not cross itself", ErrCrossing}
	}
	return nil
}

// needSimple returns an error where the loops of one region cross.
func needSimple(ctx context.Context, fn string, loops []Path, center r2.Vec, tol float64) error {
	strands := strandsOf(loops, len(loops), center)
	at, found := badWinding(ctx, strands, false, len(loops) == 1, tol/16)
	if err := ctx.Err(); err != nil {
		return err
	}
	if found {
		return &ParamError{fn, "crossing", r2.Add(at, center), "mm", "loops that do not cross and holes inside", ErrCrossing}
	}
	return nil
}

// boundsOf returns the extent of at least one path.
func boundsOf(paths []Path) r2.Box {
	box := paths[0].Bounds()
	for _, p := range paths[1:] {
		box = union(box, p.Bounds())
	}
	return box
}

// needLegal checks the regions of sets one by one.
func needLegal(ctx context.Context, fn string, center r2.Vec, tol float64, sets ...[]Region) error {
	for _, set := range sets {
		for _, r := range set {
			if err := needSimple(ctx, fn, r.Loops(), center, tol); err != nil {
				return err
			}
		}
	}
	return nil
}
