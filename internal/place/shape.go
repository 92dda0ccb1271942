package place

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// A solid is a region with what the pair tables need of it.
type solid struct {
	region region
	tour   []pt
	box    box
	poles  []circle
	sure   []circle // the largest of them, where they lie in the region; see coreForm
	weight float64  // size in the severity: square root of the hull's area
}

// A form is a region and its turns by right angles. Items of the same outline
// share it.
type form struct {
	id    int32
	turns [4]*solid
	space float64 // area in grid units
}

// A shape is an item in one allowed turn: a form turned by quarter right
// angles and moved by t, so that its box starts near the origin.
type shape struct {
	*form
	core     *form // in the place of form against obstacles; nil where they are the same
	quarter  int
	t        pt
	item     int
	angle    float64
	mirrored bool
	shift    r2.Vec // where the item's own origin is moved to reach the grid origin
	box      box
	weight   float64
	area     float64 // of the true item
}

func (s *shape) solid() *solid { return s.turns[s.quarter] }

// quarter turns a point by q right angles.
func (a pt) quarter(q int) pt {
	switch q & 3 {
	case 1:
		return pt{-a.y, a.x}
	case 2:
		return pt{-a.x, -a.y}
	case 3:
		return pt{a.y, -a.x}
	}
	return a
}

func newForm(r region, id int32, inner []circle) *form {
	f := &form{id: id, space: r.space()}
	base := &solid{region: r, tour: r.tour(), box: r.box(), poles: inner, weight: math.Sqrt(hullArea(r[0]))}
	for q := range f.turns {
		f.turns[q] = base.turn(q)
		f.turns[q].sure = f.turns[q].poles[:min(sureCircles, len(inner))]
	}
	return f
}

// space returns the area.
func (r region) space() float64 {
	sum := 0.0
	for _, l := range r {
		sum += float64(area2(l)) / 2
	}
	return sum
}

func (s *solid) turn(q int) *solid {
	t := &solid{tour: turned(s.tour, q), weight: s.weight}
	for _, l := range s.region {
		t.region = append(t.region, turned(l, q))
	}
	t.box = t.region.box()
	t.poles = turnedPoles(s.poles, float64(q)*math.Pi/2, false)
	return t
}

func turned(l []pt, q int) []pt {
	out := make([]pt, len(l))
	for i, p := range l {
		out[i] = p.quarter(q)
	}
	return out
}

// severity measures how badly b, moved by (x, y), overlaps a, assuming that
// it does: the summed penetration of their inscribed circles, each pair times
// the smaller radius. A circle pair out of contact counts on, fading, so that
// there is a slope everywhere. The square root makes it a length; the sizes
// of the hulls keep large concave items from resting half inside each other.
func severity(a, b *solid, x, y float64) float64 {
	eps := reach * math.Sqrt(a.weight*b.weight)
	sum := 0.0
	for _, p := range a.poles {
		for _, q := range b.poles {
			dx, dy := x+q.x-p.x, y+q.y-p.y
			d := p.r + q.r - math.Sqrt(float64(dx*dx)+float64(dy*dy))
			if d < eps {
				d = eps * eps / (float64(2*eps) - d)
			}
			sum += float64(d * min(p.r, q.r))
		}
	}
	return math.Sqrt((sum + float64(eps*eps)) * math.Sqrt(a.weight*b.weight))
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
