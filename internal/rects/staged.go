package rects

// A Direction is the way the first cuts of a staged layout run.
type Direction int

const (
	AnyWay Direction = iota // each bin its own, whichever fills better
	AlongW                  // parallel to the width: strips stacked in height
	AlongH                  // parallel to the height
)

// Saw says which layouts a saw can cut.
type Saw struct {
	Stages int       // 2 or 3 stages of edge-to-edge cuts
	First  Direction // the way the first cuts run
	Exact  bool      // no trim cut after the last stage: pieces of a stack are equally wide
}

// StagedBins places the items in as few bins as it can find so that every
// layout falls apart in saw.Stages stages of edge-to-edge cuts.
func StagedBins(items []Item, bin Size, saw Saw, seed uint64, stop Stop) [][]Placed {
	h := &halt{stop: stop}
	return search(items, bin, seed, h, saw.First == AlongH, newStaged(bin, saw, h))
}

// staged fills a bin with strips of stacks. It works with the first cuts
// along the width; for the other way it lays the bin and the items on their
// sides.
type staged struct {
	bin   Size
	saw   Saw
	eps   float64
	out   []Placed
	best  []Placed
	strip []Placed // the better of the ways that its first item can lie
	known []Item   // the items of the next
	lies  [2][]lie // of each item, and of each on its side
	halt  *halt
}

// A lie is how an item may lie, and the least sides that it has in any way.
type lie struct {
	ways  [2]Size
	n     int
	least Size
}

func newStaged(bin Size, saw Saw, h *halt) *staged {
	return &staged{bin: bin, saw: saw, eps: slack(bin), halt: h}
}

// know works out how items may lie, once for all fillings of the same.
func (s *staged) know(items []Item) {
	if len(s.known) == len(items) && (len(items) == 0 || &s.known[0] == &items[0]) {
		return
	}
	s.known = items
	for k := range s.lies {
		s.lies[k] = make([]lie, len(items))
		for i, it := range items {
			l := lie{}
			l.ways, l.n = ways(it, k == 1)
			l.least = l.ways[0]
			if l.n == 2 {
				l.least = Size{min(it.W, it.H), min(it.W, it.H)}
			}
			s.lies[k][i] = l
		}
	}
}

func (s *staged) fill(items []Item, order []int, used []bool) ([]Placed, float64) {
	s.know(items)
	s.best = s.best[:0]
	most := 0.0
	for _, side := range [2]bool{false, true} {
		if s.saw.First == AlongW && side || s.saw.First == AlongH && !side {
			continue
		}
		s.out = s.out[:0]
		covered := s.strips(order, used, b2i(side))
		for _, p := range s.out {
			used[p.Item] = false
		}
		if covered > most {
			most = covered
			s.best, s.out = s.out, s.best
		}
	}
	for _, p := range s.best {
		used[p.Item] = true
	}
	return s.best, most
}

// ways returns how an item may lie, on its side with the bin where side is set.
func ways(it Item, side bool) ([2]Size, int) {
	w, n := it.ways()
	if side {
		for i := range n {
			w[i].W, w[i].H = w[i].H, w[i].W
		}
	}
	return w, n
}

// strips fills the bin strip by strip. The first item that fits sets the
// height of a strip; of the ways it can lie, the one that fills its strip
// better is kept.
func (s *staged) strips(order []int, used []bool, side int) float64 {
	bin := s.bin
	if side == 1 {
		bin.W, bin.H = bin.H, bin.W
	}
	covered, y := 0.0, 0.0
	for {
		first, ok := s.firstFit(order, used, side, Size{bin.W, bin.H - y})
		if !ok {
			break
		}
		l, from := &s.lies[side][first], len(s.out)
		most, fill, high := -1.0, 0.0, 0.0
		for i, w := range l.ways[:l.n] {
			if w.W > bin.W+s.eps || w.H > bin.H-y+s.eps {
				continue
			}
			c := s.lay(order, used, side, first, w, i == 1, y, bin.W)
			if f := c / w.H; f > most {
				most, fill, high = f, c, w.H
				s.strip = append(s.strip[:0], s.out[from:]...)
			}
			s.undo(from, used)
		}
		s.out = append(s.out, s.strip...)
		for _, p := range s.strip {
			used[p.Item] = true
		}
		covered += fill
		y += high
	}
	if side == 1 {
		for i := range s.out {
			p := &s.out[i]
			p.X, p.Y, p.W, p.H = p.Y, p.X, p.H, p.W
		}
	}
	return covered
}

func (s *staged) undo(from int, used []bool) {
	for _, p := range s.out[from:] {
		used[p.Item] = false
	}
	s.out = s.out[:from]
}

func (s *staged) firstFit(order []int, used []bool, side int, room Size) (int, bool) {
	for _, id := range order {
		if used[id] {
			continue
		}
		l := &s.lies[side][id]
		for _, w := range l.ways[:l.n] {
			if w.W <= room.W+s.eps && w.H <= room.H+s.eps {
				return id, true
			}
		}
	}
	return 0, false
}

// lay fills a strip with stacks side by side, the given item first, and returns
// the area they cover.
func (s *staged) lay(order []int, used []bool, side, first int, c Size, turned bool, y, width float64) float64 {
	height, covered, x := c.H, 0.0, 0.0
	id := first
	for id >= 0 {
		covered += s.put(id, x, y, c, turned, used)
		if s.saw.Stages > 2 {
			covered += s.stack(order, used, side, x, y, c, height)
		}
		x += c.W
		id, c, turned = s.choose(order, used, side, Size{width - x, height}, false)
	}
	return covered
}

// stack puts items upon one that stands in a strip.
func (s *staged) stack(order []int, used []bool, side int, x, y float64, base Size, height float64) float64 {
	covered, top := 0.0, base.H
	for {
		id, c, turned := s.choose(order, used, side, Size{base.W, height - top}, s.saw.Exact)
		if id < 0 {
			return covered
		}
		covered += s.put(id, x, y+top, c, turned, used)
		top += c.H
	}
}

func (s *staged) put(id int, x, y float64, c Size, turned bool, used []bool) float64 {
	used[id] = true
	s.out = append(s.out, Placed{id, x, y, c.W, c.H, turned})
	return float64(c.W * c.H)
}

// choose returns the item that best matches the room: both sides, one side,
// or just the next in order; -1 where none fits.
func (s *staged) choose(order []int, used []bool, side int, room Size, sameWidth bool) (best int, size Size, turned bool) {
	best = -1
	if s.halt.over(len(order)) {
		return best, size, false
	}
	w, h, score := room.W+s.eps, room.H+s.eps, -1
	lies := s.lies[side]
	for _, id := range order {
		l := &lies[id]
		if l.least.W > w || l.least.H > h || used[id] {
			continue
		}
		for i := range l.n {
			c := l.ways[i]
			if c.W > w || c.H > h || sameWidth && c.W < room.W-s.eps {
				continue
			}
			v := b2i(c.W >= room.W-s.eps)
			if c.H >= room.H-s.eps {
				v += 2
			}
			if v > score {
				best, size, turned, score = id, c, i == 1, v
			}
		}
		if score == 3 {
			break
		}
	}
	return best, size, turned
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
