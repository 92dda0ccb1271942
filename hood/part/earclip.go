package part

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// triangulate cuts a counter-clockwise polygon with clockwise holes into
// triangles of its own vertices, numbered through all loops. Holes are joined
// to the outside by bridges, and ears are clipped off.
func triangulate(loops [][]r2.Vec) [][3]int {
	var pts []r2.Vec
	starts := make([]int, len(loops))
	for i, l := range loops {
		starts[i] = len(pts)
		pts = append(pts, l...)
	}
	ring := sequence(starts[0], len(loops[0]))
	left := map[int]bool{}
	for i := 1; i < len(loops); i++ {
		left[i] = true
	}
	for len(left) > 0 {
		// The hole that reaches farthest right sees the ring past all others.
		best, at := -1, 0
		for i := 1; i < len(loops); i++ {
			if !left[i] {
				continue
			}
			for j := range loops[i] {
				if best < 0 || loops[i][j].X > pts[at].X {
					best, at = i, starts[i]+j
				}
			}
		}
		delete(left, best)
		ring = bridge(pts, ring, starts[best], len(loops[best]), at)
	}
	return clipEars(pts, ring)
}

func sequence(from, n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = from + i
	}
	return out
}

// bridge joins a hole into the ring, from its rightmost vertex to a vertex of
// the ring in sight.
func bridge(pts []r2.Vec, ring []int, start, n, at int) []int {
	best, bestD := -1, math.Inf(1)
	for i, v := range ring {
		e := r2.Sub(pts[v], pts[at])
		d := float64(e.X*e.X) + float64(e.Y*e.Y)
		if d < bestD && pts[v].X >= pts[at].X && inCone(pts, ring, i, pts[at]) && inSight(pts, ring, i, at) {
			best, bestD = i, d
		}
	}
	if best < 0 {
		best = 0
	}
	out := append([]int{}, ring[:best+1]...)
	for j := range n + 1 {
		out = append(out, start+(at-start+j)%n)
	}
	return append(out, ring[best:]...)
}

// inCone reports whether q lies inside the corner of the ring at i.
func inCone(pts []r2.Vec, ring []int, i int, q r2.Vec) bool {
	n := len(ring)
	a, b, c := pts[ring[(i+n-1)%n]], pts[ring[i]], pts[ring[(i+1)%n]]
	if area2(a, b, c) >= 0 {
		return area2(a, b, q) > 0 && area2(b, c, q) > 0
	}
	return !(area2(c, b, q) >= 0 && area2(b, a, q) >= 0)
}

func inSight(pts []r2.Vec, ring []int, i, at int) bool {
	a, b := pts[ring[i]], pts[at]
	for j := range ring {
		p, q := pts[ring[j]], pts[ring[(j+1)%len(ring)]]
		if p == a || q == a {
			continue
		}
		if area2(a, b, p)*area2(a, b, q) <= 0 && area2(p, q, a)*area2(p, q, b) <= 0 {
			return false
		}
	}
	return true
}

// area2 returns twice the signed area of a triangle.
func area2(a, b, c r2.Vec) float64 {
	u, v := r2.Sub(b, a), r2.Sub(c, a)
	return float64(u.X*v.Y) - float64(u.Y*v.X) // each product rounded by itself, on every processor
}

// A corner of a ring is an ear of some fatness, or none, for want of area or
// because another vertex is in it.
type corner struct {
	vertex int
	fat    float64 // 0: no ear
	in     int     // the vertex that is in it, or -1
}

// clipEars cuts triangles off the ring. Where rounding leaves no ear it takes
// the corner that is least bad, so that it always ends. A corner is looked at
// again only where its triangle changed or the vertex in it is gone.
func clipEars(pts []r2.Vec, ring []int) [][3]int {
	corners := make([]corner, len(ring))
	for i, v := range ring {
		corners[i].vertex = v
	}
	for i := range corners {
		earAt(pts, corners, i)
	}
	out := make([][3]int, 0, len(ring))
	for len(corners) > 3 {
		best := 0
		for i, c := range corners { // the fattest ear first keeps slivers away
			if c.fat > corners[best].fat {
				best = i
			}
		}
		n := len(corners)
		gone := corners[best].vertex
		out = append(out, [3]int{corners[(best+n-1)%n].vertex, gone, corners[(best+1)%n].vertex})
		corners = append(corners[:best], corners[best+1:]...)
		n--
		for i, c := range corners {
			if c.in == gone || i == best%n || i == (best+n-1)%n {
				earAt(pts, corners, i)
			}
		}
	}
	return append(out, [3]int{corners[0].vertex, corners[1].vertex, corners[2].vertex})
}

// earAt looks whether corner i is an ear.
func earAt(pts []r2.Vec, corners []corner, i int) {
	n := len(corners)
	a, b, c := corners[(i+n-1)%n].vertex, corners[i].vertex, corners[(i+1)%n].vertex
	corners[i].fat, corners[i].in = 0, -1
	area := area2(pts[a], pts[b], pts[c])
	if area <= 0 {
		return
	}
	if corners[i].in = inEar(pts, corners, a, b, c); corners[i].in < 0 {
		corners[i].fat = area / r2.Norm2(r2.Sub(pts[c], pts[a]))
	}
}

// inEar returns a vertex of the ring that lies in the triangle, or -1.
func inEar(pts []r2.Vec, corners []corner, a, b, c int) int {
	for _, k := range corners {
		v := k.vertex
		p := pts[v]
		if v == a || v == b || v == c || p == pts[a] || p == pts[b] || p == pts[c] {
			continue
		}
		if area2(pts[a], pts[b], p) >= 0 && area2(pts[b], pts[c], p) >= 0 && area2(pts[c], pts[a], p) >= 0 {
			return v
		}
	}
	return -1
}
