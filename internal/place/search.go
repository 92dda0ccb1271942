package place

import "math"

// A spot is a candidate place with its loss.
type spot struct {
	o    int32
	x, y float64
	v    float64
}

// search looks for a place of copy i of low weighted loss: samples over the
// rectangle, where it touches others and around the present place, the best
// few improved by a coordinate descent, the best of these once more with finer
// steps.
func (l *lane) search(i int) spot {
	o := l.o[i]
	now := spot{o, l.x[i], l.y[i], l.eval(i, o, l.x[i], l.y[i], math.Inf(1))}
	best := make([]spot, 0, kept+1)
	best = append(best, now)
	turns := l.turns(i)
	n := l.p.draws()
	for range n.wide {
		o := turns[l.rng.IntN(len(turns))]
		best = l.try(best, i, o, l.randX(o), l.randY(o))
	}
	for range n.rim {
		o := turns[l.rng.IntN(len(turns))]
		if x, y, ok := l.onRim(i, o); ok {
			best = l.try(best, i, o, x, y)
		}
	}
	for range min(holeSamples, len(l.holed)*holeSamples) {
		o := turns[l.rng.IntN(len(turns))]
		if x, y, ok := l.inHole(i, o); ok {
			best = l.try(best, i, o, x, y)
		}
	}
	for range n.close {
		o := now.o
		if l.rng.IntN(4) == 0 {
			o = turns[l.rng.IntN(len(turns))]
		}
		s := l.p.shapes[o].weight * closeRange
		x, y := l.turnedAbout(now, o)
		best = l.try(best, i, o, x+float64(s*(l.rng.Float64()-0.5)*2), y+float64(s*(l.rng.Float64()-0.5)*2))
	}
	size := l.p.shapes[now.o].weight
	top := best[0]
	for k, c := range best {
		step := size * 0.25
		if k > 0 && c == now {
			step = size * 0.02
		}
		if c = l.descend(i, c, step, size*coarseStep); k == 0 || c.v < top.v {
			top = c
		}
	}
	if top.v > 0 {
		top = l.descend(i, top, size*coarseStep, size*l.fine)
	}
	return l.snapSpot(i, top)
}

// drop puts copy i anywhere, at one of a few tries of each turn, and lets the
// search find where it overlaps least. It is put by set, or by move where the
// losses of the others have to stay true.
func (l *lane) drop(i, tries int, put func(i int, o int32, x, y float64)) bool {
	for range tries {
		for _, o := range l.turns(i) {
			if x, y, ok := l.inside(o, l.randX(o), l.randY(o)); ok {
				l.absent[i] = false
				put(i, o, x, y)
				s := l.search(i)
				put(i, s.o, s.x, s.y)
				return true
			}
		}
	}
	return false
}

// turnedAbout returns where shape o has the middle of its box where the spot
// has its own.
func (l *lane) turnedAbout(c spot, o int32) (x, y float64) {
	a, b := &l.p.shapes[c.o].box, &l.p.shapes[o].box
	return c.x + float64(a.x0+a.x1-b.x0-b.x1)/2, c.y + float64(a.y0+a.y1-b.y0-b.y1)/2
}

// try adds a sample to the sorted list of the best.
func (l *lane) try(best []spot, i int, o int32, x, y float64) []spot {
	bound := math.Inf(1)
	if len(best) == kept {
		bound = best[kept-1].v
	}
	x, y, ok := l.inside(o, x, y)
	if !ok {
		return best
	}
	v := l.eval(i, o, x, y, bound)
	if v >= bound {
		return best
	}
	if len(best) == kept {
		best = best[:kept-1]
	}
	k := len(best)
	best = append(best, spot{})
	for ; k > 0 && best[k-1].v > v; k-- {
		best[k] = best[k-1]
	}
	best[k] = spot{o, x, y, v}
	return best
}

// inside rounds a place and moves it into the rectangle; it fails for a shape
// too large.
func (l *lane) inside(o int32, x, y float64) (float64, float64, bool) {
	if l.bays != nil {
		return l.insideBay(o, x, y)
	}
	b := &l.p.shapes[o].box
	x0, x1 := -float64(b.x0), l.w-float64(b.x1)
	y0, y1 := -float64(b.y0), l.h-float64(b.y1)
	if x1 < x0 || y1 < y0 {
		return 0, 0, false
	}
	return math.Floor(max(x0, min(x1, x))), math.Floor(max(y0, min(y1, y))), true
}

func (l *lane) randX(o int32) float64 {
	if l.bays != nil {
		return l.randBay(o)
	}
	b := &l.p.shapes[o].box
	return -float64(b.x0) + float64(l.rng.Float64()*(l.w-float64(b.x1-b.x0)))
}

func (l *lane) randY(o int32) float64 {
	b := &l.p.shapes[o].box
	return -float64(b.y0) + float64(l.rng.Float64()*(l.h-float64(b.y1-b.y0)))
}

// descend moves a spot along axes and diagonals while that lowers its loss,
// with a step that grows a little on success and halves on failure.
func (l *lane) descend(i int, c spot, step, least float64) spot {
	sx, sy := step, step
	for c.v > 0 && (sx > least || sy > least) {
		dx, dy := sx, sy
		axis := l.rng.IntN(4)
		switch axis {
		case 0:
			dy = 0
		case 1:
			dx = 0
		case 2:
			dy = -dy
		}
		f := 0.5
		for range 2 {
			x, y, ok := l.inside(c.o, c.x+dx, c.y+dy)
			if !ok {
				return c
			}
			if v := l.eval(i, c.o, x, y, c.v); v < c.v {
				c.x, c.y, c.v, f = x, y, v, 1.1
				break
			}
			dx, dy = -dx, -dy
		}
		switch axis {
		case 0:
			sx *= f
		case 1:
			sy *= f
		default:
			f = math.Sqrt(f)
			sx *= f
			sy *= f
		}
	}
	return c
}

// snapSpot moves a spot to the lattice, if there is one, where that costs
// nothing: parts that fit exactly only fit there.
func (l *lane) snapSpot(i int, c spot) spot {
	if l.p.step == 0 {
		return c
	}
	g := float64(l.p.step)
	x, y, ok := l.inside(c.o, g*math.Round(c.x/g), g*math.Round(c.y/g))
	if !ok {
		return c
	}
	if v := l.eval(i, c.o, x, y, math.Inf(1)); v <= c.v {
		c.x, c.y, c.v = x, y, v
	}
	return c
}
