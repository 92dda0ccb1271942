package miter

import (
	"math"
	"slices"

	"example.com/sagitta/arc"
)

// A Bar is a stock length that can be bought, as many as needed. Where no bar
// has a price the plan buys the least length instead of the least cost.
type Bar struct {
	Length, Price float64 // mm; money
}

// A BarCut is one bought bar: which stock, the pieces cut from it, longest
// first, and what is left over in mm.
type BarCut struct {
	Stock  int
	Pieces []int
	Left   float64
}

// A BarPlan is a list of bars to buy and to cut. Cost is in money, or in mm
// where nothing is priced, and Bound is a cost that no plan can be under; where
// they are equal the plan is proved the best. Waste is what is bought and does
// not end up in a piece, in mm.
type BarPlan struct {
	Bars        []BarCut
	Cost, Bound float64
	Waste       float64
}

// Limits of PlanBars: pieces, and steps of its search, some 10 ms.
const (
	maxPieces = 2000
	maxSteps  = 300000
)

// PlanBars returns which stock lengths to buy and what to cut from each, with
// a saw kerf between pieces. It fills bars with the longest pieces first and
// then tries all arrangements within a fixed number of steps, so the same
// input gives the same plan. It refuses a piece longer than every bar.
func PlanBars(pieces []float64, stock []Bar, kerf float64) (BarPlan, error) {
	s, err := newBarSearch("miter.PlanBars", pieces, stock, kerf)
	if err != nil {
		return BarPlan{}, err
	}
	s.place(0, 0)
	if s.steps <= maxSteps { // everything was tried
		s.bound = s.best
	}
	return s.plan(), nil
}

// A barSearch is a depth-first search over pieces from the longest: each goes
// on a bar already begun or on a new one. A bar costs the cheapest stock that
// holds what is on it.
type barSearch struct {
	pieces []float64
	order  []int // pieces, longest first
	stock  []Bar // with their cost as price
	kerf   float64
	rate   float64 // least cost per mm
	bound  float64
	room   float64 // the longest bar

	loads  []float64 // of the bars begun, each piece with a kerf
	bar    []int     // bar of each piece in order
	steps  int
	best   float64
	bestOf []int
}

func newBarSearch(fn string, pieces []float64, stock []Bar, kerf float64) (*barSearch, error) {
	if len(pieces) > maxPieces || len(stock) > maxPieces {
		return nil, fault(fn, "pieces", len(pieces), "", "at most 2000 pieces and bars", arc.ErrRange)
	}
	if !length(kerf) || kerf < 0 {
		return nil, fault(fn, "kerf", kerf, "mm", ">= 0 up to 1e9", arc.ErrRange)
	}
	s := &barSearch{pieces: pieces, stock: slices.Clone(stock), kerf: kerf, rate: math.Inf(1), best: math.Inf(1)}
	priced := slices.ContainsFunc(stock, func(b Bar) bool { return b.Price != 0 })
	for i, b := range stock {
		if !length(b.Length) || b.Length <= 0 || !length(b.Price) || b.Price < 0 {
			return nil, fault(fn, item("stock", i), b, "", "a length > 0 and a price >= 0", arc.ErrRange)
		}
		if !priced {
			s.stock[i].Price = b.Length
		}
		s.room = math.Max(s.room, b.Length+kerf)
		s.rate = math.Min(s.rate, s.stock[i].Price/(b.Length+kerf))
	}
	sum := 0.0
	for i, p := range pieces {
		if !length(p) || p <= 0 || p+kerf > s.room+slack {
			return nil, fault(fn, item("pieces", i), p, "mm", "a length > 0 that some bar holds", arc.ErrRange)
		}
		s.order = append(s.order, i)
		sum += p + kerf
	}
	if sum > 0 {
		s.bound = sum * s.rate
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		switch {
		case pieces[a] > pieces[b]:
			return -1
		case pieces[a] < pieces[b]:
			return 1
		}
		return 0
	})
	s.bar = make([]int, len(pieces))
	return s, nil
}

// cheapest returns the stock that holds a load for the least cost, the shorter
// of two that cost the same.
func (s *barSearch) cheapest(load float64) (stock int, cost float64) {
	stock = -1
	for i, b := range s.stock {
		if b.Length+s.kerf+slack < load {
			continue
		}
		if stock < 0 || b.Price < cost || b.Price == cost && b.Length < s.stock[stock].Length {
			stock, cost = i, b.Price
		}
	}
	return stock, cost
}

// place puts piece k of the order, and those after it, on bars that so far
// cost cost.
func (s *barSearch) place(k int, cost float64) {
	if s.steps++; cost >= s.best-slack || s.over() {
		return
	}
	if k == len(s.order) {
		s.best, s.bestOf = cost, slices.Clone(s.bar)
		return
	}
	need := s.pieces[s.order[k]] + s.kerf
	for i := range s.loads {
		load := s.loads[i]
		if s.steps++; s.over() {
			return
		}
		if load+need > s.room+slack || slices.Contains(s.loads[:i], load) {
			continue
		}
		_, was := s.cheapest(load)
		_, now := s.cheapest(load + need)
		s.loads[i], s.bar[k] = load+need, i
		s.place(k+1, cost+now-was)
		if s.loads[i] = load; s.best <= s.bound+slack {
			return
		}
	}
	_, now := s.cheapest(need)
	s.bar[k] = len(s.loads)
	s.loads = append(s.loads, need)
	s.place(k+1, cost+now)
	s.loads = s.loads[:len(s.loads)-1]
}

// over reports whether the search must be content with what it has.
func (s *barSearch) over() bool { return s.steps > maxSteps && s.bestOf != nil }

// plan writes out the best arrangement found.
func (s *barSearch) plan() BarPlan {
	p := BarPlan{Bound: math.Min(s.bound, s.best)}
	if len(s.order) == 0 {
		return BarPlan{}
	}
	loads := []float64{}
	for k, b := range s.bestOf {
		if b == len(p.Bars) {
			p.Bars, loads = append(p.Bars, BarCut{}), append(loads, 0)
		}
		p.Bars[b].Pieces = append(p.Bars[b].Pieces, s.order[k])
		loads[b] += s.pieces[s.order[k]] + s.kerf
	}
	for i := range p.Bars {
		stock, cost := s.cheapest(loads[i])
		c := &p.Bars[i]
		c.Stock, p.Cost = stock, p.Cost+cost
		c.Left = math.Max(0, s.stock[stock].Length-loads[i])
		p.Waste += s.stock[stock].Length
		for _, k := range c.Pieces {
			p.Waste -= s.pieces[k]
		}
	}
	return p
}
