package cut

import "slices"

// clumps are the cells that hang together, as a forest: a root has below 0 how
// many there are. Cells are added in the reverse of the sequence in which they
// went, so that every moment of the cutting passes by.
type clumps struct {
	*standing
	died   []int32
	parent []int32
	frame  int32
	told   map[int32]bool // roots of what is known not to hang together with the frame
}

// A lump is a piece of the sheet that hung together with the frame no more
// after an event.
type lump struct {
	event int32
	cells []int32
}

// gone marks a cell that is not yet added.
const gone = 0

func (s *standing) clumps(died []int32) *clumps {
	return &clumps{standing: s, died: died, parent: make([]int32, len(died)), frame: -1, told: map[int32]bool{}}
}

func (c *clumps) root(i int32) int32 {
	r := i
	for c.parent[r] > 0 {
		r = c.parent[r] - 1
	}
	for c.parent[i] > 0 {
		c.parent[i], i = r+1, c.parent[i]-1
	}
	return r
}

// add adds a cell and joins it to its neighbors.
func (c *clumps) add(i int32) {
	c.parent[i] = -1
	for _, k := range c.beside(int(i)) {
		if k < 0 || c.parent[k] == gone {
			continue
		}
		a, b := c.root(i), c.root(int32(k))
		if a == b {
			continue
		}
		if c.parent[a] > c.parent[b] {
			a, b = b, a
		}
		c.parent[a] += c.parent[b]
		c.parent[b] = a + 1
		if c.told[b] {
			c.told[a] = true
		}
	}
}

// loose returns every piece of so many cells or more that does not hang
// together with the frame, at the end and after every event before it. A piece
// is told once, at the last moment it was there.
func (c *clumps) loose(least int) []lump {
	var late []int32
	for i, d := range c.died {
		switch {
		case c.who[i] < 0:
		case d == stands:
			c.add(int32(i))
		default:
			late = append(late, int32(i))
		}
	}
	c.findFrame()
	slices.SortStableFunc(late, func(a, b int32) int { return int(c.died[b] - c.died[a]) })
	out := c.gather(c.now, least, nil)
	for from := 0; from < len(late); {
		to := from
		for ; to < len(late) && c.died[late[to]] == c.died[late[from]]; to++ {
			c.add(late[to])
		}
		out = append(out, c.gather(c.died[late[from]]-1, least, late[from:to])...)
		from = to
	}
	return out
}

// findFrame takes for the frame what has most of the waste that stands at the
// end, or where there is none, most of anything.
func (c *clumps) findFrame() {
	waste := map[int32]int{}
	last, run := int32(-1), 0 // cells of a row are mostly of one clump
	for i := range c.parent {
		if c.parent[i] == gone {
			continue
		}
		r := c.root(int32(i))
		if r != last {
			if last >= 0 {
				waste[last] += run
			}
			last, run = r, 0
		}
		if run++; c.who[i] == 0 {
			run += len(c.parent)
		}
	}
	if last < 0 {
		return
	}
	waste[last] += run
	for r, n := range waste {
		if c.frame < 0 || n > waste[c.frame] || n == waste[c.frame] && r < c.frame {
			c.frame = r
		}
	}
}

// gather tells the pieces that the cells are of, or all cells where nil, that
// are not the frame and were not told.
func (c *clumps) gather(event int32, least int, of []int32) []lump {
	if c.frame < 0 {
		return nil
	}
	frame := c.root(c.frame)
	found := map[int32]int{}
	var out []lump
	see := func(i int32) {
		r := c.root(i)
		if r == frame || -int(c.parent[r]) < least || c.told[r] {
			return
		}
		if _, ok := found[r]; !ok {
			found[r] = len(out)
			out = append(out, lump{event: event})
		}
	}
	if of != nil {
		for _, i := range of {
			see(i)
		}
	} else {
		for i := range c.parent {
			if c.parent[i] != gone {
				see(int32(i))
			}
		}
	}
	if len(found) == 0 {
		return nil
	}
	for i := range c.parent {
		if c.parent[i] == gone {
			continue
		}
		if k, ok := found[c.root(int32(i))]; ok {
			out[k].cells = append(out[k].cells, int32(i))
		}
	}
	for r := range found {
		c.told[r] = true
	}
	return out
}
