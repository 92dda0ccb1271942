package rects

import (
	"math"
	"math/rand/v2"
	"slices"
)

// A filler fills one bin from items in an order, passing over used ones and
// marking those it places; what it returns is valid until its next fill.
type filler interface {
	fill(items []Item, order []int, used []bool) ([]Placed, float64)
}

// Bins places the items in as few bins as it can find, with no limit on the
// layout inside a bin. Items that fit in no way a bin allows are left out of
// every bin.
func Bins(items []Item, bin Size, seed uint64, stop Stop) [][]Placed {
	// Strips of stacks are legal free layouts too, and good where the skyline is not.
	h := &halt{stop: stop}
	sky, staged := newSkyline(bin), newStaged(bin, Saw{Stages: 3}, h)
	sky.halt = h
	return search(items, bin, seed, h, false, sky, staged)
}

// load is the contents of one bin.
type load struct {
	placed []Placed
	area   float64
}

// binSearch empties a few bins and packs their items again.
type binSearch struct {
	items []Item
	bin   Size
	rng   *rand.Rand
	fill  []filler
	used  []bool
	bins  []load
	halt  *halt
	key   []float64 // see shuffle
}

// search packs all items, on shelves along the height where side is set if
// there is no time for better, and improves on that until it is to stop.
func search(items []Item, bin Size, seed uint64, h *halt, side bool, f ...filler) [][]Placed {
	stop := h.stop
	s := &binSearch{items: items, bin: bin, rng: rand.New(rand.NewPCG(seed, 2)), fill: f, used: make([]bool, len(items)), halt: h}
	s.bins = s.pack(byArea(items), math.MaxInt)
	if h.ended {
		return shelves(items, bin, side)
	}
	bound := Bound(items, bin)
	heat := 0.02
	i := 0
	for ; len(s.bins) > bound && !stop.done(i); i++ {
		if i%4096 == 0 {
			heat = 0.02
		}
		heat *= 0.999
		s.repack(heat)
	}
	if stop.Count != nil {
		*stop.Count += i
	}
	return layouts(s.bins)
}

func layouts(bins []load) [][]Placed {
	out := make([][]Placed, len(bins))
	for i, b := range bins {
		out[i] = b.placed
	}
	return out
}

// pack fills bins from the order until nothing is left or nothing fits, and
// gives up past a number of bins, or when it has to end.
func (s *binSearch) pack(order []int, most int) []load {
	for _, id := range order {
		s.used[id] = false
	}
	var bins []load
	f := s.fill[0]
	if len(s.fill) > 1 {
		f = s.fill[s.rng.IntN(len(s.fill))]
	}
	for left := len(order); left > 0; {
		out, covered := f.fill(s.items, order, s.used)
		if s.halt.ended {
			return nil
		}
		if len(out) == 0 {
			break // none of the rest fits any bin
		}
		if len(bins) == most {
			return nil
		}
		bins = append(bins, load{slices.Clone(out), covered})
		left -= len(out)
	}
	return bins
}

// repack empties two or three bins, the emptiest most often, and keeps the new
// packing where it needs fewer bins or concentrates the fill: the sum of the
// squares of the areas grows as one bin empties into others.
func (s *binSearch) repack(heat float64) {
	chosen := s.choose()
	var order []int
	old := 0.0
	for _, b := range chosen {
		for _, p := range s.bins[b].placed {
			order = append(order, p.Item)
		}
		old += square(s.bins[b].area)
	}
	s.shuffle(order)
	fresh := s.pack(order, len(chosen))
	if fresh == nil {
		return
	}
	now := 0.0
	for _, b := range fresh {
		now += square(b.area)
	}
	unit := square(s.bin.W * s.bin.H)
	if len(fresh) == len(chosen) && now < old && s.rng.Float64() >= math.Exp((now-old)/unit/heat) {
		return
	}
	for i, b := range chosen {
		if i < len(fresh) {
			s.bins[b] = fresh[i]
		} else {
			s.bins = slices.Delete(s.bins, b, b+1)
		}
	}
}

func square(x float64) float64 { return float64(x * x) }

// choose returns the bins to empty, in falling order so that deleting one
// leaves the others in place.
func (s *binSearch) choose() []int {
	n := len(s.bins)
	k := min(n, 2+s.rng.IntN(3))
	weak := 0
	for i := range s.bins {
		if s.bins[i].area < s.bins[weak].area {
			weak = i
		}
	}
	var chosen []int
	if s.rng.IntN(3) > 0 {
		chosen = append(chosen, weak)
	}
	for len(chosen) < k {
		if b := s.rng.IntN(n); !slices.Contains(chosen, b) {
			chosen = append(chosen, b)
		}
	}
	slices.Sort(chosen)
	slices.Reverse(chosen)
	return chosen
}

// shuffle puts large items first with a random blur, wide or narrow.
func (s *binSearch) shuffle(order []int) {
	blur := s.rng.Float64()
	blur *= blur
	full := s.bin.W * s.bin.H
	long := s.rng.IntN(2) == 0
	if s.key == nil {
		s.key = make([]float64, len(s.items))
	}
	key := s.key
	for _, id := range order {
		it := s.items[id]
		k := it.W * it.H / full
		if long {
			k = math.Max(it.W/s.bin.W, it.H/s.bin.H)
		}
		key[id] = float64((1-blur)*k) + float64(blur*s.rng.Float64())
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case key[a] > key[b]:
			return -1
		case key[a] < key[b]:
			return 1
		}
		return a - b
	})
}

// Bound returns a number of bins that no packing can go below: the total area
// over the bin's, or the count of items of which no two share a bin, those
// whose shorter side is more than half of the bin's longer one.
func Bound(items []Item, bin Size) int {
	half := math.Max(bin.W, bin.H)/2 + slack(bin)
	alone := 0
	for _, it := range items {
		if math.Min(it.W, it.H) > half {
			alone++
		}
	}
	byArea := math.Ceil(area(items)/(bin.W*bin.H) - 1e-9)
	return max(alone, int(byArea))
}
