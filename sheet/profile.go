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
	for i := 0; i+1 < len(out.y); i++ {
		lo, hi := math.Inf(-1), math.Inf(-1)
		for _, l := range p.loops {
			a := l[len(l)-1]
			for _, b := range l {
				if math.Min(a.Y, b.Y) <= out.y[i] && math.Max(a.Y, b.Y) >= out.y[i+1] {
					u, v := side*across(a, b, out.y[i]), side*across(a, b, out.y[i+1])
					if u+v > lo+hi {
						lo, hi = u, v
					}
				}
				a = b
			}
		}
		out.lo, out.hi = append(out.lo, side*lo), append(out.hi, side*hi)
	}
	return out
}

// across returns the x of the line through two points at a height between
// theirs.
func across(p, q r2.Vec, y float64) float64 {
	return p.X + (q.X-p.X)*((y-p.Y)/(q.Y-p.Y))
}

// slide returns how far to the right a joint seen from the left has to lie,
// raised by d, so as not to meet one seen from the right on any way further
// right, or a value >= most. It is -Inf where they pass each other.
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
	return x
}

// at returns the outermost x at a height within step i.
func (p *profile) at(i int, y float64) float64 {
	return p.lo[i] + (p.hi[i]-p.lo[i])*((y-p.y[i])/(p.y[i+1]-p.y[i]))
}
