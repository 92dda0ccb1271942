package place

import (
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r2"
)

// A problem is the grid form of the items: their shapes and, built when first
// met, the tables of the pairs of shapes. It is shared by all lanes.
type problem struct {
	grid
	items  []Item
	fixed  int // items from here on are obstacles
	shapes []*shape
	turns  [][]int32 // shapes of each item
	res    int       // raster cells of a table
	pairs  []atomic.Pointer[view]
	mu     sync.Mutex
	tables map[tableKey]*table
}

type tableKey struct {
	a, b int32
}

// A view is a table seen through a turn by right angles: the displacement is
// turned by the matrix first.
type view struct {
	t              *table
	xx, xy, yx, yy float64
}

const (
	maxLoop      = 120   // vertices of a search outline
	simplifyGain = 0.001 // most area that simplifying an outline adds
	tableBudget  = 40e6  // raster cells of all tables
)

// newProblem brings items to the grid. Obstacles are items too, whose shift is
// a whole number of grid units.
func newProblem(fn string, items, obstacles []Item) (*problem, error) {
	p := &problem{fixed: len(items), tables: map[tableKey]*table{}}
	items = append(append([]Item(nil), items...), obstacles...)
	p.items = items
	var polys [][]r2.Vec
	right := true
	for _, it := range items {
		lo, _ := bounds(it.Outer)
		for _, l := range append([][]r2.Vec{it.Outer}, it.Holes...) {
			polys = append(polys, moved(l, r2.Scale(-1, lo)))
		}
		for _, a := range it.angles() {
			c, s := cosSin(a)
			right = right && (c == 0 || s == 0)
		}
	}
	p.grid = newGrid(polys, right)
	for i := range items {
		if err := p.addItem(fn, i); err != nil {
			return nil, err
		}
	}
	n := len(p.shapes)
	p.pairs = make([]atomic.Pointer[view], n*n)
	p.res = int(math.Sqrt(tableBudget / (float64(n)*float64(n)/8 + 1)))
	p.res = min(96, max(16, p.res))
	return p, nil
}

func moved(p []r2.Vec, d r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(p))
	for i, v := range p {
		out[i] = r2.Add(v, d)
	}
	return out
}

// angles lists the turns that the search tries.
func (it Item) angles() []float64 {
	if it.AnyRotation {
		var out []float64
		for k := range 24 {
			out = append(out, float64(k)*math.Pi/12)
		}
		return out
	}
	if len(it.Rotations) == 0 {
		return []float64{0}
	}
	return it.Rotations
}

func (p *problem) addItem(fn string, i int) error {
	it := p.items[i]
	loops := outlines(it, p.origin(i))
	exact := true
	for _, l := range loops {
		exact = exact && p.onGrid(l) && len(l) <= maxLoop
	}
	if !exact {
		for k := range loops {
			loops[k] = simplify(loops[k], maxLoop, simplifyGain)
		}
	}
	var ids []int32
	base := map[bool]int{}
	for _, mirrored := range []bool{false, true}[:1+b2i(it.Mirror)] {
		for _, a := range it.angles() {
			s, err := p.newShape(fn, i, loops, a, mirrored)
			if err != nil {
				return err
			}
			if p.known(ids, s) {
				continue
			}
			s.relate(p, base)
			ids = append(ids, int32(len(p.shapes)))
			p.shapes = append(p.shapes, s)
		}
	}
	p.turns = append(p.turns, ids)
	return nil
}

// known reports whether an equal shape is in the list, as half a turn of a
// rectangle is.
func (p *problem) known(ids []int32, s *shape) bool {
	for _, id := range ids {
		if sameLoop(p.shapes[id].region[0], s.region[0]) && len(s.region) == 1 {
			return true
		}
	}
	return false
}

func sameLoop(a, b []pt) bool {
	if len(a) != len(b) {
		return false
	}
	for k := range a {
		same := true
		for i := range a {
			if a[i] != b[(i+k)%len(b)] {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// origin is the point of an item that becomes the origin of its first shape:
// the corner of its box, rounded for obstacles.
func (p *problem) origin(i int) r2.Vec {
	lo, _ := bounds(p.items[i].Outer)
	if i >= p.fixed {
		lo.X, lo.Y = p.unit*math.Round(lo.X/p.unit), p.unit*math.Round(lo.Y/p.unit)
	}
	return lo
}

// outlines returns the loops of an item relative to its origin, the
// outer one counter-clockwise and the holes clockwise.
func outlines(it Item, lo r2.Vec) [][]r2.Vec {
	var loops [][]r2.Vec
	for k, l := range append([][]r2.Vec{it.Outer}, it.Holes...) {
		l = moved(l, r2.Scale(-1, lo))
		if (area(l) > 0) != (k == 0) {
			for i, j := 0, len(l)-1; i < j; i, j = i+1, j-1 {
				l[i], l[j] = l[j], l[i]
			}
		}
		loops = append(loops, l)
	}
	return loops
}

func (p *problem) newShape(fn string, i int, loops [][]r2.Vec, a float64, mirrored bool) (*shape, error) {
	it := p.items[i]
	lo := p.origin(i)
	turn := Placement{Rotation: a, Mirrored: mirrored}
	s := &shape{item: i, angle: a, mirrored: mirrored, base: len(p.shapes)}
	var turned [][]r2.Vec
	for _, l := range loops {
		turned = append(turned, applyAll(turn, l))
	}
	corner := p.snap(lowest(turned[0]))
	s.shift = r2.Sub(r2.Scale(-1, turn.Apply(lo)), corner)
	for k, l := range turned {
		g := p.loop(moved(l, r2.Scale(-1, corner)))
		if len(g) < 3 || (area2(g) > 0) != (k == 0) {
			if k == 0 {
				return nil, &Error{fn, fmt.Sprintf("items[%d].Outer", i), "an outline larger than the grid step", ErrItem}
			}
			continue
		}
		s.region = append(s.region, g)
	}
	s.area = math.Abs(area(it.Outer))
	for _, h := range it.Holes {
		s.area -= math.Abs(area(h))
	}
	for _, l := range s.region {
		s.space += float64(area2(l)) / 2
	}
	s.box = s.region.box()
	s.tour = s.region.tour()
	s.weight = math.Sqrt(hullArea(s.region[0]))
	return s, nil
}

func lowest(p []r2.Vec) r2.Vec { lo, _ := bounds(p); return lo }

// snap rounds a corner to the lattice, where there is one, so that shapes
// keep their vertices on it, and else to the grid.
func (p *problem) snap(v r2.Vec) r2.Vec {
	g := p.unit * float64(max(1, p.step))
	return r2.Vec{X: g * math.Round(v.X/g), Y: g * math.Round(v.Y/g)}
}

func applyAll(pl Placement, l []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(l))
	for i, v := range l {
		out[i] = pl.Apply(v)
	}
	if pl.Mirrored {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

// relate finds the poles of a shape: those of the first shape of the item,
// turned, or its own for the first.
func (s *shape) relate(p *problem, base map[bool]int) {
	s.poles = poles(s.region, poleCount)
}

// severityOf returns the severity of shape b moved by (x, y) against a.
func (p *problem) pair(a, b int32) *view {
	slot := &p.pairs[int(a)*len(p.shapes)+int(b)]
	if v := slot.Load(); v != nil {
		return v
	}
	return p.makePair(a, b, slot)
}

func (p *problem) makePair(a, b int32, slot *atomic.Pointer[view]) *view {
	p.mu.Lock()
	defer p.mu.Unlock()
	v := &view{xx: 1, yy: 1}
	if a > b {
		a, b = b, a
		v.xx, v.yy = -1, -1
	}
	k := tableKey{a, b}
	t := p.tables[k]
	if t == nil {
		t = newTable(p.shapes[a], p.shapes[b], p.res)
		p.tables[k] = t
	}
	v.t = t
	slot.Store(v)
	return v
}
