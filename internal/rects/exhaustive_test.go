package rects

import "slices"

// block is a rectangle of whole sides that is not turned; spot is one in place.
type (
	block struct{ w, h int }
	spot  struct {
		block
		x, y int
	}
)

// exhaustive looks through all layouts of blocks in a box, the places along w
// first and then those along h, as Simonis and O'Sullivan do ("Search
// strategies for rectangle packing", 2008, from memory). It shares nothing
// with the packers.
//
// Whole places are enough: blocks pushed left and down until none moves stand
// at sums of sides. So too no side between two whole ones holds more.
type exhaustive struct {
	w, h     int
	diagonal bool      // turning the box over its diagonal changes nothing
	blocks   []block   // falling area: the first choices are the tightest
	x        []int     // of the blocks
	free     []int     // cells that no block has taken, of each column
	most     [][][]int // see fillColumns: [k][j][c] for the blocks k to k+j
	area     [][]int
	top      []int // of each column, in the second part
	y        []int // of the blocks, -1 before they are placed
}

// fit returns a layout of the blocks in the box, or nil if there is none.
func fit(blocks []block, w, h int) []spot {
	s := exhaustive{w: w, h: h, diagonal: w == h, blocks: slices.Clone(blocks)}
	slices.SortStableFunc(s.blocks, func(a, b block) int { return b.w*b.h - a.w*a.h })
	s.x, s.y = make([]int, len(blocks)), slices.Repeat([]int{-1}, len(blocks))
	s.free, s.top = slices.Repeat([]int{h}, w), make([]int, w)
	for i, b := range s.blocks {
		s.diagonal = s.diagonal && b.w == b.h
		s.fillColumns(s.blocks[i:])
	}
	s.fillColumns(nil)
	if !s.roomy(0) || !s.column(0) {
		return nil
	}
	spots := make([]spot, len(blocks))
	for i, b := range s.blocks {
		spots[i] = spot{b, s.x[i], s.y[i]}
	}
	return spots
}

// fillColumns notes, for each leading part of the blocks, its area and the most
// that a column of c free cells can hold of it, for each c: the greatest sum of
// some of its heights that is not over c.
func (s *exhaustive) fillColumns(blocks []block) {
	sums := make([]bool, s.h+1)
	sums[0] = true
	var most [][]int
	var areas []int
	area := 0
	for _, b := range blocks {
		area += b.w * b.h
		for c := s.h; c >= b.h; c-- {
			sums[c] = sums[c] || sums[c-b.h]
		}
		m := make([]int, s.h+1)
		for c := range m {
			if m[c] = c; !sums[c] {
				m[c] = m[c-1]
			}
		}
		most, areas = append(most, m), append(areas, area)
	}
	s.most, s.area = append(s.most, most), append(s.area, areas)
}

// roomy is false only if no layout is left once k blocks have their columns: the
// blocks k to j take their heights, whole, from columns, so the columns together
// must be able to hold their area, for every j.
func (s *exhaustive) roomy(k int) bool {
	for j, most := range s.most[k] {
		room := 0
		for _, c := range s.free {
			room += most[c]
		}
		if room < s.area[k][j] {
			return false
		}
	}
	return true
}

// column tries all columns for the blocks k and on. A layout turned left for
// right is a layout too, so the first block stays in the left half.
func (s *exhaustive) column(k int) bool {
	if k == len(s.blocks) {
		return s.stack(k)
	}
	b := s.blocks[k]
	last := s.w - b.w
	if k == 0 {
		last /= 2
	}
	for x := 0; x <= last; x++ {
		if slices.Min(s.free[x:x+b.w]) < b.h {
			continue // the blocks of a column stand on one another
		}
		s.x[k] = x
		raise(s.free[x:x+b.w], -b.h)
		if s.roomy(k+1) && s.column(k+1) {
			return true
		}
		raise(s.free[x:x+b.w], b.h)
	}
	return false
}

// stack tries all heights of left blocks whose columns are known. All below top
// is decided, in any layout that is still to be found as it is here. There the
// lowest, leftmost cell above top is waste or the lower left corner of a block
// that stands on a flat, since the cells below and left of it are decided. What
// all blocks leave free of a column is its waste, so no block leaves the box.
// A layout turned upside down or over the diagonal is a layout too, so the first
// block stays in the lower half and, if the diagonal counts, not below it.
func (s *exhaustive) stack(left int) bool {
	if left == 0 {
		return true
	}
	y := slices.Min(s.top)
	x := slices.Index(s.top, y)
	if s.y[0] < 0 && y > (s.h-s.blocks[0].h)/2 {
		return false
	}
	for i, b := range s.blocks {
		if s.y[i] >= 0 || s.x[i] != x || i == 0 && s.diagonal && y < x || slices.Max(s.top[x:x+b.w]) > y {
			continue
		}
		s.y[i] = y
		raise(s.top[x:x+b.w], b.h)
		if s.stack(left - 1) {
			return true
		}
		raise(s.top[x:x+b.w], -b.h)
		s.y[i] = -1
	}
	if s.free[x] == 0 {
		return false
	}
	s.free[x]--
	s.top[x]++
	found := s.stack(left)
	s.top[x]--
	s.free[x]++
	return found
}

func raise(cells []int, by int) {
	for i := range cells {
		cells[i] += by
	}
}
