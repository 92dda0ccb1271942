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
		next, ok := simplifyAt(p, best)
		if !ok {
			cost[best] = math.Inf(1)
			continue
		}
		budget -= c
		p = next
		cost = append(cost[:best], cost[best+1:]...)
		for k := -3; k <= 3; k++ {
			i := (best + k + 2*len(p)) % len(p)
			cost[i] = simplifyCost(p, i)
		}
	}
	return p
}

func at(p []r2.Vec, i int) r2.Vec { n := len(p); return p[((i%n)+n)%n] }

func turnAt(p []r2.Vec, i int) float64 {
	return r2.Cross(r2.Sub(at(p, i), at(p, i-1)), r2.Sub(at(p, i+1), at(p, i)))
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
	return math.Abs(r2.Cross(r2.Sub(at(p, i+1), at(p, i)), r2.Sub(q, at(p, i)))) / 2
}

// extend returns where the neighbours of the edge from vertex i meet.
func extend(p []r2.Vec, i int) (r2.Vec, bool) {
	if turnAt(p, i) <= 0 || turnAt(p, i+1) <= 0 {
		return r2.Vec{}, false
	}
	a, b := r2.Sub(at(p, i), at(p, i-1)), r2.Sub(at(p, i+2), at(p, i+1))
	d := r2.Cross(a, b)
	if d <= 1e-9*r2.Norm(a)*r2.Norm(b) {
		return r2.Vec{}, false
	}
	t := r2.Cross(r2.Sub(at(p, i+1), at(p, i)), b) / d
	return r2.Add(at(p, i), r2.Scale(t, a)), true
}

// simplifyAt carries out the change and refuses one that makes the outline
// cross itself.
func simplifyAt(p []r2.Vec, i int) ([]r2.Vec, bool) {
	n := len(p)
	if turnAt(p, i) <= 0 {
		a, b := at(p, i-1), at(p, i+1)
		if anyCross(p, a, b, i-1, i+1) {
			return nil, false
		}
		return append(append([]r2.Vec(nil), p[:i]...), p[i+1:]...), true
	}
	q, _ := extend(p, i)
	if anyCross(p, at(p, i), q, i-1, i+2) || anyCross(p, q, at(p, i+1), i-1, i+2) {
		return nil, false
	}
	out := append([]r2.Vec(nil), p...)
	out[i] = q
	j := (i + 1) % n
	return append(out[:j], out[j+1:]...), true
}

// anyCross reports whether the segment ab meets an edge of p other than those
// between vertices from and to.
func anyCross(p []r2.Vec, a, b r2.Vec, from, to int) bool {
	n := len(p)
	for k := to + 1; k < from+n-1; k++ {
		c, d := at(p, k), at(p, k+1)
		if math.Max(c.X, d.X) < math.Min(a.X, b.X) || math.Min(c.X, d.X) > math.Max(a.X, b.X) {
			continue
		}
		ab := r2.Sub(b, a)
		cd := r2.Sub(d, c)
		if r2.Cross(ab, r2.Sub(c, a))*r2.Cross(ab, r2.Sub(d, a)) <= 0 &&
			r2.Cross(cd, r2.Sub(a, c))*r2.Cross(cd, r2.Sub(b, c)) <= 0 {
			return true
		}
	}
	return false
}
