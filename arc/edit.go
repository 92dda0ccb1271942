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
	total, err := p.needLength(fn)
	if err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "from", from, "mm"); err != nil {
		return Path{}, err
	}
	if err := needFinite(fn, "to", to, "mm"); err != nil {
		return Path{}, err
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
// path cut nothing; it is an error if one is not finite.
func (p Path) Split(at ...float64) ([]Path, error) {
	const fn = "arc.Path.Split"
	total, err := p.needLength(fn)
	if err != nil {
		return nil, err
	}
	for _, l := range at {
		if err := needFinite(fn, "at", l, "mm"); err != nil {
			return nil, err
		}
	}
	at = slices.DeleteFunc(slices.Clone(at), func(l float64) bool {
		return !(l > 0 && l < total) && !(p.Closed && l == 0)
	})
	slices.Sort(at)
	at = slices.Compact(at)
	if len(at) == 0 {
		return []Path{p.Clone()}, nil
	}
	if p.Closed {
		p = p.StartAt(at[0])
		p = p.open()
		for i := len(at) - 1; i >= 0; i-- {
			at[i] -= at[0]
		}
		at = at[1:]
	}
	return p.cut(append(at, math.Inf(1))), nil
}

// cut returns the stretches of p up to each of rising lengths, those of no
// length left out.
func (p Path) cut(at []float64) []Path {
	var out []Path
	var now Path
	var end r2.Vec
	finish := func() {
		if len(now.V) > 0 {
			now.V = append(now.V, Vertex{P: end})
			out = append(out, now)
		}
		now = Path{}
	}
	from, sum := 0.0, 0.0
	for i := range p.NumSegments() {
		s := p.Segment(i)
		l := s.Length()
		for {
			if sum+l > from && sum < at[0] {
				q := s.Part(math.Max(0, from-sum), math.Min(l, at[0]-sum))
				now.V = append(now.V, Vertex{q.A, q.K})
				end = q.B
			}
			if !(at[0] <= sum+l) {
				break
			}
			finish()
			from, at = at[0], at[1:]
		}
		sum += l
	}
	finish()
	return out
}

// needLength returns the length of a path that is of a length to calculate
// with, or an error.
func (p Path) needLength(fn string) (float64, error) {
	if err := p.Usable(); err != nil {
		return 0, err
	}
	total := p.Length()
	if !(total < maxExtent) {
		return 0, &ParamError{fn, "length", total, "mm", "below 1e140", ErrRange}
	}
	return total, nil
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
