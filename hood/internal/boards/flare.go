package boards

import (
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
	list        []Station
}

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

func (f flare) flared() bool { return len(f.list) > 0 }

// bevel returns the bevel of the seam, or where it changes, its largest.
func (f flare) bevel() arc.Angle {
	most := arc.Angle(0)
	for _, p := range f.list {
		most = max(most, p.First.Bevel)
	}
	return most
}

// varies reports whether the bevel changes along the seam by more than a saw
// is set to.
func (f flare) varies() bool {
	least := f.bevel()
	for _, p := range f.list {
		least = min(least, p.First.Bevel)
	}
	return f.bevel()-least > 0.05*arc.Degree
}

// told returns what is told of the side.
func (f flare) told() Side { return Side{f.Section, f.seam, f.list} }

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
