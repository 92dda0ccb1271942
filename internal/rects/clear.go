package rects

import (
	"cmp"
	"container/heap"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Clearing is the room within Sheet, a polygon and its holes, that is in none
// of the Solids, each a polygon with holes that are clear again.
type Clearing struct {
	Sheet  [][]r2.Vec
	Solids [][][]r2.Vec
}

const (
	clearWork = 4e6  // edges looked at, after which the best so far is taken
	meetWork  = 64   // edges that a look is worth beside those it takes in
	clearGain = 1e-3 // share of the area that may be missed before the last steps where edges slant
	clearFine = 1e-9 // of the width, the last steps
)

// Largest returns the clear rectangle along the axes of the largest area, empty
// where there is none. It is exact where all edges run along the axes. Else no
// other is larger by more than 0.1 %, and its own sides are moved to where it is
// largest. It returns the best so far once stop, asked now and then, is true.
//
// It is a branch and bound over both ends in x. Ends within [a, b] and [c, d]
// leave no more than (d-a) times the most height that is free from b to c.
func (c Clearing) Largest(stop func() bool) r2.Box {
	s := newClearSearch(c, stop)
	if len(s.xs) < 2 {
		return r2.Box{}
	}
	lo, hi := s.xs[0], s.xs[len(s.xs)-1]
	s.open(ends{a: lo, b: hi, c: lo, d: hi})
	for len(s.queue) > 0 && !s.over() {
		n := heap.Pop(&s.queue).(ends)
		if n.bound <= s.enough() {
			break
		}
		s.split(n)
	}
	s.polish()
	return s.best
}

// ends are ranges of the two ends, [a, b] and [c, d].
type ends struct {
	a, b, c, d float64
	bound      float64
}

type endsQueue []ends

func (q endsQueue) Len() int           { return len(q) }
func (q endsQueue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *endsQueue) Push(x any)        { *q = append(*q, x.(ends)) }
func (q endsQueue) Less(i, j int) bool { return q[i].bound > q[j].bound }
func (q *endsQueue) Pop() any {
	last := len(*q) - 1
	n := (*q)[last]
	*q = (*q)[:last]
	return n
}

// A clearLoop is a loop with its box.
type clearLoop struct {
	p      []r2.Vec
	lo, hi r2.Vec
}

type clearSearch struct {
	Clearing
	loops []clearLoop
	xs    []float64 // of the vertices
	gain  float64
	tiny  float64
	queue endsQueue
	best  r2.Box
	most  float64
	stop  func() bool
	work  int
	asked int
	ended bool
	met   [][2]float64
}

func newClearSearch(c Clearing, stop func() bool) *clearSearch {
	s := &clearSearch{Clearing: c, stop: stop}
	for _, g := range append([][][]r2.Vec{c.Sheet}, c.Solids...) {
		for _, l := range g {
			if len(l) < 3 {
				continue
			}
			b := clearLoop{l, l[0], l[0]}
			for k, v := range l {
				b.lo, b.hi = r2.Vec{X: min(b.lo.X, v.X), Y: min(b.lo.Y, v.Y)}, r2.Vec{X: max(b.hi.X, v.X), Y: max(b.hi.Y, v.Y)}
				if w := l[(k+1)%len(l)]; v.X != w.X && v.Y != w.Y {
					s.gain = clearGain
				}
			}
			s.loops = append(s.loops, b)
			for _, v := range l {
				s.xs = append(s.xs, v.X)
			}
		}
	}
	slices.Sort(s.xs)
	s.xs = slices.Compact(s.xs)
	if len(s.loops) > 0 {
		lo, hi := s.loops[0].lo.X, s.loops[0].hi.X
		s.xs = slices.DeleteFunc(s.xs, func(x float64) bool { return x < lo || x > hi })
		s.tiny = clearFine * (hi - lo)
	}
	return s
}

func (s *clearSearch) over() bool {
	if s.asked++; s.asked%64 == 0 {
		s.ended = s.ended || s.stop()
	}
	return s.ended || s.work > clearWork
}

func (s *clearSearch) enough() float64 { return s.most * (1 + max(s.gain, 1e-12)) }

// open puts ranges into the queue if they may hold something better.
func (s *clearSearch) open(n ends) {
	if n.d-n.a <= s.tiny {
		return
	}
	switch {
	case n.b >= n.c:
		n.bound = (n.d - n.a) * (s.loops[0].hi.Y - s.loops[0].lo.Y)
	case s.between(n.a, n.b) || s.between(n.c, n.d):
		n.bound = (n.d - n.a) * s.tallest(n.b, n.c)
	default: // no vertex in either: an end just beyond b or c meets all that it does at a or d
		for _, e := range [4][2]float64{{n.b, n.c}, {n.a, n.c}, {n.b, n.d}, {n.a, n.d}} {
			s.tallest(e[0], e[1])
		}
		l, r := n.b-min(s.tiny, (n.b-n.a)/4), n.c+min(s.tiny, (n.d-n.c)/4)
		n.bound = max((n.c-n.a)*s.tallest(l, n.c), (n.d-n.b)*s.tallest(n.b, r), (n.d-n.a)*s.tallest(l, r))
	}
	if n.bound > s.enough() {
		heap.Push(&s.queue, n)
	}
}

// between reports whether a vertex lies strictly between two x.
func (s *clearSearch) between(a, b float64) bool {
	i, found := slices.BinarySearch(s.xs, a)
	if found {
		i++
	}
	return i < len(s.xs) && s.xs[i] < b
}

// split halves the wider of the ranges, at a vertex if there is one within.
func (s *clearSearch) split(n ends) {
	if n.b-n.a >= n.d-n.c {
		m, ok := s.middle(n.a, n.b)
		if ok {
			s.open(ends{a: n.a, b: m, c: n.c, d: n.d})
			s.open(ends{a: m, b: n.b, c: max(n.c, m), d: n.d})
		}
		return
	}
	if m, ok := s.middle(n.c, n.d); ok {
		s.open(ends{a: n.a, b: min(n.b, m), c: n.c, d: m})
		s.open(ends{a: n.a, b: n.b, c: m, d: n.d})
	}
}

// middle returns the vertex nearest to the middle of a range, or that; ok is
// false where the range is too narrow.
func (s *clearSearch) middle(a, b float64) (float64, bool) {
	m := (a + b) / 2
	i, _ := slices.BinarySearch(s.xs, m)
	best := math.Inf(1)
	for _, k := range [2]int{i - 1, i} {
		if k >= 0 && k < len(s.xs) && s.xs[k] > a && s.xs[k] < b && math.Abs(s.xs[k]-m) < math.Abs(best-m) {
			best = s.xs[k]
		}
	}
	if !math.IsInf(best, 1) {
		return best, true
	}
	return m, b-a > s.tiny
}

// tallest returns the most height that is free between two x, or less than what
// would be of use, and notes the rectangle.
func (s *clearSearch) tallest(x0, x1 float64) float64 {
	if x1 <= x0 {
		return 0
	}
	s.meet(x0, x1)
	most := 0.0
	for i := 1; i < len(s.met); i++ {
		lo, hi := s.met[i-1][1], s.met[i][0]
		if hi-lo > most && s.clear(r2.Vec{X: (x0 + x1) / 2, Y: (lo + hi) / 2}) {
			most = hi - lo
			if a := most * (x1 - x0); a > s.most {
				s.most, s.best = a, r2.Box{Min: r2.Vec{X: x0, Y: lo}, Max: r2.Vec{X: x1, Y: hi}}
			}
		}
		s.met[i][1] = max(s.met[i][1], lo)
	}
	return most
}

// meet lists the ranges in y of what the loops have between two x. What is
// connected there is one range: a rectangle from x0 to x1 can have none of it.
func (s *clearSearch) meet(x0, x1 float64) {
	s.met = s.met[:0]
	s.work += meetWork
	for i, l := range s.loops {
		if l.hi.X <= x0 || l.lo.X >= x1 {
			continue
		}
		s.work += len(l.p)
		if i > 0 && l.lo.X >= x0 && l.hi.X <= x1 { // not the edge of the sheet
			s.met = append(s.met, [2]float64{l.lo.Y, l.hi.Y})
			continue
		}
		s.meetLoop(l.p, x0, x1)
	}
	slices.SortFunc(s.met, func(a, b [2]float64) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
}

func (s *clearSearch) meetLoop(l []r2.Vec, x0, x1 float64) {
	open := false
	p := l[len(l)-1]
	for _, q := range l {
		a, b := p, q
		p = q
		if a.X > b.X {
			a, b = b, a
		}
		if b.X <= x0 || a.X >= x1 || a.X == b.X && (a.X <= x0 || a.X >= x1) {
			open = false
			continue
		}
		y, z := a.Y, b.Y
		if a.X < x0 {
			y = heightAt(a, b, x0)
		}
		if b.X > x1 {
			z = heightAt(a, b, x1)
		}
		y, z = min(y, z), max(y, z)
		if k := len(s.met) - 1; open {
			s.met[k][0], s.met[k][1] = min(s.met[k][0], y), max(s.met[k][1], z)
		} else {
			s.met = append(s.met, [2]float64{y, z})
		}
		open = q.X > x0 && q.X < x1
	}
}

func heightAt(a, b r2.Vec, x float64) float64 { return a.Y + float64((b.Y-a.Y)*((x-a.X)/(b.X-a.X))) }

// clear reports whether a point is in the sheet and in no solid.
func (c Clearing) clear(m r2.Vec) bool {
	if !inside(c.Sheet, m) {
		return false
	}
	for _, g := range c.Solids {
		if inside(g, m) {
			return false
		}
	}
	return true
}

// inside reports whether a point is in a polygon and in none of its holes.
func inside(loops [][]r2.Vec, m r2.Vec) bool {
	in := false
	for _, l := range loops {
		if len(l) == 0 {
			continue
		}
		p := l[len(l)-1]
		for _, q := range l {
			if (p.Y > m.Y) != (q.Y > m.Y) && m.X < p.X+float64((q.X-p.X)*((m.Y-p.Y)/(q.Y-p.Y))) {
				in = !in
			}
			p = q
		}
	}
	return in
}

// polish moves the ends of the best rectangle by ever smaller steps while that
// makes it larger.
func (s *clearSearch) polish() {
	if s.gain == 0 || s.most == 0 {
		return
	}
	for step := (s.best.Max.X - s.best.Min.X) / 8; step > s.tiny; step /= 2 {
		for range 4 {
			from := s.most
			for _, d := range [][2]float64{{-step, 0}, {0, step}, {step, 0}, {0, -step}, {-step, -step}, {step, step}, {-step, step}, {step, -step}} {
				if s.over() {
					return
				}
				s.tallest(s.best.Min.X+d[0], s.best.Max.X+d[1])
			}
			if s.most <= from {
				break
			}
		}
	}
}

// Place returns the lower left corner of a clear rectangle of a size, the
// leftmost it meets; ok is false where there is none, or none was found until
// stop.
func (c Clearing) Place(size Size, stop func() bool) (low r2.Vec, ok bool) {
	s := newClearSearch(c, stop)
	if len(s.xs) < 2 {
		return low, false
	}
	f := &spotSearch{s, size, nil}
	lo, hi := s.xs[0], s.xs[len(s.xs)-1]-size.W
	for _, x := range s.xs {
		f.cuts = append(f.cuts, x, x-size.W)
	}
	slices.Sort(f.cuts)
	f.cuts = slices.Compact(f.cuts)
	if hi < lo {
		hi = lo // there is play for rounding, if for anything
	}
	if low, ok = f.at(hi); ok {
		return low, true
	}
	return f.find(lo, hi)
}

// A spotSearch looks for where a rectangle has room.
type spotSearch struct {
	*clearSearch
	size Size
	cuts []float64 // left ends at which one end of the rectangle is at a vertex
}

// find looks at left ends from a to b, the last of which has been tried.
func (f *spotSearch) find(a, b float64) (low r2.Vec, ok bool) {
	if f.over() {
		return low, false
	}
	if x1 := a + f.size.W; b < x1 {
		if _, ok := f.gap(b, x1); !ok {
			return low, false
		}
	}
	if low, ok = f.at(a); ok || b-a <= f.tiny {
		return low, ok
	}
	m := (a + b) / 2
	if i, _ := slices.BinarySearch(f.cuts, m); i < len(f.cuts) && f.cuts[i] < b {
		m = f.cuts[i]
	} else if i > 0 && f.cuts[i-1] > a {
		m = f.cuts[i-1]
	}
	if low, ok = f.find(a, m); ok {
		return low, true
	}
	return f.find(m, b)
}

func (f *spotSearch) at(x float64) (r2.Vec, bool) {
	y, ok := f.gap(x, x+f.size.W)
	return r2.Vec{X: x, Y: y}, ok
}

// gap returns the lowest y between two x from which the height is free.
func (f *spotSearch) gap(x0, x1 float64) (float64, bool) {
	play := float64(1e-12 * (math.Abs(f.loops[0].hi.X) + math.Abs(f.loops[0].hi.Y)))
	f.meet(x0+play, x1-play)
	for i := 1; i < len(f.met); i++ {
		lo, hi := f.met[i-1][1], f.met[i][0]
		if hi-lo >= f.size.H-play && f.clear(r2.Vec{X: (x0 + x1) / 2, Y: (lo + hi) / 2}) {
			return lo, true
		}
		f.met[i][1] = max(f.met[i][1], lo)
	}
	return 0, false
}
