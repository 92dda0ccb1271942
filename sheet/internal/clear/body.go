package clear

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/exact"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Body is a region in place, ready to be measured against others.
type Body struct {
	e    []element
	Box  r2.Box
	deep r2.Vec // a point well inside, once it has been looked for
	seen bool   // it has
	// Outside says that the material is what lies outside the loops, as it is
	// for a sheet that parts must not leave.
	Outside  bool
	straight bool // all elements are lines
}

// NewBody makes a region ready.
func NewBody(r arc.Region) *Body {
	b := &Body{Box: r.Bounds()}
	for _, l := range r.Loops() {
		b.e = append(b.e, elementsOf(l)...)
	}
	b.straight = !slices.ContainsFunc(b.e, func(e element) bool { return e.k > 0 })
	return b
}

// well returns a point well inside. It is for one goroutine at a time.
func (b *Body) well() r2.Vec {
	if !b.seen {
		b.deep, b.seen = b.inner(), true
	}
	return b.deep
}

// inner returns a point inside, the deepest of a few tries: straight in from
// the middle of each element by falling steps.
func (b *Body) inner() r2.Vec {
	var best r2.Vec
	most := 0.0
	for _, e := range b.e {
		n := e.n
		if e.turn < 0 {
			n = r2.Scale(-1, n)
		}
		step := math.Max(b.Box.Max.X-b.Box.Min.X, b.Box.Max.Y-b.Box.Min.Y) / 2
		for ; step > most; step /= 2 {
			p := r2.Add(e.m, r2.Scale(step, n))
			if d := b.edge(p, step); d > most && b.within(p) {
				best, most = p, d
			}
		}
	}
	return best
}

// edge returns the distance of p from the boundary, or a value >= far where it
// is no less than far.
func (b *Body) edge(p r2.Vec, far float64) float64 {
	least := far
	for i := range b.e {
		if e := &b.e[i]; gapTo(e.box, p) < least {
			least = math.Min(least, e.distance(p))
		}
	}
	return least
}

// gapTo returns a lower bound of the distance of p from a box.
func gapTo(b r2.Box, p r2.Vec) float64 {
	return math.Max(math.Max(b.Min.X-p.X, p.X-b.Max.X), math.Max(b.Min.Y-p.Y, p.Y-b.Max.Y))
}

// within reports whether p, which is not on the boundary, is inside.
func (b *Body) within(p r2.Vec) bool { return (b.winding(p) > 0) != b.Outside }

// winding returns how often the loops go around p, which is not on them: the
// number for the chords, put right where p lies between a chord and its arc. A
// p on a chord counts as east of it, or above a level one, in both.
func (b *Body) winding(p r2.Vec) int {
	w := 0
	for i := range b.e {
		w += b.e[i].around(p)
	}
	return w
}

// around returns the element's share in how often its loop goes around p.
func (e *element) around(p r2.Vec) int {
	w := 0
	up := e.a.Y <= p.Y && e.b.Y > p.Y
	down := e.b.Y <= p.Y && e.a.Y > p.Y
	if !up && !down && (e.k == 0 || gapTo(e.box, p) > 0) {
		return 0
	}
	left := leftOf(e.a, e.b, p)
	if up && left {
		w++
	} else if down && !left {
		w--
	}
	// An arc that turns left bulges to the right of its chord.
	if e.k > 0 && gapTo(e.box, p) <= 0 && left == (e.turn < 0) && e.away(p) < 0 {
		if e.turn > 0 {
			w++
		} else {
			w--
		}
	}
	return w
}

// leftOf reports whether p lies left of the line from a to b.
func leftOf(a, b, p r2.Vec) bool {
	if side := exact.Orient(a, b, p); side != 0 {
		return side > 0
	}
	if a.Y == b.Y {
		return b.X > a.X
	}
	return b.Y < a.Y
}

// A Breach is a point of one outline that comes too near another region.
type Breach struct {
	At    r2.Vec
	Clear float64 // signed distance there: negative inside
}

// TooNear looks for a point where two bodies come nearer than need; a negative
// need lets them overlap by that much. It returns the worst point it meets.
//
// Along an element of one outline the answer can change only where the
// distance to the other boundary passes |need|, which is on the lines and
// circles parallel to its elements at that distance and on the circles about
// their ends. So the element is cut at all of these, and one point of each
// piece is asked. Where no boundary comes too near, one region could still lie
// wholly upon the other, outline upon outline, which is near enough unless need is
// 0 or less; an inner point tells.
func TooNear(a, b *Body, need float64) (Breach, bool) {
	var worst Breach
	bad := false
	note := func(p r2.Vec, d float64) {
		if !bad || d < worst.Clear {
			worst, bad = Breach{p, d}, true
		}
	}
	reach := math.Abs(need)
	a.nearPieces(b, need, reach, note)
	b.nearPieces(a, need, reach, note)
	for _, o := range [2][2]*Body{{a, b}, {b, a}} {
		if need <= 0 && !bad && !o[0].Outside && o[1].within(o[0].well()) {
			note(o[0].well(), -o[1].edge(o[0].well(), math.Inf(1)))
		}
	}
	return worst, bad
}

func (b *Body) nearPieces(o *Body, need, reach float64, note func(r2.Vec, float64)) {
	cuts := make([]float64, 0, 16)
	for i := range b.e {
		e := &b.e[i]
		if !o.Outside && !Near(e.box, o.Box, reach) {
			continue
		}
		cuts = append(cuts[:0], 0, 1)
		for j := range o.e {
			if f := &o.e[j]; Near(e.box, f.box, reach) {
				cuts = e.cutsAt(f, reach, cuts)
			}
		}
		slices.Sort(cuts)
		for j := 1; j < len(cuts); j++ {
			if cuts[j] > cuts[j-1] {
				p := e.at((cuts[j-1] + cuts[j]) / 2)
				if d := o.clearance(p, reach); d < need {
					note(p, d)
				}
			}
		}
	}
}

// cutsAt appends where the element crosses the curves at a distance from f.
func (e *element) cutsAt(f *element, reach float64, cuts []float64) []float64 {
	if reach == 0 {
		return e.meets(f.carrier, cuts)
	}
	for _, d := range [2]float64{reach, -reach} {
		if c, ok := f.shifted(d); ok {
			cuts = e.meets(c, cuts)
		}
	}
	return e.meetsAround(f.b, reach, e.meetsAround(f.a, reach, cuts))
}

// clearance returns the signed distance of p from the body's material,
// negative inside. Outside, it need not be right beyond reach.
func (b *Body) clearance(p r2.Vec, reach float64) float64 {
	d := b.edge(p, math.Nextafter(reach, math.Inf(1)))
	if d == 0 || !b.within(p) {
		return d
	}
	return -b.edge(p, math.Inf(1))
}

// meet reports whether two boxes come within a distance of each other.
func Near(a, b r2.Box, d float64) bool {
	return a.Min.X <= b.Max.X+d && b.Min.X <= a.Max.X+d && a.Min.Y <= b.Max.Y+d && b.Min.Y <= a.Max.Y+d
}
