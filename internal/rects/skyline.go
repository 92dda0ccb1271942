package rects

import "math"

// A step is one level stretch of a skyline.
type step struct{ x, y, w float64 }

// skyline fills one bin; its buffers are used again from fill to fill.
type skyline struct {
	bin   Size
	eps   float64
	steps []step
	out   []Placed
	halt  *halt
}

func newSkyline(bin Size) *skyline { return &skyline{bin: bin, eps: slack(bin)} }

// fill places items in the given order until none fits, sets used for each
// that it places, and returns the placements (valid until the next fill) and
// the area they cover. Items already used are passed over.
func (s *skyline) fill(items []Item, order []int, used []bool) ([]Placed, float64) {
	s.steps = append(s.steps[:0], step{0, 0, s.bin.W})
	s.out = s.out[:0]
	covered := 0.0
	for {
		i := s.lowest()
		gap := s.steps[i]
		if gap.y >= s.bin.H-s.eps {
			break
		}
		left, right := s.walls(i)
		best, size, turned, score := s.choose(items, order, used, gap, left, right)
		if best < 0 {
			if len(s.steps) == 1 {
				break
			}
			s.raise(i, math.Min(left, right))
			continue
		}
		used[best] = true
		covered += float64(size.W * size.H)
		s.place(i, best, size, turned, s.side(score, left, right))
	}
	return s.out, covered
}

// lowest returns the lowest step, the leftmost of equals.
func (s *skyline) lowest() int {
	best := 0
	for i := range s.steps {
		if s.steps[i].y < s.steps[best].y-s.eps {
			best = i
		}
	}
	return best
}

// walls returns how high the skyline stands left and right of step i.
func (s *skyline) walls(i int) (left, right float64) {
	left, right = s.bin.H, s.bin.H
	if i > 0 {
		left = s.steps[i-1].y
	}
	if i+1 < len(s.steps) {
		right = s.steps[i+1].y
	}
	return left - s.steps[i].y, right - s.steps[i].y
}

// The score of an item in a gap counts what it matches: the whole width, the
// higher wall, the lower wall, or the top of the bin.
const (
	fitsWidth = 4
	fitsHigh  = 3
	fitsLow   = 2
	fitsTop   = 2
)

func (s *skyline) choose(items []Item, order []int, used []bool, gap step, left, right float64) (best int, size Size, turned bool, score int) {
	best, score = -1, -1
	if s.halt.over(len(order)) {
		return best, size, false, score
	}
	for _, id := range order {
		if used[id] {
			continue
		}
		ways, n := items[id].ways()
		for w := range n {
			c := ways[w]
			if c.W > gap.w+s.eps || gap.y+c.H > s.bin.H+s.eps {
				continue
			}
			if v := s.score(c, gap, left, right); v > score {
				best, size, turned, score = id, c, w == 1, v
			}
		}
		if score >= fitsWidth+fitsHigh+fitsTop {
			break
		}
	}
	return best, size, turned, score
}

func (s *skyline) score(c Size, gap step, left, right float64) int {
	v := 0
	if math.Abs(c.W-gap.w) <= s.eps {
		v += fitsWidth
	}
	switch hi, lo := math.Max(left, right), math.Min(left, right); {
	case math.Abs(c.H-hi) <= s.eps:
		v += fitsHigh
	case math.Abs(c.H-lo) <= s.eps:
		v += fitsLow
	}
	if math.Abs(gap.y+c.H-s.bin.H) <= s.eps {
		v += fitsTop
	}
	return v
}

// side reports whether an item goes against the right wall: the higher wall,
// unless only the lower one is matched.
func (s *skyline) side(score int, left, right float64) (toRight bool) {
	toRight = right > left
	if score == fitsLow {
		toRight = !toRight
	}
	return toRight
}

func (s *skyline) place(i, id int, c Size, turned, toRight bool) {
	gap := s.steps[i]
	x := gap.x
	rest := gap.w - c.W
	if toRight {
		x += rest
	}
	s.out = append(s.out, Placed{id, x, gap.y, c.W, c.H, turned})
	top := step{x, gap.y + c.H, c.W}
	switch {
	case rest <= s.eps:
		s.steps[i] = step{gap.x, top.y, gap.w}
		s.merge(i)
	case toRight:
		s.steps[i].w = rest
		s.insert(i+1, top)
		s.merge(i + 1)
	default:
		s.steps[i] = step{gap.x + c.W, gap.y, rest}
		s.insert(i, top)
		s.merge(i)
	}
}

func (s *skyline) insert(i int, st step) {
	s.steps = append(s.steps, step{})
	copy(s.steps[i+1:], s.steps[i:])
	s.steps[i] = st
}

func (s *skyline) raise(i int, by float64) {
	s.steps[i].y += by
	s.merge(i)
}

// merge joins step i with neighbors of its height.
func (s *skyline) merge(i int) {
	if i+1 < len(s.steps) && math.Abs(s.steps[i+1].y-s.steps[i].y) <= s.eps {
		s.steps[i].w += s.steps[i+1].w
		s.steps = append(s.steps[:i+1], s.steps[i+2:]...)
	}
	if i > 0 && math.Abs(s.steps[i-1].y-s.steps[i].y) <= s.eps {
		s.steps[i-1].w += s.steps[i].w
		s.steps = append(s.steps[:i], s.steps[i+1:]...)
	}
}
