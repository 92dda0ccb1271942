package arc

import "gonum.org/v1/gonum/spatial/r2"

// Check reports the first fault that makes a region illegal: [ErrEmpty] or
// [ErrNotFinite] of a loop, [ErrOpen], [ErrZeroArea], [ErrOrientation] of a loop
// run the wrong way round, which [Region.Oriented] and [Regions] mend, and
// [ErrCrossing] where loops cross themselves or each other, run twice around or
// a hole is not inside the outer loop. Loops that touch, or cross less deep than
// tol, in mm, pass; tol 0 means as for [Union]. A closed path is checked as the
// outer loop of a region without holes.
//
// [Union] and its like, and [Region.Offset], make the same check.
func (r Region) Check(tol float64) error {
	const fn = "arc.Region.Check"
	loops, err := loopsOf(fn, []Region{r})
	if err != nil {
		return err
	}
	box := boundsOf(loops)
	if tol, err = tolerance(fn, tol, leastTolerance(box, 0)); err != nil {
		return err
	}
	return needSimple(fn, loops, r2.Scale(0.5, r2.Add(box.Min, box.Max)), tol)
}

// needSimple returns an error where the loops of one region cross.
func needSimple(fn string, loops []Path, center r2.Vec, tol float64) error {
	strands := strandsOf(loops, len(loops), center)
	if at, found := badWinding(strands, false, len(loops) == 1, tol/16); found {
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
func needLegal(fn string, center r2.Vec, tol float64, sets ...[]Region) error {
	for _, set := range sets {
		for _, r := range set {
			if err := needSimple(fn, r.Loops(), center, tol); err != nil {
				return err
			}
		}
	}
	return nil
}
