package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Connect joins open paths end to start where these are no more than tol apart,
// reversing paths where needed, and closes those whose ends meet. The first
// of two ends that meet stays where it is; of several ends that meet one, that
// of the first path in the list is joined. Closed paths are returned as they
// are. The order is that of the first member of each chain.
func Connect(paths []Path, tol float64) ([]Path, error) {
	return ConnectContext(context.Background(), paths, tol)
}

// ConnectContext is [Connect], stopped with the context's error when ctx is
// done.
func ConnectContext(ctx context.Context, paths []Path, tol float64) ([]Path, error) {
	const fn = "arc.Connect"
	if err := needTolerance(fn, tol); err != nil {
		return nil, err
	}
	for _, p := range paths {
		if err := p.Usable(); err != nil {
			return nil, err
		}
	}
	e := newLooseEnds(paths)
	used := make([]bool, len(paths))
	var out []Path
	for i, p := range paths {
		if used[i] {
			continue
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		used[i] = true
		p = p.Clone()
		if !p.Closed {
			e.take(i)
			p = e.extend(p, paths, used, tol)
			if !near(p.V[0].P, p.V[len(p.V)-1].P, tol) {
				p = e.extend(p.Reverse(), paths, used, tol).Reverse()
			}
			p = closed(p, tol)
		}
		out = append(out, p)
	}
	return out, nil
}

// looseEnds finds the first path with an end near a point. Ends are numbered
// 2i for the start of path i and 2i + 1 for its end; an index of them knows in
// every box the least number that is not taken.
type looseEnds struct {
	*index
	least []int32 // by box
	leaf  []int32 // by end
}

const taken = math.MaxInt32

func newLooseEnds(paths []Path) *looseEnds {
	boxes := make([]r2.Box, 0, 2*len(paths))
	for _, p := range paths {
		a, b := p.V[0].P, p.V[len(p.V)-1].P
		boxes = append(boxes, r2.Box{Min: a, Max: a}, r2.Box{Min: b, Max: b})
	}
	e := &looseEnds{index: newIndex(boxes), leaf: make([]int32, len(boxes))}
	e.least = make([]int32, len(e.box))
	for i, n := range e.item {
		e.leaf[n], e.least[i] = int32(i), n
		if paths[n/2].Closed {
			e.least[i] = taken
		}
	}
	for l := 1; l+1 < len(e.level); l++ {
		for i := e.level[l]; i < e.level[l+1]; i++ {
			e.refresh(l, i)
		}
	}
	return e
}

// kids returns the boxes below box i of a level.
func (e *looseEnds) kids(level, i int) (from, to int) {
	from = e.level[level-1] + (i-e.level[level])*fan
	return from, min(from+fan, e.level[level])
}

// refresh finds the least of box i of a level from those below.
func (e *looseEnds) refresh(level, i int) {
	least := int32(taken)
	from, to := e.kids(level, i)
	for _, n := range e.least[from:to] {
		least = min(least, n)
	}
	e.least[i] = least
}

// take takes both ends of path i out.
func (e *looseEnds) take(i int) {
	for n := int32(2 * i); n < int32(2*i+2); n++ {
		at := int(e.leaf[n])
		e.least[at] = taken
		for l := 1; l+1 < len(e.level); l++ {
			at = e.level[l] + (at-e.level[l-1])/fan
			if e.least[at] != n {
				break // nor is it the least of any box above
			}
			e.refresh(l, at)
		}
	}
}

// first returns the least end within tol of p, or taken.
func (e *looseEnds) first(p r2.Vec, tol float64) int32 {
	best := int32(taken)
	top := len(e.level) - 2
	b := grown(r2.Box{Min: p, Max: p}, tol)
	for i := e.level[top]; i < e.level[top+1]; i++ {
		e.lower(top, i, p, tol, &b, &best)
	}
	return best
}

// lower lowers best to the least end within tol of p in box i of a level.
func (e *looseEnds) lower(level, i int, p r2.Vec, tol float64, b *r2.Box, best *int32) {
	if e.least[i] >= *best || !meets(&e.box[i], b) {
		return
	}
	if level == 0 {
		if near(p, e.box[i].Min, tol) {
			*best = e.least[i]
		}
		return
	}
	from, to := e.kids(level, i)
	for j := from; j < to; j++ {
		e.lower(level-1, j, p, tol, b, best)
	}
}

// extend appends unused open paths to the end of p for as long as one meets it.
func (e *looseEnds) extend(p Path, paths []Path, used []bool, tol float64) Path {
	for {
		end := p.V[len(p.V)-1].P
		if near(end, p.V[0].P, tol) {
			return p
		}
		next := e.first(end, tol)
		if next == taken {
			return p
		}
		add := paths[next/2]
		if next%2 == 1 {
			add = add.Reverse()
		}
		used[next/2] = true
		e.take(int(next / 2))
		p.V[len(p.V)-1].K = add.V[0].K
		p.V = append(p.V, add.V[1:]...)
	}
}

// closed closes an open path whose ends meet.
func closed(p Path, tol float64) Path {
	if n := len(p.V); n > 2 && near(p.V[0].P, p.V[n-1].P, tol) {
		return Path{p.V[:n-1], true}
	}
	return p
}
