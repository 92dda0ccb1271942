package place

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// simplify returns a polygon of fewer vertices that holds p (to the right of
// its direction is outside): it fills reflex corners and extends the two
// neighbours of an edge until they meet, always where the least area is added,
// while more than limit vertices are left and the area added stays within
// share of the whole.
func simplify(p []r2.Vec, limit int, share float64) []r2.Vec {
	p = append([]r2.Vec(nil), p...)
	budget := share * math.Abs(area(p))
	cost := make([]float64, len(p))
	for i := range p {
		cost[i] = simplifyCost(p, i)
	}
	for len(p) > limit {
		best := 0
		for i, c := range cost {
			if c < cost[best] {
				best = i
			}
		}
		if cost[best] > budget {
			return p
		}
		c := cost[best]
		next, gone := simplifyAt(p, best)
		if gone < 0 {
			cost[best] = math.Inf(1)
			continue
		}
		budget -= c
		p = next
		cost = append(cost[:gone], cost[gone+1:]...)
		for k := -3; k <= 3; k++ {
			i := ((gone+k)%len(p) + len(p)) % len(p)
			cost[i] = simplifyCost(p, i)
		}
	}
	return p
}

func at(p []r2.Vec, i int) r2.Vec { n := len(p); return p[((i%n)+n)%n] }

func turnAt(p []r2.Vec, i int) float64 {
	return crossOf(r2.Sub(at(p, i), at(p, i-1)), r2.Sub(at(p, i+1), at(p, i)))
}

// simplifyCost returns the area added by filling vertex i where it is reflex,
// else by removing the edge that leaves it.
func simplifyCost(p []r2.Vec, i int) float64 {
	if t := turnAt(p, i); t <= 0 {
		return -t / 2
	}
	q, ok := extend(p, i)
	if !ok {
		return math.Inf(1)
	}
	return math.Abs(crossOf(r2.Sub(at(p, i+1), at(p, i)), r2.Sub(q, at(p, i)))) / 2
}

// extend returns where the neighbours of the edge from vertex i meet.
func extend(p []r2.Vec, i int) (r2.Vec, bool) {
	if turnAt(p, i) <= 0 || turnAt(p, i+1) <= 0 {
		return r2.Vec{}, false
	}
	a, b := r2.Sub(at(p, i), at(p, i-1)), r2.Sub(at(p, i+2), at(p, i+1))
	d := crossOf(a, b)
	if d <= 1e-9*norm(a)*norm(b) {
		return r2.Vec{}, false
	}
	t := crossOf(r2.Sub(at(p, i+1), at(p, i)), b) / d
	return r2.Add(at(p, i), scaled(t, a)), true
}

// simplifyAt carries out the change and says which vertex it took away; -1
// where the outline would cross or touch itself.
func simplifyAt(p []r2.Vec, i int) (out []r2.Vec, gone int) {
	n := len(p)
	if n < 5 {
		return nil, -1
	}
	without := func(j int) []r2.Vec { return append(append([]r2.Vec(nil), p[:j]...), p[j+1:]...) }
	if turnAt(p, i) <= 0 {
		a, b := at(p, i-1), at(p, i+1)
		if meets(p, a, b, i+2, i+n-2) || foldsBack(at(p, i-2), a, b) || foldsBack(a, b, at(p, i+2)) {
			return nil, -1
		}
		return without(i), i
	}
	q, _ := extend(p, i)
	// The longer edges touch what their ends touched before, and nothing else.
	if meets(p, at(p, i), q, i+2, i+n-1) || meets(p, q, at(p, i+1), i+2, i+n-1) {
		return nil, -1
	}
	j := (i + 1) % n
	out = without(j)
	out[i-b2i(j < i)] = q
	return out, j
}

// foldsBack reports whether the edge from b to c runs back along that from a to b.
func foldsBack(a, b, c r2.Vec) bool {
	u, v := r2.Sub(b, a), r2.Sub(c, b)
	return dotOf(u, v) < 0 && math.Abs(crossOf(u, v)) <= 1e-12*norm(u)*norm(v)
}

// meets reports whether the segment ab meets an edge of p that leaves one of
// the vertices from, up to but not including to.
func meets(p []r2.Vec, a, b r2.Vec, from, to int) bool {
	ab := r2.Sub(b, a)
	for k := from; k < to; k++ {
		c, d := at(p, k), at(p, k+1)
		if max(c.X, d.X) < min(a.X, b.X) || min(c.X, d.X) > max(a.X, b.X) {
			continue
		}
		cd := r2.Sub(d, c)
		if crossOf(ab, r2.Sub(c, a))*crossOf(ab, r2.Sub(d, a)) <= 0 &&
			crossOf(cd, r2.Sub(a, c))*crossOf(cd, r2.Sub(b, c)) <= 0 {
			return true
		}
	}
	return false
}
