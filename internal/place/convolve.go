package place

// The no-fit region of a and b is the set of displacements v at which b moved
// by v overlaps a: the Minkowski sum of a and of b turned by half a turn. Its
// outline is part of the convolution of the two outlines (Guibas, Ramshaw and
// Stolfi 1983), whose winding number about v is the number of pieces of the
// overlap (their Euler characteristic) if both regions are simply connected.
// Regions with holes are made so by a cut of no width from each hole to the
// outline.

// convolution returns the directed edges of the convolution of the tours of a
// and of the negative of b.
func convolution(a, b []pt) []edge {
	neg := make([]pt, len(b))
	for i, p := range b {
		neg[i] = pt{-p.x, -p.y}
	}
	es := sweepCorners(nil, a, neg, false)
	return sweepCorners(es, neg, a, true)
}

// sweepCorners appends, for every corner of a, the edges of b whose direction
// the corner turns through: forward where it turns left, backward where it
// turns right. Of an edge parallel to an edge of a one end of the turn counts,
// which end depends on closed, so that no pair counts twice.
func sweepCorners(es []edge, a, b []pt, closed bool) []edge {
	for i, v := range a {
		d1 := v.sub(a[(i+len(a)-1)%len(a)])
		d2 := a[(i+1)%len(a)].sub(v)
		left := cross(d1, d2) > 0
		lo, hi := d1, d2
		if !left {
			lo, hi = d2, d1
		}
		p := b[len(b)-1]
		for _, q := range b {
			if d := q.sub(p); within(lo, hi, d, closed) {
				if left {
					es = append(es, edge{v.add(p), v.add(q)})
				} else {
					es = append(es, edge{v.add(q), v.add(p)})
				}
			}
			p = q
		}
	}
	return es
}

// within reports whether direction d is in [lo, hi), or (lo, hi] where closed,
// for hi less than half a turn to the left of lo.
func within(lo, hi, d pt, closed bool) bool {
	a, b := cross(lo, d), cross(d, hi)
	if closed {
		return a > 0 && (b > 0 || b == 0 && dot(d, hi) > 0)
	}
	return b > 0 && (a > 0 || a == 0 && dot(d, lo) > 0)
}

// tour joins the loops of a region into one closed walk that keeps the region
// to its left, with a cut from each hole to the walk so far.
func (r region) tour() []pt {
	walk := append([]pt(nil), r[0]...)
	left := append(region(nil), r[1:]...)
	for len(left) > 0 {
		i, j, k := nextCut(walk, left)
		h := left[k]
		next := append([]pt(nil), walk[:i+1]...)
		for m := 0; m <= len(h); m++ {
			next = append(next, h[(j+m)%len(h)])
		}
		walk = append(next, walk[i:]...)
		left = append(left[:k], left[k+1:]...)
	}
	return distinct(walk)
}

// distinct drops repeated points, where a hole touches the outline.
func distinct(walk []pt) []pt {
	var out []pt
	for i, p := range walk {
		if p != walk[(i+1)%len(walk)] {
			out = append(out, p)
		}
	}
	return out
}

// nextCut returns a cut from vertex i of the walk to vertex j of hole k: the
// shortest from the first hole that sees the walk.
func nextCut(walk []pt, holes region) (i, j, k int) {
	for k, h := range holes {
		best := int64(-1)
		for wi, w := range walk {
			for hj, v := range h {
				d := v.sub(w)
				if l := dot(d, d); (best < 0 || l < best) && cutIsFree(edge{w, v}, walk, holes) {
					best, i, j = l, wi, hj
				}
			}
		}
		if best >= 0 {
			return i, j, k
		}
	}
	return 0, 0, 0
}

func cutIsFree(c edge, walk []pt, holes region) bool {
	for _, l := range append(region{walk}, holes...) {
		p := l[len(l)-1]
		for _, q := range l {
			if c.crosses(edge{p, q}) {
				return false
			}
			p = q
		}
	}
	return true
}
