package hood

import (
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
)

// seamTol is how far the lines and arcs of a seam's edges may leave the true
// edges, mm.
const seamTol = 1e-3

// A flare is one flared side: its section, and its seam with the front.
type flare struct {
	curve.Section
	at          string // the JSON path of its sweep
	shape       string
	seam        miter.Seam
	front, side seamEdge    // of the sweeps, on the flat blanks, kerfs allowed for
	band        [2]seamEdge // of the skirts of front and side
	list        []SeamPoint
}

// flare works out a flared side of a sweep set at a JSON path.
func (b *builder) flare(e curve.Ends, w Sweep, at string) (flare, bool) {
	before := b.faults.Count()
	f := flare{Section: b.section(at, e, w), at: at, shape: w.Name()}
	if b.faults.Count() > before {
		return f, false
	}
	pair := miter.Pair{
		First:  miter.Panel{Profile: b.front.Show, Thickness: b.t},
		Second: miter.Panel{Profile: f.Show, Thickness: b.t},
		Plan:   90 * arc.Degree,
	}
	seam, err := pair.Seam()
	if err != nil {
		b.faults.Add(f.at, f.shape, "", "a side that meets the front: "+err.Error(), spec.ErrPlace)
		return f, false
	}
	f.seam = seam
	first, second, err := seam.Edges(seamTol)
	if err != nil {
		b.faults.Add(f.at, f.shape, "", "a side that meets the front: "+err.Error(), spec.ErrPlace)
		return f, false
	}
	if !f.setEdges(b, first, second) {
		b.faults.Add(f.at, f.shape, "", "a seam longer than the bevels at its ends", spec.ErrPlace)
		return f, false
	}
	f.list = seamList(seam, b.Skirt, b.Height)
	f.front.bevel, f.side.bevel = f.bevel(), f.bevel()
	f.front.saw, f.side.saw = f.varies(), f.varies()
	return f, true
}

func (f flare) flared() bool { return len(f.list) > 0 }

// bevel returns the bevel of the seam, or where it changes, its largest.
func (f flare) bevel() arc.Angle {
	most := arc.Angle(0)
	for _, p := range f.list {
		most = max(most, p.Bevel)
	}
	return most
}

// varies reports whether the bevel changes along the seam by more than a saw
// is set to.
func (f flare) varies() bool {
	least := f.bevel()
	for _, p := range f.list {
		least = min(least, p.Bevel)
	}
	return f.bevel()-least > 0.05*arc.Degree
}

// report returns the facts of the side, shared with no one.
func (f flare) report() Flare {
	return Flare{Curve: f.Curve.Clone(), Seam: slices.Clone(f.list)}
}
