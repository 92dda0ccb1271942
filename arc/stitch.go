package arc

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A step is a link run in or against its direction.
type step struct {
	link    int32
	forward bool
}

// loops returns the boundary of what inside says of winding numbers, run with
// the inside on the left and each loop through no node twice, and whether
// everything fitted together.
func (a *arrangement) loops(inside func(w [2]int) bool) ([][]step, bool) {
	kept := make([]int8, len(a.link))
	for i := range a.link {
		l := &a.link[i]
		switch in, out := inside(l.left), inside(l.right()); {
		case in && !out:
			kept[i] = 1
		case out && !in:
			kept[i] = -1
		}
	}
	if !a.balanced(kept) {
		return nil, false
	}
	var loops [][]step
	for i := range kept {
		if kept[i] == 0 {
			continue
		}
		walk, ok := a.walk(kept, step{int32(i), kept[i] > 0})
		if !ok {
			return nil, false
		}
		loops = a.simple(loops, walk)
	}
	return loops, true
}

// balanced reports whether as many kept links come to every node as leave it.
func (a *arrangement) balanced(kept []int8) bool {
	sum := make([]int, len(a.node))
	for i, k := range kept {
		sum[a.link[i].from] += int(k)
		sum[a.link[i].to] -= int(k)
	}
	return !slices.ContainsFunc(sum, func(n int) bool { return n != 0 })
}

// walk follows kept links from s until it is back, keeping to one corner of
// the inside: at a node it takes the next link clockwise. It takes what it
// walks out of kept.
func (a *arrangement) walk(kept []int8, first step) ([]step, bool) {
	out := []step{first}
	for s := first; ; {
		next, ok := a.next(kept, a.end(s), s)
		if !ok {
			return nil, false
		}
		if next == first {
			kept[first.link] = 0
			return out, true
		}
		kept[next.link] = 0
		out = append(out, next)
		s = next
	}
}

func (a *arrangement) start(s step) int32 {
	if s.forward {
		return a.link[s.link].from
	}
	return a.link[s.link].to
}

func (a *arrangement) end(s step) int32 { return a.start(step{s.link, !s.forward}) }

// leaving reports whether a kept link leaves the node along a spoke.
func leaving(kept []int8, s spoke) bool {
	return kept[s.link] > 0 && s.start || kept[s.link] < 0 && !s.start
}

// next returns the first kept link that leaves n clockwise of where s came in.
func (a *arrangement) next(kept []int8, n int32, s step) (step, bool) {
	f := a.fan(n)
	at := slices.IndexFunc(f, func(x spoke) bool { return x.link == s.link && x.start != s.forward })
	for j := 1; j <= len(f); j++ {
		x := f[(at-j+len(f))%len(f)]
		if leaving(kept, x) {
			return step{x.link, x.start}, true
		}
	}
	return step{}, false
}

// simple cuts a walk into loops at the nodes it passes more than once.
func (a *arrangement) simple(loops [][]step, walk []step) [][]step {
	at := make(map[int32]int, len(walk))
	var open []step
	for _, s := range walk {
		n := a.start(s)
		if i, ok := at[n]; ok {
			for _, x := range open[i:] {
				delete(at, a.start(x))
			}
			loops = append(loops, slices.Clone(open[i:]))
			open = open[:i]
		}
		at[n] = len(open)
		open = append(open, s)
	}
	if len(open) > 0 {
		loops = append(loops, open)
	}
	return loops
}

// run is a stretch of a result that came from one strand.
type run struct {
	p   r2.Vec
	k   float64
	src int32
}

// runs returns a chain of steps as runs, pieces of one src joined.
func (a *arrangement) runs(steps []step, closed bool) []run {
	out := make([]run, 0, len(steps))
	for _, s := range steps {
		l := &a.link[s.link]
		r := run{a.node[a.start(s)], l.k, l.src}
		if !s.forward {
			r.k = -r.k
		}
		if n := len(out); n > 0 && joins(out[n-1], r) {
			out[n-1].k = addTurns(out[n-1].k, r.k)
			continue
		}
		out = append(out, r)
	}
	if n := len(out); closed && n > 2 && joins(out[n-1], out[0]) {
		out[n-1].k = addTurns(out[n-1].k, out[0].k)
		out = out[1:]
	}
	return out
}

// joins reports whether y continues x as one segment of less than most of a
// circle.
func joins(x, y run) bool {
	if x.src != y.src || (x.k == 0) != (y.k == 0) || x.k*y.k < 0 {
		return false
	}
	k := addTurns(x.k, y.k)
	return k*x.k >= 0 && k*k <= 9
}

// addTurns returns tan(x+y) of tan x and tan y.
func addTurns(x, y float64) float64 { return (x + y) / (1 - x*y) }

// path returns a loop as a closed path.
func (a *arrangement) path(loop []step) Path {
	return pathOf(a.runs(loop, true), true)
}

func pathOf(runs []run, closed bool) Path {
	p := Path{V: make([]Vertex, len(runs)), Closed: closed}
	for i, r := range runs {
		p.V[i] = Vertex{r.p, r.k}
	}
	return p
}
