package place

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// A shape is an item in one allowed turn, on the grid, with its origin near
// its lower left corner.
type shape struct {
	item     int
	angle    float64
	mirrored bool
	shift    r2.Vec // where the item's own origin is moved to reach the grid origin
	region   region
	tour     []pt
	box      box
	poles    []circle
	weight   float64 // size in the severity: square root of the hull's area
	area     float64 // of the true item
	space    float64 // area of the region in grid units
	quarter  int     // turns by right angles from base, -1 if not such a turn
	base     int     // shape index of the unturned shape
}

const poleCount = 12

// reach is the distance, as a part of a pair's mean size, over which the
// severity of two circles fades beyond contact.
const reach = 0.02

// severity measures how badly b, moved by (x, y), overlaps a, assuming that
// it does: the summed penetration of their inscribed circles, each pair times
// the smaller radius. A circle pair out of contact counts on, fading, so that
// there is a slope everywhere. The square root makes it a length; the sizes
// of the hulls keep large concave items from resting half inside each other.
func severity(a, b *shape, x, y float64) float64 {
	eps := reach * math.Sqrt(a.weight*b.weight)
	sum := 0.0
	for _, p := range a.poles {
		for _, q := range b.poles {
			dx, dy := x+q.x-p.x, y+q.y-p.y
			d := p.r + q.r - math.Sqrt(dx*dx+dy*dy)
			if d < eps {
				d = eps * eps / (2*eps - d)
			}
			sum += d * math.Min(p.r, q.r)
		}
	}
	return math.Sqrt(sum+eps*eps) * math.Sqrt(math.Sqrt(a.weight*b.weight))
}

// hullArea returns the area of the convex hull of a loop.
func hullArea(loop []pt) float64 {
	p := append([]pt(nil), loop...)
	sort.Slice(p, func(i, j int) bool { return p[i].less(p[j]) })
	half := func() []pt {
		var h []pt
		for _, v := range p {
			for len(h) > 1 && orient(h[len(h)-2], h[len(h)-1], v) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, v)
		}
		return h
	}
	lower := half()
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	upper := half()
	return float64(area2(append(lower[:len(lower)-1], upper[:len(upper)-1]...))) / 2
}
