// Package rects lays out plain rectangles: in a strip of least height, in as
// few equal bins as can be found, and in layouts that a panel saw can cut
// edge to edge in a few stages. Sizes are float64 in any one unit; sums are
// compared with a slack of 1e-9 of the bin, so whole numbers behave as such.
//
// # Method
//
// One bin is filled by a greedy rule from a given order of the items. Free
// layouts use the skyline: the lowest gap is filled first, by the item whose
// sides best match the gap's width and the heights of its walls, ties going to
// the order (Burke, Kendall, Whitwell 2004; Leung, Zhang, Sim 2011). Layouts
// for a saw are built as strips of stacks of items, in the terms of Gilmore
// and Gomory 1965: the first cuts part strips from the bin, the second stacks
// from the strip, the third items from the stack.
//
// The order is what is searched. For a strip, simulated annealing swaps items
// until all fit below a target height, first the area bound, then anything
// below the best so far. For bins, a few bins are emptied, their items put in
// another order and packed again, and the result is kept where it is no worse
// (ruin and recreate; Schrimpf et al. 2000), judged by the number of bins and
// then by how far the fill is concentrated in few of them.
//
// Every search is a function of its seed and its budget of iterations.
package rects

import (
	"context"
	"math"
	"time"
)

// A Size is the width and height of a rectangle.
type Size struct{ W, H float64 }

// An Item is a rectangle to place, with leave to turn it by 90 degrees.
type Item struct {
	Size
	Turn bool
}

// A Placed is an item in place: its lower left corner and its sides as it
// lies.
type Placed struct {
	Item       int
	X, Y, W, H float64
	Turned     bool
}

// A Stop says when a search ends: when ctx is done, at a time or after a number of
// iterations where these are not 0.
type Stop struct {
	Ctx        context.Context
	End        time.Time
	Now        func() time.Time // the clock that End goes by; nil means time.Now
	Iterations int
	Count      *int // where not nil, the iterations done are added to it
}

// done reports whether a search ends before iteration i. The clock is looked at
// only now and then, since the iterations are short.
func (s Stop) done(i int) bool {
	if s.Iterations > 0 && i >= s.Iterations {
		return true
	}
	return i%16 == 0 && s.over()
}

// over looks at the clock itself: on a busy machine the timer of a context is late.
func (s Stop) over() bool {
	if s.End.IsZero() || s.Ctx.Err() != nil {
		return s.Ctx.Err() != nil
	}
	now := time.Now
	if s.Now != nil {
		now = s.Now
	}
	return !now().Before(s.End)
}

// slack is how far a sum of sides may pass the bin's.
func slack(bin Size) float64 { return float64(1e-9 * math.Max(bin.W, bin.H)) }

func area(items []Item) float64 {
	sum := 0.0
	for _, it := range items {
		sum += float64(it.W * it.H)
	}
	return sum
}

// ways returns the one or two ways an item may lie.
func (it Item) ways() ([2]Size, int) {
	if it.Turn && it.W != it.H {
		return [2]Size{it.Size, {it.H, it.W}}, 2
	}
	return [2]Size{it.Size}, 1
}
