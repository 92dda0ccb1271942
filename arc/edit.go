package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Trim returns the open path from one length along p to another, both held to
// its ends. On a closed path lengths go around: with to <= from it runs over
// the start. It is an error if nothing is left.
func (p Path) Trim(from, to float64) (Path, error) {
	const fn = "arc.Path.Trim"
	if err := p.Check(); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "from", from, "mm"); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "to", to, "mm"); err != nil {
		return Path{}, err
	}
	total := p.Length()
	if !(total < maxExtent) {
		return Path{}, &ParamError{fn, "length", total, "mm", "below 1e140", ErrRange}
	}
	from, to = math.Max(0, math.Min(from, total)), math.Max(0, math.Min(to, total))
	if p.Closed && to <= from {
		head, tail := p.between(from, total), p.between(0, to)
		if len(head.V) == 0 || len(tail.V) == 0 {
			head.V = append(head.V, tail.V...)
		} else {
			head.V = append(head.V[:len(head.V)-1], tail.V...)
		}
		if len(head.V) > 1 {
			return head, nil
		}
	} else if from < to {
		return p.between(from, to), nil
	}
	return Path{}, &ParamError{fn, "to", to, "mm", "more than from", ErrEmpty}
}

// between returns the stretch of p between two lengths, empty unless from < to.
func (p Path) between(from, to float64) Path {
	var out Path
	if from >= to {
		return out
	}
	var end r2.Vec
	sum := 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		l := s.Length()
		if sum+l > from && sum < to {
			s = s.Part(math.Max(0, from-sum), math.Min(l, to-sum))
			out.V = append(out.V, Vertex{s.A, s.K})
			end = s.B
		}
		sum += l
	}
	if len(out.V) > 0 {
		out.V = append(out.V, Vertex{P: end})
	}
	return out
}

// Split cuts the path at lengths along it and returns the stretches in order.
// A closed path is opened at its first cut. Lengths that are not inside the
// path, or not finite, cut nothing.
func (p Path) Split(at ...float64) []Path {
	total := p.Length()
	at = slices.DeleteFunc(slices.Clone(at), func(l float64) bool {
		return !(l > 0 && l < total) && !(p.Closed && l == 0)
	})
	slices.Sort(at)
	at = slices.Compact(at)
	if len(at) == 0 {
		return []Path{p.Clone()}
	}
	if p.Closed {
		p = p.StartAt(at[0])
		p = p.open()
		for i := len(at) - 1; i >= 0; i-- {
			at[i] -= at[0]
		}
		at = at[1:]
	}
	var out []Path
	from := 0.0
	for _, to := range append(at, math.Inf(1)) {
		if q := p.between(from, to); len(q.V) > 0 {
			out = append(out, q)
		}
		from = to
	}
	return out
}

// open returns a closed path as an open one that ends where it starts.
func (p Path) open() Path {
	p = p.Clone()
	if p.Closed && len(p.V) > 0 {
		p.V = append(p.V, Vertex{P: p.V[0].P})
		p.Closed = false
	}
	return p
}

// StartAt returns a closed path with its start moved to a length l along it,
// which counts around the path. An open or empty path, or an l that is not
// finite, is returned as it is.
func (p Path) StartAt(l float64) Path {
	total := p.Length()
	if !p.Closed || !(total > 0) || l-l != 0 {
		return p.Clone()
	}
	l = math.Mod(l, total)
	if l < 0 {
		l += total
	}
	head, tail := p.between(l, math.Inf(1)), p.between(0, l)
	out := Path{Closed: true}
	for _, q := range []Path{head, tail} {
		if len(q.V) > 0 {
			out.V = append(out.V, q.V[:len(q.V)-1]...)
		}
	}
	if len(out.V) < 2 {
		return p.Clone()
	}
	return out
}

// Connect joins open paths end to start where these are no more than tol apart,
// reversing paths where needed, and closes those whose ends meet. The first
// of two ends that meet stays where it is. Closed paths are returned as they
// are. The order is that of the first member of each chain.
func Connect(paths []Path, tol float64) ([]Path, error) {
	const fn = "arc.Connect"
	if err := needTolerance(fn, tol); err != nil {
		return nil, err
	}
	for _, p := range paths {
		if err := p.Check(); err != nil {
			return nil, err
		}
	}
	used := make([]bool, len(paths))
	boxes := make([]r2.Box, 0, 2*len(paths)) // of starts and ends
	for _, p := range paths {
		a, b := p.V[0].P, p.V[len(p.V)-1].P
		boxes = append(boxes, r2.Box{Min: a, Max: a}, r2.Box{Min: b, Max: b})
	}
	x := newIndex(boxes)
	var out []Path
	for i, p := range paths {
		if used[i] {
			continue
		}
		used[i] = true
		p = p.Clone()
		if !p.Closed {
			p = extend(p, paths, x, used, tol)
			p = extend(p.Reverse(), paths, x, used, tol).Reverse()
			p = closed(p, tol)
		}
		out = append(out, p)
	}
	return out, nil
}

// extend appends unused open paths to the end of p for as long as one meets it.
func extend(p Path, paths []Path, x *index, used []bool, tol float64) Path {
	for {
		end := p.V[len(p.V)-1].P
		if near(end, p.V[0].P, tol) {
			return p
		}
		next := -1 // twice the first path that meets it, and one more for its end
		x.search(grown(r2.Box{Min: end, Max: end}, tol), func(j int) bool {
			i := j / 2
			if q := paths[i]; !used[i] && !q.Closed && (next < 0 || j < next) {
				if at := []Vertex{q.V[0], q.V[len(q.V)-1]}[j%2].P; near(end, at, tol) {
					next = j
				}
			}
			return true
		})
		if next < 0 {
			return p
		}
		add := paths[next/2]
		if next%2 == 1 {
			add = add.Reverse()
		}
		next /= 2
		used[next] = true
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

// Oriented returns a closed path run counter-clockwise, or clockwise where ccw
// is false; a path without area as it is.
func (p Path) Oriented(ccw bool) Path {
	if a := p.Area(); a < 0 && ccw || a > 0 && !ccw {
		return p.Reverse()
	}
	return p.Clone()
}

// Oriented returns the region with its outer loop counter-clockwise and its
// holes clockwise.
func (r Region) Oriented() Region {
	out := Region{Outer: r.Outer.Oriented(true)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, h.Oriented(false))
	}
	return out
}

// Regions makes regions of closed loops in any order and direction that do not
// cross: a loop inside an even number of others is an outer one, the others are
// holes. It is an error if a loop is open or has no area.
func Regions(loops []Path) ([]Region, error) {
	const fn = "arc.Regions"
	for i, p := range loops {
		if err := p.Check(); err != nil {
			return nil, err
		}
		if !p.Closed {
			return nil, &ParamError{fn, "loops", i, "", "closed loops", ErrOpen}
		}
		if p.Area() == 0 {
			return nil, &ParamError{fn, "loops", i, "", "loops with area", ErrZeroArea}
		}
	}
	out := make([]Path, len(loops))
	for i, p := range loops {
		depth := 0
		b := p.Bounds()
		for j, q := range loops {
			qb := q.Bounds()
			if j != i && meets(&b, &qb) && math.Abs(q.Area()) > math.Abs(p.Area()) && encloses(q, p) {
				depth++
			}
		}
		out[i] = p.Oriented(depth%2 == 0)
	}
	return assemble(out), nil
}
