package place

import (
	"math"
	"sort"
)

// A circle inside a shape, in grid units.
type circle struct{ x, y, r float64 }

// A detail says how closely circles are to fill shapes.
type detail struct {
	poles int     // at most
	cells float64 // of the search grid, along the side of a square
}

// detail is less where there are many items, all of which take time to read.
func (p *problem) detail() detail {
	if p.fixed > manyItems {
		if p.fixed > crowdItems {
			return detail{leastPoles, 20}
		}
		return detail{fewPoles, 20}
	}
	return detail{maxPoles, 40}
}

// poles returns circles inside the region, each the largest (within its search
// grid) that overlaps none before: the first is the pole of inaccessibility.
// It stops when they cover most of the area or become small.
func poles(r region, area float64, d detail) []circle {
	f := newDistField(r, d.cells)
	var out []circle
	for cover := 0.0; len(out) < d.poles && cover < poleShare*area; {
		c := f.largest(out)
		if c.r <= 0 || len(out) > 0 && c.r < 0.1*out[0].r {
			break
		}
		out = append(out, c)
		cover += float64(math.Pi * c.r * c.r)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].r > out[j].r })
	return out
}

// A distField holds the distance to the outline on a lattice of points inside.
type distField struct {
	r    region
	cell float64
	pts  []circle
}

func newDistField(r region, cells float64) *distField {
	b := r.box()
	w, h := float64(b.x1-b.x0), float64(b.y1-b.y0)
	f := &distField{r: r, cell: math.Max(math.Sqrt(w*h)/cells, math.Max(w, h)/(5*cells))}
	for y := float64(b.y0) + f.cell/2; y < float64(b.y1); y += f.cell {
		for x := float64(b.x0) + f.cell/2; x < float64(b.x1); x += f.cell {
			if d := r.depth(x, y); d > 0 {
				f.pts = append(f.pts, circle{x, y, d})
			}
		}
	}
	return f
}

// largest finds the lattice point with the largest circle clear of the given
// ones, of which only the last is new, and improves it by a pattern search.
func (f *distField) largest(taken []circle) circle {
	best := circle{}
	for i := range f.pts {
		p := &f.pts[i]
		if n := len(taken); n > 0 {
			p.r = clear(*p, taken[n-1:])
		}
		if p.r > best.r {
			best = *p
		}
	}
	for s := f.cell / 2; s > f.cell/100 && best.r > 0; {
		moved := false
		for _, d := range [4][2]float64{{s, 0}, {-s, 0}, {0, s}, {0, -s}} {
			x, y := best.x+d[0], best.y+d[1]
			if r := clear(circle{x, y, f.r.depth(x, y)}, taken); r > best.r {
				best, moved = circle{x, y, r}, true
				break
			}
		}
		if !moved {
			s /= 2
		}
	}
	return best
}

// clear returns the radius left at p when it must not overlap taken circles.
func clear(p circle, taken []circle) float64 {
	r := p.r
	for _, c := range taken {
		r = min(r, math.Hypot(p.x-c.x, p.y-c.y)-c.r)
	}
	return r
}

// depth returns the distance to the outline, negative outside.
func (r region) depth(x, y float64) float64 {
	best, in := math.Inf(1), false
	for _, l := range r {
		p := l[len(l)-1]
		for _, q := range l {
			px, py, qx, qy := float64(p.x), float64(p.y), float64(q.x), float64(q.y)
			best = math.Min(best, segDist2(x, y, px, py, qx, qy))
			if (py > y) != (qy > y) && x < px+(y-py)*(qx-px)/(qy-py) {
				in = !in
			}
			p = q
		}
	}
	if in {
		return math.Sqrt(best)
	}
	return -math.Sqrt(best)
}

func segDist2(x, y, ax, ay, bx, by float64) float64 {
	dx, dy := bx-ax, by-ay
	t := (float64((x-ax)*dx) + float64((y-ay)*dy)) / (float64(dx*dx) + float64(dy*dy))
	t = math.Max(0, math.Min(1, t))
	ex, ey := x-ax-float64(t*dx), y-ay-float64(t*dy)
	return float64(ex*ex) + float64(ey*ey)
}
