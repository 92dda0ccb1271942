package rects

// SlicedBins places the items in as few bins as it can find so that every
// layout falls apart in edge-to-edge cuts, with no limit on their stages.
func SlicedBins(items []Item, bin Size, seed uint64, stop Stop) [][]Placed {
	h := &halt{stop: stop}
	return search(items, bin, seed, h, false, newStaged(bin, Saw{Stages: 3}, h),
		&sliced{bin: bin, staged: newStaged(bin, Saw{}, h), rule: largeRoom},
		&sliced{bin: bin, staged: newStaged(bin, Saw{}, h), rule: evenRooms},
		&sliced{bin: bin, staged: newStaged(bin, Saw{}, h), rule: longCut})
}

// A splitRule says which way the first cut beside an item goes.
type splitRule int

const (
	largeRoom splitRule = iota // so that the larger room left is as large as can be
	evenRooms                  // so that it is as small as can be
	longCut                    // along the longer side of the room
)

// sliced fills a room with an item in its corner and two rooms beside it,
// which one cut parts, and these in the same way.
type sliced struct {
	*staged // what chooses items
	bin     Size
	rule    splitRule
	covered float64
}

func (s *sliced) fill(items []Item, order []int, used []bool) ([]Placed, float64) {
	s.know(items)
	s.out, s.covered = s.out[:0], 0
	s.room(order, used, Placed{W: s.bin.W, H: s.bin.H})
	return s.out, s.covered
}

func (s *sliced) room(order []int, used []bool, r Placed) {
	id, c, turned := s.choose(order, used, 0, Size{r.W, r.H}, false)
	if id < 0 {
		return
	}
	s.covered += s.put(id, r.X, r.Y, c, turned, used)
	beside := Placed{X: r.X + c.W, Y: r.Y, W: r.W - c.W, H: c.H}
	above := Placed{X: r.X, Y: r.Y + c.H, W: c.W, H: r.H - c.H}
	if s.upright(r, c) {
		beside.H = r.H
	} else {
		above.W = r.W
	}
	// The smaller room takes what it can before the larger.
	if beside.W*beside.H > above.W*above.H {
		beside, above = above, beside
	}
	s.room(order, used, beside)
	s.room(order, used, above)
}

// upright reports whether the first cut runs along the height of the room.
func (s *sliced) upright(r Placed, c Size) bool {
	tall := max((r.W-c.W)*r.H, c.W*(r.H-c.H))
	wide := max((r.W-c.W)*c.H, r.W*(r.H-c.H))
	switch s.rule {
	case largeRoom:
		return tall > wide
	case evenRooms:
		return tall < wide
	}
	return r.H > r.W
}
