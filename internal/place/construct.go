package place

import (
	"math"
	"sort"
)

// start builds a first legal layout.
func (l *shortener) start() {
	l.shelves()
	l.legal = l.layout.clone()
	l.length = l.used()
	l.construct()
}

// shelves stacks the boxes of the copies in columns.
func (l *lane) shelves() {
	x, y, wide := 0.0, 0.0, 0.0
	for i, it := range l.item {
		o := l.p.turns[it][0]
		for _, t := range l.p.turns[it] {
			if b := l.p.shapes[t].box; float64(b.y1-b.y0) <= l.h {
				o = t
				break
			}
		}
		b := l.p.shapes[o].box
		if y+float64(b.y1-b.y0) > l.h {
			x, y, wide = x+wide, 0, 0
		}
		l.set(i, o, x-float64(b.x0), y-float64(b.y0))
		y += float64(b.y1 - b.y0)
		wide = math.Max(wide, float64(b.x1-b.x0))
	}
}

// construct inserts the copies, large ones first, each at the leftmost free
// place among samples slid to the left.
func (l *shortener) construct() {
	order := make([]int, len(l.x))
	for i := range order {
		order[i] = i
		l.boxes[i] = nowhere
	}
	sort.SliceStable(order, func(a, b int) bool {
		return l.p.shapes[l.p.turns[l.item[order[a]]][0]].weight > l.p.shapes[l.p.turns[l.item[order[b]]][0]].weight
	})
	l.crowd.scale(l.length, l.h, l.boxes)
	end := 0.0
	for _, i := range order {
		if l.stop.done() {
			return
		}
		end = math.Max(end, l.insert(i, end))
	}
	if l.used() < l.length {
		l.measure()
		l.keep()
	}
}

const insertSamples = 60

// insert places copy i and returns its right end.
func (l *shortener) insert(i int, end float64) float64 {
	turns := l.p.turns[l.item[i]]
	best := spot{v: math.Inf(1)}
	for range insertSamples {
		o := turns[l.rng.IntN(len(turns))]
		b := l.p.shapes[o].box
		l.w = end + float64(b.x1-b.x0)
		x, y, ok := l.inside(o, l.randX(o), l.randY(o))
		if !ok || !l.isFree(i, o, x, y) {
			continue
		}
		if c := l.slide(i, spot{o, x, y, 0}); c.v < best.v {
			best = c
		}
	}
	if math.IsInf(best.v, 1) {
		best = l.append(i, end)
	}
	l.set(i, best.o, best.x, best.y)
	return l.boxes[i].x1
}

// slide moves a free spot left, and down where it cannot, in steps that grow
// while they succeed. Its value is its right end, and a little for its height.
func (l *lane) slide(i int, c spot) spot {
	size := l.p.shapes[c.o].weight
	for s, moves := size, 0; s > size*0.002 && moves < 200; moves++ {
		switch {
		case l.free(i, &c, -s, 0), l.free(i, &c, 0, -s):
			s *= 1.5
		default:
			s /= 2
		}
	}
	b := l.p.fbox(c.o, c.x, c.y)
	c.v = b.x1 + float64(0.01*b.y1)
	return c
}

func (l *lane) free(i int, c *spot, dx, dy float64) bool {
	x, y, ok := l.inside(c.o, c.x+dx, c.y+dy)
	if !ok || x == c.x && y == c.y || !l.isFree(i, c.o, x, y) {
		return false
	}
	c.x, c.y = x, y
	return true
}

// append puts copy i behind all others.
func (l *shortener) append(i int, end float64) spot {
	for _, o := range l.p.turns[l.item[i]] {
		b := l.p.shapes[o].box
		if float64(b.y1-b.y0) <= l.h {
			return spot{o: o, x: end - float64(b.x0), y: -float64(b.y0)}
		}
	}
	return spot{}
}

// isFree reports whether copy i overlaps nothing at a place.
func (l *lane) isFree(i int, o int32, x, y float64) bool { return l.eval(i, o, x, y, 0) == 0 }
