package place

import (
	"math"
	"math/bits"
	"math/rand/v2"
)

// A layout holds the place and the shape of each copy. Coordinates are whole
// numbers of grid units.
type layout struct {
	x, y []float64
	o    []int32
}

func (l layout) clone() layout {
	return layout{
		append([]float64(nil), l.x...), append([]float64(nil), l.y...), append([]int32(nil), l.o...)}
}

func (l layout) copyFrom(m layout) {
	copy(l.x, m.x)
	copy(l.y, m.y)
	copy(l.o, m.o)
}

type fbox struct{ x0, y0, x1, y1 float64 }

// A lane is one search with its own random numbers. The first movable copies
// move; the rest are fixed obstacles.
type lane struct {
	p    *problem
	rng  *rand.Rand
	stop *stopper
	layout
	item    []int32   // of each copy
	own     [][]int32 // turns of each copy in place of its item's, where not nil; see loosen
	movable int
	boxes   []fbox
	crowd   crowd     // of the boxes
	w, h    float64   // the rectangle
	weight  []float64 // of each pair, both ways
	loss    []float64 // severity of each pair, both ways
	row     []float64 // sum of a copy's losses
	absent  []bool    // copies that are left out
	holed   []int     // copies with holes
	sweeps  int
	fine    float64 // last step of a search, as a part of the size
	limit   int     // sweeps after which separations end; 0: none
	bays    []bay   // of a row of containers; nil for one rectangle
}

func newLane(p *problem, item []int32, movable int, seed, stream uint64, stop *stopper) *lane {
	n := len(item)
	l := &lane{p: p, rng: rand.New(rand.NewPCG(seed, stream)), stop: stop, item: item, movable: movable, fine: fineStep}
	l.layout = layout{make([]float64, n), make([]float64, n), make([]int32, n)}
	for i, it := range item {
		l.o[i] = p.turns[it][0]
	}
	l.boxes = make([]fbox, n)
	l.crowd = newCrowd(n)
	l.absent = make([]bool, n)
	l.weight = make([]float64, n*n)
	l.loss = make([]float64, n*n)
	l.row = make([]float64, n)
	l.resetWeights()
	l.listHoles()
	return l
}

// turns lists the shapes that copy i may take.
func (l *lane) turns(i int) []int32 {
	if l.own != nil && l.own[i] != nil {
		return l.own[i]
	}
	return l.p.turns[l.item[i]]
}

func (l *lane) resetWeights() {
	for i := range l.weight {
		l.weight[i] = 1
	}
}

func (p *problem) fbox(o int32, x, y float64) fbox {
	b := p.shapes[o].box
	return fbox{x + float64(b.x0), y + float64(b.y0), x + float64(b.x1), y + float64(b.y1)}
}

// set places copy i without looking at others.
func (l *lane) set(i int, o int32, x, y float64) {
	l.o[i], l.x[i], l.y[i] = o, x, y
	l.boxes[i] = nowhere
	if !l.absent[i] {
		l.boxes[i] = l.p.fbox(o, x, y)
	}
	l.crowd.put(i, l.boxes[i])
}

// nowhere is an empty box: it meets no other.
var nowhere = fbox{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// restore takes over a layout and finds all its losses.
func (l *lane) restore(m layout) {
	for i := range m.x {
		l.set(i, m.o[i], m.x[i], m.y[i])
	}
	l.measure()
}

func (l *lane) measure() {
	l.crowd.refit(l.boxes)
	for i := range l.row {
		l.row[i] = 0
	}
	for i := range l.x {
		for j := range i {
			v := l.pairLoss(i, j)
			l.loss[i*len(l.x)+j], l.loss[j*len(l.x)+i] = v, v
			l.row[i] += v
			l.row[j] += v
		}
	}
}

func (l *lane) pairLoss(i, j int) float64 {
	a, b := &l.boxes[i], &l.boxes[j]
	if a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0 || i >= l.movable && j >= l.movable {
		return 0
	}
	return l.p.pair(l.o[j], l.o[i]).at(l.x[i]-l.x[j], l.y[i]-l.y[j])
}

// move places copy i and updates its losses.
func (l *lane) move(i int, o int32, x, y float64) {
	l.set(i, o, x, y)
	n := len(l.x)
	for j := range n {
		if j == i {
			continue
		}
		v := l.pairLoss(i, j)
		if old := l.loss[i*n+j]; v != old {
			l.loss[i*n+j], l.loss[j*n+i] = v, v
			l.sumRow(j)
		}
	}
	l.sumRow(i)
}

// sumRow adds a row anew, so that a free copy has exactly 0.
func (l *lane) sumRow(i int) {
	n, sum := len(l.x), 0.0
	for _, v := range l.loss[i*n : (i+1)*n] {
		sum += v
	}
	l.row[i] = sum
}

func (l *lane) total() float64 {
	sum := 0.0
	for _, v := range l.row {
		sum += v
	}
	return sum / 2
}

// eval returns the weighted loss of copy i at a place, or some value of at
// least bound as soon as it is known to reach it. A bound of 0 asks only whether
// the place is free.
func (l *lane) eval(i int, o int32, x, y, bound float64) float64 {
	b := l.p.fbox(o, x, y)
	n, shapes := len(l.boxes), len(l.p.shapes)
	weight := l.weight[i*n:][:n]
	views := l.p.pairs[int(o)*shapes:][:shapes]
	c, f := &l.crowd, l.crowd.span(b)
	beginX, endX := c.beginX[int(f.x1)*c.words:], c.endX[int(f.x0)*c.words:]
	beginY, endY := c.beginY[int(f.y1)*c.words:], c.endY[int(f.y0)*c.words:]
	sum := 0.0
	for w := range c.words {
		for set := beginX[w] & endX[w] & beginY[w] & endY[w]; set != 0; set &= set - 1 {
			j := w<<6 + bits.TrailingZeros64(set)
			c := &l.boxes[j]
			if b.x1 <= c.x0 || c.x1 <= b.x0 || b.y1 <= c.y0 || c.y1 <= b.y0 || j == i {
				continue
			}
			v := views[l.o[j]].Load()
			if v == nil {
				v = l.p.pair(l.o[j], o)
			}
			if bound == 0 {
				if v.hits(x-l.x[j], y-l.y[j]) {
					return 1
				}
			} else if s := v.at(x-l.x[j], y-l.y[j]); s > 0 {
				if sum += float64(weight[j] * s); sum >= bound {
					return sum
				}
			}
		}
	}
	return sum
}

// used returns the right end of the movable copies.
func (l *lane) used() float64 {
	m := 0.0
	for _, b := range l.boxes[:l.movable] {
		m = math.Max(m, b.x1)
	}
	return m
}
