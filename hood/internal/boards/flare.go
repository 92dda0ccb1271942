package boards

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood/curve"
	"example.com/sagitta/hood/spec"
	"example.com/sagitta/miter"
)

// seamTol is how far the lines and arcs of a seam's edges may leave the true
// edges, mm.
const seamTol = 1e-3

// flare works out a flared side of a sweep set at a JSON path.
func (b *builder) flare(e curve.Ends, w curve.Sweep, at string) (flare, bool) {
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
	f.list = stations(seam, b.Skirt, b.Height)
	f.front.bevel, f.side.bevel = f.bevel(), f.bevel()
	f.front.saw, f.side.saw = f.varies(), f.varies()
	return f, true
}

// seamRows is how many stretches a seam is told in.
const seamRows = 24

// stations returns the places of a seam, evenly from the skirt up.
func stations(s miter.Seam, skirt, height float64) []Station {
	var out []Station
	for i := range seamRows + 1 {
		y := skirt + (height-skirt)*float64(i)/seamRows
		if at, err := s.At(max(s.Lower, min(y, s.Upper))); err == nil {
			out = append(out, Station{y, at})
		}
	}
	return out
}

// seamNote says how the bevel of a seam runs and what one setting leaves open:
// a bevel m where β is due stands off by t·(tan β − tan m) at the back of each
// of the two boards.
func (b *builder) seamNote(f flare) string {
	least, most := f.bevel(), f.bevel()
	for _, p := range f.list {
		least = min(least, p.First.Bevel)
	}
	lo, hi := math.Tan(float64(least)), math.Tan(float64(most))
	return fmt.Sprintf("bevel from %s to %s off square, by the lines on both faces; at one setting of %s, the largest, the joint closes on the show face and stays open by up to %s at the back of each board: fill it",
		say.Program(least), say.Program(most), say.Program(most), b.faults.In.Thin(b.t*(hi-lo)))
}
