package arc

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// nest returns for each of closed loops that do not cross the number of the
// smallest loop around it, -1 where there is none, and its area. A line sweeps over the plane
// from left to right (M. I. Shamos and D. Hoey, Geometric intersection
// problems, 1976, for the sweep); what lies right below the leftmost point of a
// loop is the lower side of the loop around it, or the upper side of one that
// has the same around it. Where loops come so near each other there that
// rounding could decide, the loops around are tried one by one, without
// rounding.
func nest(ctx context.Context, loops []Path) (parent []int, area []float64, err error) {
	n := &nesting{loops: loops, next: make([]int32, len(loops)), parent: make([]int, len(loops))}
	boxes := make([]r2.Box, len(loops))
	n.area, n.box = make([]float64, len(loops)), boxes
	for i, p := range loops {
		boxes[i], n.area[i] = p.Bounds(), p.Area()
	}
	if len(loops) < 2 {
		for i := range n.parent {
			n.parent[i] = -1
		}
		return n.parent, n.area, nil
	}
	n.eps = 16 * leastTolerance(boundsOf(loops), 0)
	if err := n.sweep(ctx); err != nil {
		return nil, nil, err
	}
	return n.parent, n.area, n.settle(ctx)
}

// What next holds of a loop beside the number of the loop below: not known.
const (
	nextNone  = -1 // nothing is below
	nextDoubt = -2 // to be found without rounding
)

type nesting struct {
	loops  []Path
	box    []r2.Box
	area   []float64
	eps    float64
	next   []int32 // the loop around, or below; see inside
	inside []bool  // next is around the loop, and not beside it
	parent []int
	index  *index    // of the loops' boxes
	finder []*finder // of loops of many segments
}

// A sweeper goes over the pieces of loops from left to right.
type sweeper struct {
	*nesting
	*front
	begins, ends []int32 // pieces, by where they begin and end
	first        []int32 // one more than the piece that each loop begins with
	begun        []int32 // loops that wait for others to begin beside them
}

// sweep finds next of every loop.
func (n *nesting) sweep(ctx context.Context) error {
	n.inside = make([]bool, len(n.loops))
	w := &sweeper{nesting: n, front: newFront(n.loops, n.area), first: make([]int32, len(n.loops))}
	w.order()
	done := 0
	leave := func(x float64) { // those that end up to x
		for ; done < len(w.ends) && w.piece[w.ends[done]].b.X <= x; done++ {
			w.look(w.piece[w.ends[done]].b.X)
			w.erase(w.ends[done])
		}
	}
	for i, p := range w.begins {
		if i&1023 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		x := w.piece[p].a.X
		leave(x)
		w.look(x)
		w.insert(p)
		if l := w.piece[p].loop; w.first[l] == 0 {
			w.first[l] = p + 1
			w.begun = append(w.begun, l)
		}
	}
	leave(math.Inf(1))
	for l := range w.first {
		if w.first[l] == 0 { // plumb all along
			n.next[l] = nextDoubt
		}
	}
	for _, l := range w.begun {
		n.next[l] = nextDoubt
	}
	return nil
}

// order sorts the pieces by where they begin and by where they end.
func (w *sweeper) order() {
	w.begins = make([]int32, len(w.piece))
	for i := range w.begins {
		w.begins[i] = int32(i)
	}
	w.ends = slices.Clone(w.begins)
	slices.SortFunc(w.begins, func(i, j int32) int { return cmp.Or(cmp.Compare(w.piece[i].a.X, w.piece[j].a.X), cmp.Compare(i, j)) })
	slices.SortFunc(w.ends, func(i, j int32) int { return cmp.Or(cmp.Compare(w.piece[i].b.X, w.piece[j].b.X), cmp.Compare(i, j)) })
}

// look finds what is below the loops that began well before x.
func (w *sweeper) look(x float64) {
	for len(w.begun) > 0 {
		l := w.begun[0]
		if p := w.first[l] - 1; w.piece[p].a.X+w.eps < x {
			w.nesting.below(w.front, l, p)
			w.begun = w.begun[1:]
			continue
		}
		return
	}
}

// below finds what is right below loop l, where it begins with the piece p.
func (n *nesting) below(w *front, l, p int32) {
	n.next[l] = nextDoubt
	if !w.has(p) {
		return
	}
	x := w.piece[p].a.X + n.eps
	up, top := w.step(p, true), p // above the loop's pieces together, and the highest of them
	for up >= 0 && w.piece[up].loop == l {
		up, top = w.step(up, true), up
	}
	low, own := w.step(p, false), p
	for low >= 0 && w.piece[low].loop == l {
		low, own = w.step(low, false), low
	}
	if up >= 0 && w.piece[up].y(x)-w.piece[top].y(x) <= n.eps {
		return
	}
	if low < 0 {
		n.next[l] = nextNone
		return
	}
	y, m := w.piece[low].y(x), w.piece[low].loop
	if w.piece[own].y(x)-y <= n.eps {
		return
	}
	if under := w.step(low, false); under >= 0 && w.piece[under].loop != m && y-w.piece[under].y(x) <= n.eps {
		return
	}
	larger := math.Abs(n.area[m]) > math.Abs(n.area[l])
	if !larger && holds(n.box[l], n.box[m], n.eps) {
		return // it may be within the loop
	}
	in := w.piece[low].above
	if in && !(larger && holds(n.box[m], n.box[l], n.eps)) {
		return
	}
	n.next[l], n.inside[l] = m, in
}

// holds reports whether a box holds another, or nearly.
func holds(a, b r2.Box, eps float64) bool {
	return a.Min.X-eps <= b.Min.X && b.Max.X <= a.Max.X+eps && a.Min.Y-eps <= b.Min.Y && b.Max.Y <= a.Max.Y+eps
}

// settle turns next into parents.
func (n *nesting) settle(ctx context.Context) error {
	const open = -2
	for i := range n.parent {
		n.parent[i] = open
	}
	var chain []int
	for i := range n.parent {
		// Along loops beside each other to one whose parent is known.
		chain = chain[:0]
		found := open
		for at := i; found == open; {
			if n.parent[at] != open {
				found = n.parent[at]
				break
			}
			chain = append(chain, at)
			switch next := n.next[at]; {
			case next == nextNone:
				found = -1
			case next == nextDoubt || len(chain) > len(n.parent):
				if ctx.Err() != nil {
					return ctx.Err()
				}
				found = n.around(at)
			case n.inside[at]:
				found = int(next)
			default:
				at = int(next)
			}
		}
		for _, j := range chain {
			if found >= 0 && (j == found || !holds(n.box[found], n.box[j], n.eps)) {
				n.parent[j] = n.around(j)
			} else {
				n.parent[j] = found
			}
		}
	}
	return nil
}

// around returns the smallest loop around loop l, decided without rounding.
func (n *nesting) around(l int) int {
	if n.index == nil {
		n.index, n.finder = newIndex(n.box), make([]*finder, len(n.loops))
	}
	var may []int
	size := math.Abs(n.area[l])
	n.index.search(n.box[l], func(i int) bool {
		if i != l && math.Abs(n.area[i]) > size && holds(n.box[i], n.box[l], n.eps) {
			may = append(may, i)
		}
		return true
	})
	slices.SortFunc(may, func(i, j int) int {
		return cmp.Or(cmp.Compare(math.Abs(n.area[i]), math.Abs(n.area[j])), i-j)
	})
	for _, i := range may {
		if n.finder[i] == nil {
			n.finder[i] = newFinder(n.loops[i])
		}
		if n.finder[i].encloses(n.loops[l], n.eps) {
			return i
		}
	}
	return -1
}

// A finder tells on which side of a closed path points lie, as [Path.Locate]
// does, in time that grows little with the number of its segments.
type finder struct {
	p     Path
	index *index
}

func newFinder(p Path) *finder {
	f := &finder{p: p}
	if n := len(p.V); n > 32 {
		boxes := make([]r2.Box, n)
		for i := range boxes {
			b := p.Segment(i).Bounds()
			boxes[i] = grown(b, 1e-12*(math.Abs(b.Min.X)+math.Abs(b.Max.X)+math.Abs(b.Min.Y)+math.Abs(b.Max.Y)))
		}
		f.index = newIndex(boxes)
	}
	return f
}

func (f *finder) locate(q r2.Vec) Side {
	if f.index == nil {
		return f.p.Locate(q)
	}
	w, on := 0, false
	f.index.search(r2.Box{Min: q, Max: r2.Vec{X: math.Inf(1), Y: q.Y}}, func(i int) bool {
		s := f.p.Segment(i)
		if s.A == s.B {
			return true
		}
		if on = onSegment(s, q); on {
			return false
		}
		w += count(s, q)
		return true
	})
	switch {
	case on:
		return OnBoundary
	case w != 0:
		return Inside
	}
	return Outside
}

// encloses reports whether the finder's loop is around loop q, which does not
// cross it by more than eps; they may touch. It goes by the first point of q
// that is farther than that from the loop, or by the first that is not on it.
func (f *finder) encloses(q Path, eps float64) bool {
	found := OnBoundary
	for i := range q.V {
		s := q.Segment(i)
		quarter, _ := s.At(s.Length() / 4)
		for _, p := range [3]r2.Vec{s.Mid(), s.A, quarter} {
			side := f.locate(p)
			if side != OnBoundary && !f.close(p, eps) {
				return side == Inside
			}
			if found == OnBoundary {
				found = side
			}
		}
	}
	return found != Outside
}

// close reports whether p is within eps of the loop.
func (f *finder) close(p r2.Vec, eps float64) bool {
	if f.index == nil {
		return f.p.Distance(p) <= eps
	}
	return !f.index.search(grown(r2.Box{Min: p, Max: p}, eps), func(i int) bool {
		return f.p.Segment(i).Distance(p) > eps
	})
}
