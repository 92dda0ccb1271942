package sheet

import (
	"example.com/sagitta/internal/num"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// The engine is exact where all polygons have their vertices on one lattice and
// lie at right angles: what fits with nothing to spare is then found. Sizes in
// tenths of a millimeter and halves of them are on this lattice; any other
// outline is grown onto it.
const (
	lattice    = 0.0125 // mm
	maxOnGrid  = 6000   // mm, beyond which the engine's lattice ends
	offLattice = 1.5e-7 // mm, rounding that is still taken as on it
)

// snap brings the grown outlines of a group to the lattice, if all lie at right
// angles.
func (r *run) snap() {
	for k, i := range r.group.parts {
		l, w := r.parts[i].Size()
		if r.parts[i].anyTurn() || math.Max(l, w) > maxOnGrid || !finer(r.outer[k]) {
			return
		}
	}
	for k := range r.outer {
		lo := extent(r.outer[k]).Min
		if loops, ok := snappedAll(slices.Concat([][]r2.Vec{r.outer[k]}, r.holes[k], r.cores[k]), lo); ok {
			n := 1 + len(r.holes[k])
			r.outer[k], r.holes[k], r.cores[k] = loops[0], loops[1:n:n], loops[n:]
		}
	}
}

// snappedAll is snapped for each of some loops.
func snappedAll(loops [][]r2.Vec, lo r2.Vec) (out [][]r2.Vec, ok bool) {
	ok = true
	for _, l := range loops {
		p, fine := snapped(l, lo)
		out, ok = append(out, p), ok && fine
	}
	return out, ok
}

// finer reports whether a polygon is large enough for the lattice not to show.
func finer(p []r2.Vec) bool { return math.Abs(shoelace(p)) > 1e4*lattice*lattice }

// snapped returns a polygon on the lattice about lo that holds p: p itself
// where it is on it, else p moved outward by a step, its vertices rounded by
// less than that.
func snapped(p []r2.Vec, lo r2.Vec) (out []r2.Vec, ok bool) {
	on := func(x float64) bool { return math.Abs(x-lattice*math.Round(x/lattice)) < offLattice }
	all := true
	for _, v := range p {
		all = all && on(v.X-lo.X) && on(v.Y-lo.Y)
	}
	if all {
		return p, true
	}
	moved, ok := outset(p, lattice)
	for _, v := range moved {
		v = r2.Vec{X: lo.X + num.Round(v.X-lo.X, lattice), Y: lo.Y + num.Round(v.Y-lo.Y, lattice)}
		if len(out) == 0 || out[len(out)-1] != v {
			out = append(out, v)
		}
	}
	return out, ok && len(out) >= 3 && (shoelace(out) > 0) == (shoelace(p) > 0) && simple(out)
}
