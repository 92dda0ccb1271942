package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A profile is how a joint looks from the right, or from the left: between
// the heights y[i] and y[i+1] its outermost edge runs from lo[i] to hi[i].
type profile struct{ y, lo, hi []float64 }

// profile looks at the loops from one side. Between the heights of vertices the
// outermost edge is the same, as none cross.
func (p joint) profile(right bool) profile {
	var out profile
	for _, l := range p.loops {
		for _, v := range l {
			out.y = append(out.y, v.Y)
		}
	}
	slices.Sort(out.y)
	out.y = slices.Compact(out.y)
	side := -1.0
	if right {
		side = 1
	}
	far := slices.Repeat([]float64{-side * math.Inf(1)}, len(out.y)-1)
	out.lo, out.hi = far, slices.Clone(far)
	for _, l := range p.loops {
		a := l[len(l)-1]
		for _, b := range l {
			out.cover(a, b, side)
			a = b
		}
	}
	return out
}

// cover puts an edge in the steps that it is outermost in so far.
func (p *profile) cover(a, b r2.Vec, side float64) {
	if a.Y > b.Y {
		a, b = b, a
	}
	from, _ := slices.BinarySearch(p.y, a.Y)
	for i := from; p.y[i] < b.Y; i++ {
		lo, hi := across(a, b, p.y[i]), across(a, b, p.y[i+1])
		if side*(lo+hi) > side*(p.lo[i]+p.hi[i]) {
			p.lo[i], p.hi[i] = lo, hi
		}
	}
}

// across returns the x of the line through two points at a height between
// theirs.
func across(p, q r2.Vec, y float64) float64 {
	return p.X + (q.X-p.X)*((y-p.Y)/(q.Y-p.Y))
}

// slide returns how far to the right a joint seen from the left has to lie,
// raised by d, so as not to meet one seen from the right on any way further
// right. It is +Inf where that is most or more, and -Inf where they pass each
// other.
func slide(a, b *profile, d, most float64) float64 {
	const touching = 1e-9 // of edges one above the other
	x := math.Inf(-1)
	for i, k := 0, 0; i < len(a.lo) && k < len(b.lo) && x < most; {
		lo, hi := math.Max(a.y[i], b.y[k]+d), math.Min(a.y[i+1], b.y[k+1]+d)
		if hi > lo+touching {
			x = math.Max(x, a.at(i, lo)-b.at(k, lo-d))
			x = math.Max(x, a.at(i, hi)-b.at(k, hi-d))
		}
		if a.y[i+1] < b.y[k+1]+d {
			i++
		} else {
			k++
		}
	}
	if x >= most {
		return math.Inf(1)
	}
	return x
}

// at returns the outermost x at a height within step i.
func (p *profile) at(i int, y float64) float64 {
	return p.lo[i] + (p.hi[i]-p.lo[i])*((y-p.y[i])/(p.y[i+1]-p.y[i]))
}
