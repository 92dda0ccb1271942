package place

import (
	"context"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r2"
)

// A problem is the grid form of the items: their shapes and, built when first
// met, the tables of the pairs of shapes. It is shared by all lanes.
type problem struct {
	grid
	base   *problem // that it was loosened from, else nil
	items  []Item
	fixed  int // items from here on are obstacles
	shapes []*shape
	turns  [][]int32 // shapes of each item
	forms  map[string]*form
	loops  [][][]r2.Vec // outlines of each item, simplified where need be
	cores  [][][]r2.Vec // likewise of its core
	first  int32        // number of the first of the forms
	res    int          // raster cells along a table
	pairs  []atomic.Pointer[view]
	mu     sync.Mutex
	tables map[tableKey]*table
	bytes  int  // taken by the tables
	rims   bool // see setRims
}

const (
	maxShapes    = 2400  // turns of all items; further turns are not tried
	maxLoop      = 120   // vertices of a search outline
	simplifyGain = 0.001 // most area that simplifying an outline adds
	tableBudget  = 2e6   // raster cells of all tables
)

// newProblem brings items to the grid. Obstacles are items too, whose shift is
// a whole number of grid units.
// Items of any turn get one that fits each of the rooms, if there is one.
// It returns nil without an error if ctx ends meanwhile.
func newProblem(ctx context.Context, fn string, items, obstacles []Item, rooms []r2.Vec, m *Memory) (*problem, error) {
	p := &problem{fixed: len(items), forms: map[string]*form{}, tables: map[tableKey]*table{}}
	items = append(append([]Item(nil), items...), obstacles...)
	p.items = items
	var polys [][]r2.Vec
	right := true
	for _, it := range items {
		lo, _ := bounds(it.Outer)
		for _, l := range it.polygons() {
			polys = append(polys, moved(l, scaled(-1, lo)))
		}
		for _, a := range it.angles() {
			c, s := cosSin(a)
			right = right && (c == 0 || s == 0)
		}
	}
	p.grid = newGrid(polys, right)
	p.recall(m)
	for i := range items {
		if err := p.addItem(ctx, fn, i, rooms); err != nil {
			return nil, err
		}
		if ctx.Err() != nil {
			p.keepForms(m)
			return nil, nil
		}
	}
	p.makePairs()
	p.setRims()
	p.recallTables(m)
	return p, nil
}

// firstPoles returns the circles of the first shape of a list, turned and
// mirrored from there, or none where the list is empty.
func (p *problem) firstPoles(ids []int32, a float64, mirrored bool) []circle {
	if len(ids) == 0 {
		return nil
	}
	s := p.shapes[ids[0]]
	if mirrored {
		return turnedPoles(s.turns[0].poles, a+s.angle, true)
	}
	return turnedPoles(s.turns[0].poles, a-s.angle, false)
}

func (p *problem) makePairs() {
	n := len(p.shapes)
	p.pairs = make([]atomic.Pointer[view], n*n)
	p.res = min(rasterRes, max(16, int(math.Sqrt(tableBudget/(float64(n*p.numForms())/2+1)))))
}

func moved(p []r2.Vec, d r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(p))
	for i, v := range p {
		out[i] = r2.Add(v, d)
	}
	return out
}

// addItem makes the shapes of an item, or only some of them if ctx ends.
func (p *problem) addItem(ctx context.Context, fn string, i int, rooms []r2.Vec) error {
	it := p.items[i]
	p.loops = append(p.loops, p.searchLoops(outlines(it, p.origin(i))))
	p.cores = append(p.cores, p.searchLoops(coreOf(it, p.origin(i))))
	var ids []int32
	most := mostTurns(len(p.items))
	angles := it.angles()
	if it.AnyRotation {
		angles = append(angles[:len(angles):len(angles)], it.roomAngles(angles, rooms)...)
	}
	for _, a := range angles {
		if ctx.Err() != nil {
			return nil
		}
		for _, mirrored := range []bool{false, true}[:1+b2i(it.Mirror)] {
			if len(ids) == most {
				break
			}
			s := p.turnedShape(ids, a, mirrored)
			if s == nil {
				var err error
				if s, err = p.newShape(fn, i, a, mirrored, p.firstPoles(ids, a, mirrored)); err != nil {
					return err
				}
			}
			if p.known(ids, s) {
				continue
			}
			ids = append(ids, int32(len(p.shapes)))
			p.shapes = append(p.shapes, s)
		}
	}
	p.turns = append(p.turns, ids)
	return nil
}

// searchLoops returns loops as they are where the grid holds them, else
// simplified.
func (p *problem) searchLoops(loops [][]r2.Vec) [][]r2.Vec {
	exact := true
	for _, l := range loops {
		exact = exact && p.onGrid(l) && len(l) <= maxLoop
	}
	if !exact {
		for k := range loops {
			loops[k] = simplify(loops[k], maxLoop, simplifyGain)
		}
	}
	return loops
}

// polygons lists the outlines of an item: itself, its holes and its core.
func (it Item) polygons() [][]r2.Vec {
	return slices.Concat([][]r2.Vec{it.Outer}, it.Holes, it.Core)
}

// mostTurns returns how many turns of each of n items are tried.
func mostTurns(n int) int { return max(1, maxShapes/n) }

// numForms counts the forms of the shapes.
func (p *problem) numForms() int {
	seen := map[int32]bool{}
	for _, s := range p.shapes {
		seen[s.id] = true
	}
	return len(seen)
}

// A Memory keeps what the search knows of pairs of outlines from one call to
// the next with the same items, or some of them. The zero Memory is empty. It
// is not for concurrent calls. The same calls in the same order give the same
// results.
type Memory struct {
	grid   grid
	res    int
	forms  map[string]*form
	tables map[tableKey]*table
	bytes  int
}

// recall takes over the forms of an earlier call on the same grid.
func (p *problem) recall(m *Memory) {
	if m != nil && m.grid == p.grid && m.forms != nil {
		p.forms = m.forms
	}
}

// keepForms notes the forms of a call that was stopped, so that the next one
// need not begin anew.
func (p *problem) keepForms(m *Memory) {
	if m != nil && (m.grid != p.grid || m.forms == nil) {
		*m = Memory{grid: p.grid, forms: p.forms}
	}
}

// recallTables takes over its tables, where they are as fine.
func (p *problem) recallTables(m *Memory) {
	if m == nil {
		return
	}
	if m.grid == p.grid && m.res == p.res && m.tables != nil {
		p.tables, p.bytes = m.tables, m.bytes
	}
	*m = Memory{grid: p.grid, res: p.res, forms: p.forms, tables: p.tables, bytes: p.bytes}
}

// remember notes the memory taken.
func (p *problem) remember(m *Memory) {
	if m != nil {
		m.bytes = p.bytes
	}
}
