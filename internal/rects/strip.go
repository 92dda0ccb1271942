package rects

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
)

// Strip places all items in a strip of the given width and returns the layout
// of the least height found. Every item must fit the width in a way it may
// lie; otherwise it returns nil and 0.
func Strip(items []Item, width float64, seed uint64, stop Stop) ([]Placed, float64) {
	open := Size{width, stacked(items)}
	s := &stripSearch{items: items, rng: rand.New(rand.NewPCG(seed, 1)), width: width}
	first := byArea(items)
	if !s.try(open.H, first) {
		return nil, 0
	}
	bound := math.Max(area(items)/width, tallest(items, width))
	i := 0
	defer func() {
		if stop.Count != nil {
			*stop.Count += i
		}
	}()
	for ; !stop.done(i) && s.height > bound*(1+1e-9); i += s.round {
		// Odd rounds aim at the bound, even ones at anything better.
		target := s.height * (1 - 1e-6)
		if (i/max(1, s.round))%2 == 0 {
			target = math.Min(bound*(1+1e-12), target)
		}
		s.anneal(target, first, stop, i)
	}
	return s.best, s.height
}

type stripSearch struct {
	items  []Item
	width  float64
	rng    *rand.Rand
	best   []Placed
	height float64
	round  int // iterations of the last anneal
}

// try fills a bin of the given height once and keeps the layout where all
// items fit.
func (s *stripSearch) try(height float64, order []int) bool {
	sky := newSkyline(Size{s.width, height})
	out, _ := sky.fill(s.items, order, make([]bool, len(s.items)))
	return s.keep(out)
}

func (s *stripSearch) keep(out []Placed) bool {
	if len(out) < len(s.items) {
		return false
	}
	top := 0.0
	for _, p := range out {
		top = math.Max(top, p.Y+p.H)
	}
	if s.best == nil || top < s.height {
		s.best, s.height = slices.Clone(out), top
	}
	return true
}

// anneal swaps the order until all items fit below the target.
func (s *stripSearch) anneal(target float64, first []int, stop Stop, from int) {
	n := len(first)
	rounds := 200 * n
	s.round = rounds
	order, next := slices.Clone(first), make([]int, n)
	sky, used := newSkyline(Size{s.width, target}), make([]bool, n)
	total := area(s.items)
	out, covered := sky.fill(s.items, order, used)
	heat := 0.02 * total
	for i := range rounds {
		if s.keep(out) || stop.done(from+i) {
			return
		}
		copy(next, order)
		for range 1 + s.rng.IntN(2) {
			a, b := s.rng.IntN(n), s.rng.IntN(n)
			next[a], next[b] = next[b], next[a]
		}
		clear(used)
		var c float64
		out, c = sky.fill(s.items, next, used)
		if c >= covered || s.rng.Float64() < math.Exp((c-covered)/heat) {
			order, next, covered = next, order, c
		}
		heat *= math.Pow(0.02, 1/float64(rounds))
	}
	s.keep(out)
}

// stacked returns the height of all items one upon another, each as tall as it
// may lie: enough for any layout.
func stacked(items []Item) float64 {
	sum := 0.0
	for _, it := range items {
		ways, n := it.ways()
		for w := range n {
			sum += ways[w].H
		}
	}
	return sum
}

// tallest returns the largest height that some item cannot do without.
func tallest(items []Item, width float64) float64 {
	most := 0.0
	for _, it := range items {
		ways, n := it.ways()
		least := math.Inf(1)
		for w := range n {
			if ways[w].W <= width*(1+1e-9) {
				least = math.Min(least, ways[w].H)
			}
		}
		most = math.Max(most, least)
	}
	return most
}

// byArea returns the items from large to small.
func byArea(items []Item) []int {
	order := make([]int, len(items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(items[b].W*items[b].H, items[a].W*items[a].H)
	})
	return order
}

// Background is a Stop after a number of iterations.
func Background(iterations int) Stop { return Stop{Ctx: context.Background(), Iterations: iterations} }
