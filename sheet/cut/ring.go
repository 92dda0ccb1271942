package cut

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// ring looks at what was left along a loop that has to be cut through. What is
// left has to be no more than tabs of the size agreed; whether they hold is seen
// in the sheet that is left.
func (r *replayer) ring(g ring, left []float64) {
	tol := r.opt.stays() + r.opt.Tolerance
	tabs := 0
	n := len(left)
	if n == 0 {
		return
	}
	start := 0 // of a run that begins before the first station, its end
	for start < n && left[start] > tol {
		start++
	}
	if start == n {
		r.uncut(g, 0, left[0])
		return
	}
	for i := 0; i < n; {
		k := (start + i) % n
		if left[k] <= tol {
			i++
			continue
		}
		j, high := i, 0.0
		for ; j < n && left[(start+j)%n] > tol; j++ {
			high = math.Max(high, left[(start+j)%n])
		}
		if r.isTab(g, k, (start+j-1)%n, high) {
			tabs++
			r.tabs[g.piece] = append(r.tabs[g.piece], r.place(g, (start+(i+j)/2)%n))
		} else {
			r.uncut(g, (start+(i+j)/2)%n, high)
		}
		i = j
	}
	r.rep.Tabs += tabs
}

// isTab reports whether what is left between two stations is no larger than a
// tab: as wide as agreed where it is highest, with the cutter's own width, and sides
// that fall at 30 degrees.
func (r *replayer) isTab(g ring, first, last int, high float64) bool {
	l := g.s[last] - g.s[first]
	if l < 0 {
		l += g.length
	}
	most := r.tabLength() * r.inward(g)
	return r.opt.Hold == ByTabs && high <= r.opt.TabHeight+r.opt.Tolerance && l <= most+2*r.station
}

// inward returns by how much a tab is longer along the edge of an opening than
// along the way of the axis, which is shorter by a turn of the cutter's radius.
// Along an outline it is no longer.
func (r *replayer) inward(g ring) float64 {
	way := g.length - 2*math.Pi*r.millRadius()
	if g.feature == loopOf || way <= 0 {
		return 1
	}
	return math.Min(4, g.length/way)
}

// tabLength returns how long a tab may be along its edge.
func (r *replayer) tabLength() float64 {
	return r.opt.TabWidth + 2*r.millRadius() + 2*(r.opt.TabHeight+r.opt.Through)/math.Tan(float64(tabRise))
}

// place returns where a station is.
func (r *replayer) place(g ring, station int) r2.Vec {
	at, _ := r.pieces[g.piece].outline.Loops()[g.feature-loopOf].At(g.s[station])
	return at
}

func (r *replayer) uncut(g ring, station int, z float64) {
	q := &r.pieces[g.piece]
	r.book.add(Fault{Kind: Uncut, Placement: q.at, Name: q.name, Feature: featureName(g.feature), At: r.place(g, station), Z: z})
}

// featureName names a feature as people count.
func featureName(f int32) string {
	switch {
	case f >= bevelOf:
		return fmt.Sprintf("bevel %d", f-bevelOf+1)
	case f >= pocketOf:
		return fmt.Sprintf("pocket %d", f-pocketOf+1)
	case f >= slotOf:
		return fmt.Sprintf("slot %d", f-slotOf+1)
	case f > loopOf:
		return fmt.Sprintf("opening %d", f-loopOf)
	case f == loopOf:
		return "outline"
	}
	return "face"
}

// A book keeps one fault of each kind for each feature, the worst.
type book map[bookKey]*Fault

type bookKey struct {
	kind      FaultKind
	placement int
	feature   string
}

func (b book) add(f Fault) {
	key := bookKey{f.Kind, f.Placement, f.Feature}
	old := b[key]
	if old == nil {
		f.Count = 1
		b[key] = &f
		return
	}
	f.Count = old.Count + 1
	if math.Abs(f.Z-f.Need) <= math.Abs(old.Z-old.Need) {
		count := f.Count
		f = *old
		f.Count = count
	}
	*old = f
}

func (b book) sorted() Faults {
	var out Faults
	for _, f := range b {
		out = append(out, *f)
	}
	slices.SortFunc(out, func(x, y Fault) int {
		switch {
		case x.Kind != y.Kind:
			return int(x.Kind) - int(y.Kind)
		case x.Placement != y.Placement:
			return x.Placement - y.Placement
		case x.Feature < y.Feature:
			return -1
		case x.Feature > y.Feature:
			return 1
		}
		return 0
	})
	return out
}
