package arc

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A strand is an edge put into an arrangement. The strands of one arrangement
// form closed loops, so that every point has a winding number; that is what
// offsets and the operations on regions decide by.
type strand struct {
	edge
	src int32   // what it came from; pieces of equal src are joined again
	w   [2]int8 // what its crossing adds to either winding number
}

// An arrangement is the strands cut at their common points. Points within eps
// of each other are one node. Topology is kept on nodes and pieces; after
// cutting, no decision compares coordinates with eps.
type arrangement struct {
	ctx    context.Context
	eps    float64
	strand []strand
	index  *index
	node   []r2.Vec
	piece  []piece
	first  []int32 // of a strand's pieces, and the end
	link   []link
	spoke  []spoke // by node
	begin  []int32 // of a node's spokes, and the end
}

// A piece is the part of a strand between two nodes.
type piece struct {
	from, to int32
	k        float64
	link     int32
}

// A link is one or several pieces that coincide, taken in the direction of the
// first.
type link struct {
	from, to int32
	k        float64
	src      int32
	w        [2]int // what its crossing from right to left adds
	left     [2]int // winding numbers to its left
	known    bool
}

// A cut is where a strand is to be cut, at a parameter, to meet a node.
type cut struct {
	t    float64
	node int32
}

// A record is a cut of a strand.
type record struct {
	strand int32
	cut
}

// maxHits bounds the memory of one arrangement.
const maxHits = 1 << 23

// arrange cuts the strands at their common points and finds the winding
// numbers of every piece. It returns nil where there are too many, or when ctx
// is done.
func arrange(ctx context.Context, strands []strand, eps float64) *arrangement {
	a, cuts := cutStrands(ctx, strands, eps)
	if a == nil || !a.build(cuts) {
		return nil
	}
	return a
}

// cutStrands starts an arrangement: its nodes, and where they cut the strands.
func cutStrands(ctx context.Context, strands []strand, eps float64) (*arrangement, [][]cut) {
	a := &arrangement{ctx: ctx, eps: eps, strand: strands}
	boxes := make([]r2.Box, len(strands))
	for i := range strands {
		boxes[i] = grown(strands[i].box(), 2*eps)
	}
	a.index = newIndex(boxes)
	cuts, ok := a.cuts(boxes)
	if !ok {
		return nil, nil
	}
	return a, cuts
}

// build does the rest; it returns false when its context is done.
func (a *arrangement) build(cuts [][]cut) bool {
	a.split(cuts)
	a.join()
	a.fans()
	return a.ctx.Err() == nil && a.wind()
}

// cuts makes the nodes and returns each strand's cuts.
func (a *arrangement) cuts(boxes []r2.Box) ([][]cut, bool) {
	pts := make([]r2.Vec, 0, 3*len(a.strand))
	for i := range a.strand {
		pts = append(pts, a.strand[i].a, a.strand[i].b)
	}
	var records []record
	var hits []hit
	for i := range a.strand {
		ok := (i&255 != 0 || a.ctx.Err() == nil) && a.index.search(boxes[i], func(j int) bool {
			if j <= i {
				return true
			}
			hits = meet(hits[:0], &a.strand[i].edge, &a.strand[j].edge, a.eps)
			for _, h := range hits {
				n := int32(len(pts))
				pts = append(pts, h.p)
				records = append(records, record{int32(i), cut{h.te, n}}, record{int32(j), cut{h.tf, n}})
			}
			return len(records) < maxHits
		})
		if !ok {
			return nil, false
		}
	}
	node := a.cluster(pts)
	first := int32(0) // of the nodes that no end made
	for _, n := range node[:2*len(a.strand)] {
		first = max(first, n+1)
	}
	for i := range records {
		records[i].node = node[records[i].node]
	}
	records = a.thirds(records, first)
	count := make([]int, len(a.strand))
	for _, r := range records {
		count[r.strand]++
	}
	all, cuts := make([]cut, len(records)+2*len(a.strand)), make([][]cut, len(a.strand))
	for i := range cuts {
		n := count[i] + 2
		cuts[i], all = all[:0:n], all[n:]
		cuts[i] = append(cuts[i], cut{0, node[2*i]}, cut{1, node[2*i+1]})
	}
	for _, r := range records {
		cuts[r.strand] = append(cuts[r.strand], r.cut)
	}
	return cuts, true
}

// thirds adds to the records the cuts of strands that pass within eps of a node
// made by others, the nodes from first on: strands that nearly coincide are so
// all cut at the same nodes, even where only one of them is crossed.
func (a *arrangement) thirds(records []record, first int32) []record {
	begin := make([]int32, len(a.node)-int(first)+1)
	for _, r := range records {
		if r.node >= first {
			begin[r.node-first]++
		}
	}
	sum := int32(0)
	for i, n := range begin {
		begin[i] = sum
		sum += n
	}
	at, fill := make([]int32, sum), slices.Clone(begin)
	for _, r := range records {
		if r.node >= first {
			at[fill[r.node-first]] = r.strand
			fill[r.node-first]++
		}
	}
	has := make([]int32, len(a.strand)) // one more than the node that cut it last
	for n := range begin[:len(begin)-1] {
		for _, s := range at[begin[n]:begin[n+1]] {
			has[s] = int32(n) + 1
		}
		p := a.node[int(first)+n]
		a.index.search(r2.Box{Min: p, Max: p}, func(s int) bool {
			if has[s] != int32(n)+1 {
				if t, ok := a.strand[s].within(p, a.eps); ok {
					records = append(records, record{int32(s), cut{t, first + int32(n)}})
				}
			}
			return len(records) < maxHits
		})
	}
	return records
}

// cluster makes nodes of points and returns which node each became. A node
// stands at the first point that needed it, and nodes are more than eps apart.
func (a *arrangement) cluster(pts []r2.Vec) []int32 {
	node := make([]int32, len(pts))
	a.node = make([]r2.Vec, 0, len(pts))
	cells := newCells(a.eps, len(pts))
	for i, p := range pts {
		best, d := int32(-1), a.eps*a.eps
		cells.around(p, func(n int32) {
			if q := r2.Norm2(r2.Sub(a.node[n], p)); q <= d {
				best, d = n, q
			}
		})
		if best < 0 {
			best = int32(len(a.node))
			a.node = append(a.node, p)
			cells.put(p, best)
		}
		node[i] = best
	}
	return node
}

// split turns cuts into pieces.
func (a *arrangement) split(cuts [][]cut) {
	a.first = make([]int32, 0, len(cuts)+1)
	n := 0
	for _, c := range cuts {
		n += len(c) - 1
	}
	a.piece = make([]piece, 0, n)
	for i, c := range cuts {
		a.first = append(a.first, int32(len(a.piece)))
		slices.SortStableFunc(c, func(x, y cut) int { return cmp.Compare(x.t, y.t) })
		from := c[0]
		for _, to := range c[1:] {
			if to.node != from.node {
				k := a.strand[i].part(from.t, to.t)
				a.piece = append(a.piece, piece{from: from.node, to: to.node, k: k})
				from = to
			}
		}
	}
	a.first = append(a.first, int32(len(a.piece)))
}

// join makes links of the pieces that coincide.
func (a *arrangement) join() {
	type keyed struct {
		key   uint64
		piece int32
	}
	keys := make([]keyed, len(a.piece))
	for i, p := range a.piece {
		keys[i] = keyed{uint64(min(p.from, p.to))<<32 | uint64(max(p.from, p.to)), int32(i)}
	}
	slices.SortFunc(keys, func(x, y keyed) int {
		return cmp.Or(cmp.Compare(x.key, y.key), cmp.Compare(x.piece, y.piece))
	})
	owner := int32(0)
	strandOf := make([]int32, len(a.piece))
	for i := range a.piece {
		for int32(i) >= a.first[owner+1] {
			owner++
		}
		strandOf[i] = owner
	}
	a.link = make([]link, 0, len(a.piece))
	start := 0
	for i, key := range keys {
		if i > 0 && key.key != keys[i-1].key {
			start = len(a.link)
		}
		p := &a.piece[key.piece]
		s := &a.strand[strandOf[key.piece]]
		p.link = a.addLink(*p, s, start)
	}
}

// addLink adds a piece to the link since start that it coincides with, or to a
// new one.
func (a *arrangement) addLink(p piece, s *strand, start int) int32 {
	w := [2]int{int(s.w[0]), int(s.w[1])}
	m := a.segment(p.from, p.to, p.k).Mid()
	for i := start; i < len(a.link); i++ {
		l := &a.link[i]
		if near(m, a.segment(l.from, l.to, l.k).Mid(), 2*a.eps) {
			if l.from != p.from {
				w = [2]int{-w[0], -w[1]}
			}
			l.w[0] += w[0]
			l.w[1] += w[1]
			return int32(i)
		}
	}
	a.link = append(a.link, link{from: p.from, to: p.to, k: p.k, src: s.src, w: w})
	return int32(len(a.link) - 1)
}

func (a *arrangement) segment(from, to int32, k float64) Segment {
	return Segment{a.node[from], a.node[to], k}
}

// cells is a hash table of nodes by the square of the plane they stand in.
type cells struct {
	size float64
	mask uint64
	head []int32 // one more than the first node, by hash
	next []int32 // by node, likewise
}

func newCells(eps float64, n int) *cells {
	size := 16
	for size < 2*n {
		size *= 2
	}
	return &cells{8 * eps, uint64(size - 1), make([]int32, size), make([]int32, 0, n)}
}

func (c *cells) slot(x, y float64) uint64 {
	h := uint64(int64(x))*0x9e3779b97f4a7c15 ^ uint64(int64(y))*0xc2b2ae3d27d4eb4f
	return (h ^ h>>29) & c.mask
}

func (c *cells) put(p r2.Vec, n int32) {
	s := c.slot(math.Floor(p.X/c.size), math.Floor(p.Y/c.size))
	c.next = append(c.next, c.head[s])
	c.head[s] = n + 1
}

// around calls f with every node that may be within an eighth of a cell of p.
func (c *cells) around(p r2.Vec, f func(n int32)) {
	x, y := p.X/c.size, p.Y/c.size
	for i := math.Floor(x - 0.125); i <= x+0.125; i++ {
		for j := math.Floor(y - 0.125); j <= y+0.125; j++ {
			for n := c.head[c.slot(i, j)]; n > 0; n = c.next[n-1] {
				f(n - 1)
			}
		}
	}
}
