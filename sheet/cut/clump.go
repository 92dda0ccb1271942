package cut

import (
	"slices"
	"sort"
)

// A run is cells side by side in a row, of one owner, that came to hold nothing
// at one time.
type run struct {
	from, to int32 // to before which cell
	died     int32
	who      int16
}

// clumps are the runs that hang together, as a forest: a root has below 0 how
// many cells there are. Runs are added in the reverse of the sequence in which
// they went, so that every moment of the cutting passes by.
type clumps struct {
	*standing
	runs   []run
	row    []int32 // first run of each row, and their count
	parent []int32
	frame  int32
	told   map[int32]bool // roots of what is known not to hang together with the frame
}

// A lump is a piece of the sheet that hung together with the frame no more
// after an event.
type lump struct {
	event int32
	cells int
	runs  []run
}

// gone marks a run that is not yet added.
const gone = 0

// clumps returns the runs of the sheet by when their cells came to hold
// nothing, none added; with late those too that do not stand at the end.
func (s *standing) clumps(died []int32, late bool) *clumps {
	c := &clumps{standing: s, row: make([]int32, s.ny+1), frame: -1, told: map[int32]bool{}}
	for y := range s.ny {
		who, when := s.who[y*s.nx:(y+1)*s.nx], died[y*s.nx:(y+1)*s.nx]
		for x := 0; x < s.nx; {
			from := x
			for x++; x < s.nx && who[x] == who[from] && when[x] == when[from]; x++ {
			}
			if who[from] >= 0 && (late || when[from] == stands) {
				c.runs = append(c.runs, run{int32(y*s.nx + from), int32(y*s.nx + x), when[from], who[from]})
			}
		}
		c.row[y+1] = int32(len(c.runs))
	}
	c.parent = make([]int32, len(c.runs))
	return c
}

// of returns the run that a cell is of; there has to be one.
func (c *clumps) of(cell int) int32 {
	y := cell / c.nx
	row := c.runs[c.row[y]:c.row[y+1]]
	return c.row[y] + int32(sort.Search(len(row), func(i int) bool { return int(row[i].to) > cell }))
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

// add adds a run and joins it to its neighbors.
func (c *clumps) add(i int32) {
	v := c.runs[i]
	c.parent[i] = v.from - v.to
	y := int(v.from) / c.nx
	if i > c.row[y] && c.runs[i-1].to == v.from {
		c.union(i, i-1)
	}
	if i+1 < c.row[y+1] && c.runs[i+1].from == v.to {
		c.union(i, i+1)
	}
	for _, d := range [2]int{-1, 1} {
		if y+d < 0 || y+d >= c.ny {
			continue
		}
		from, to := v.from+int32(d*c.nx), v.to+int32(d*c.nx)
		for k := c.of(int(from)); k < c.row[y+d+1] && c.runs[k].from < to; k++ {
			c.union(i, k)
		}
	}
}

func (c *clumps) union(i, k int32) {
	if c.parent[k] == gone {
		return
	}
	a, b := c.root(i), c.root(k)
	if a == b {
		return
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

// join adds what stands at the end, finds the frame, and returns the other
// runs, the last gone first.
func (c *clumps) join() []int32 {
	var late []int32
	for i := range c.runs {
		if c.runs[i].died == stands {
			c.add(int32(i))
		} else {
			late = append(late, int32(i))
		}
	}
	c.findFrame()
	slices.SortStableFunc(late, func(a, b int32) int { return int(c.runs[b].died - c.runs[a].died) })
	return late
}

// loose returns every piece of so many cells or more that does not hang
// together with the frame, at the end and after every event before it. A piece
// is told once, at the last moment it was there.
func (c *clumps) loose(least int) []lump {
	late := c.join()
	out := c.gather(c.now, least, nil)
	for from := 0; from < len(late); {
		to, died := from, c.runs[late[from]].died
		for ; to < len(late) && c.runs[late[to]].died == died; to++ {
			c.add(late[to])
		}
		out = append(out, c.gather(died-1, least, late[from:to])...)
		from = to
	}
	return out
}

// findFrame takes for the frame what has most of the waste that stands at the
// end, or where there is none, most of anything.
func (c *clumps) findFrame() {
	type share struct{ waste, all int }
	most := map[int32]share{}
	for i, v := range c.runs {
		if c.parent[i] == gone {
			continue
		}
		r := c.root(int32(i))
		m := most[r]
		if m.all += int(v.to - v.from); v.who == 0 {
			m.waste += int(v.to - v.from)
		}
		most[r] = m
	}
	var best share
	for r, m := range most {
		if c.frame < 0 || m.waste > best.waste || m.waste == best.waste && (m.all > best.all || m.all == best.all && r < c.frame) {
			c.frame, best = r, m
		}
	}
}

// gather tells the pieces that the runs are of, or all runs where nil, that
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
			out = append(out, lump{event: event, cells: -int(c.parent[r])})
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
			out[k].runs = append(out[k].runs, c.runs[i])
		}
	}
	for r := range found {
		c.told[r] = true
	}
	return out
}
