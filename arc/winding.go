package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/internal/exact"
)

// A spoke is one end of a link at a node.
type spoke struct {
	link  int32
	start bool // the link leaves the node
	angle float64
}

// fans sorts the links around every node counter-clockwise.
func (a *arrangement) fans() {
	a.begin = make([]int32, len(a.node)+1)
	for _, l := range a.link {
		a.begin[l.from]++
		a.begin[l.to]++
	}
	sum := int32(0)
	for i, n := range a.begin {
		a.begin[i] = sum
		sum += n
	}
	a.spoke = make([]spoke, sum)
	fill := slices.Clone(a.begin)
	for i, l := range a.link {
		for _, n := range [2]int32{l.from, l.to} {
			a.spoke[fill[n]] = spoke{link: int32(i), start: n == l.from}
			fill[n]++
		}
	}
	for n := range a.node {
		if f := a.fan(int32(n)); len(f) > 2 {
			a.sortFan(int32(n), f)
		}
	}
}

func (a *arrangement) fan(n int32) []spoke { return a.spoke[a.begin[n]:a.begin[n+1]] }

// outward returns the link of a spoke as an edge that leaves the node.
func (a *arrangement) outward(s spoke) edge {
	l := &a.link[s.link]
	if s.start {
		return newEdge(a.node[l.from], a.node[l.to], l.k)
	}
	return newEdge(a.node[l.to], a.node[l.from], -l.k)
}

// closeAngle is the angle below which two spokes' order is told by where they
// lead and not by their tangents, which cutting at a node has turned a little.
const closeAngle = 1e-3

// sortFan sorts by tangent, then again where tangents are close. Sorting
// starts after the widest gap, so that close ones are never at both ends.
func (a *arrangement) sortFan(n int32, f []spoke) {
	for i := range f {
		e := a.outward(f[i])
		d, _ := e.tangents()
		f[i].angle = quadrantAngle(d)
	}
	slices.SortStableFunc(f, func(x, y spoke) int { return sign(x.angle - y.angle) })
	gap, at := f[0].angle+4-f[len(f)-1].angle, 0
	for i := 1; i < len(f); i++ {
		if g := f[i].angle - f[i-1].angle; g > gap {
			gap, at = g, i
		}
	}
	for i := range f[:at] {
		f[i].angle += 4
	}
	slices.SortStableFunc(f, func(x, y spoke) int { return sign(x.angle - y.angle) })
	for i := 1; i < len(f); i++ {
		for j := i; j > 0 && a.before(f[j], f[j-1]); j-- {
			f[j], f[j-1] = f[j-1], f[j]
		}
	}
}

func sign(x float64) int {
	if x > 0 {
		return 1
	}
	if x < 0 {
		return -1
	}
	return 0
}

// quadrantAngle grows with the direction of v from 0 to 4 in a whole turn.
func quadrantAngle(v r2.Vec) float64 {
	q := v.Y / (math.Abs(v.X) + math.Abs(v.Y))
	if v.X < 0 {
		return 2 - q
	}
	if q < 0 {
		return 4 + q
	}
	return q
}

// before reports whether spoke x comes clockwise of y.
func (a *arrangement) before(x, y spoke) bool {
	if math.Abs(x.angle-y.angle) > closeAngle {
		return x.angle < y.angle
	}
	e, f := a.outward(x), a.outward(y)
	if e.chord > f.chord {
		return e.off(probe(f, e)) < 0
	}
	return f.off(probe(e, f)) > 0
}

// probe returns the point of the shorter edge by which it is compared with
// the longer: its far end, or its middle where both end together.
func probe(short, long edge) r2.Vec {
	if short.b == long.b {
		return short.at(0.5)
	}
	return short.b
}

// wind finds the winding numbers to the left of every link. They are handed
// on from link to link around nodes where the order is beyond doubt, and
// counted by a ray where they are not reached so. It returns false when the
// context is done.
func (a *arrangement) wind() bool {
	var todo []int32
	for i := range a.link {
		if a.link[i].known {
			continue
		}
		if a.ctx.Err() != nil {
			return false
		}
		a.link[i].left, a.link[i].known = a.ray(int32(i)), true
		todo = append(todo, int32(i))
		for len(todo) > 0 {
			l := a.link[todo[len(todo)-1]]
			todo = todo[:len(todo)-1]
			for _, n := range [2]int32{l.from, l.to} {
				if f := a.fan(n); a.plain(f) {
					todo = a.handOn(todo, f)
				}
			}
		}
	}
	return true
}

// plain reports whether the order of a fan is beyond doubt.
func (a *arrangement) plain(f []spoke) bool {
	if len(f) <= 2 {
		return true
	}
	shortest := math.Inf(1)
	for _, s := range f {
		l := &a.link[s.link]
		shortest = math.Min(shortest, r2.Norm(r2.Sub(a.node[l.from], a.node[l.to])))
	}
	need := closeAngle + 16*a.eps/shortest
	last := f[len(f)-1].angle - 4
	for _, s := range f {
		if s.angle-last < need {
			return false
		}
		last = s.angle
	}
	return true
}

// handOn goes once around a node from a spoke that is known.
func (a *arrangement) handOn(todo []int32, f []spoke) []int32 {
	i := slices.IndexFunc(f, func(s spoke) bool { return a.link[s.link].known })
	w := a.ccwSide(f[i])
	for j := 1; j < len(f); j++ {
		s := f[(i+j)%len(f)]
		l := &a.link[s.link]
		// Crossing an outgoing link counter-clockwise is from right to left.
		sign := 1
		if !s.start {
			sign = -1
		}
		w[0] += sign * l.w[0]
		w[1] += sign * l.w[1]
		if !l.known {
			l.known = true
			l.left = w
			if !s.start {
				l.left = [2]int{w[0] + l.w[0], w[1] + l.w[1]}
			}
			todo = append(todo, s.link)
		}
	}
	return todo
}

// ccwSide returns the winding numbers just counter-clockwise of a spoke.
func (a *arrangement) ccwSide(s spoke) [2]int {
	l := &a.link[s.link]
	if s.start {
		return l.left
	}
	return l.right()
}

func (l *link) right() [2]int { return [2]int{l.left[0] - l.w[0], l.left[1] - l.w[1]} }

// ray counts the winding numbers to the left of the middle of link i along a
// ray: to the right, or upward where the link is more level than steep. A ray
// along the link could, by the rounding of its middle, miss or take in what
// meets the link's ends.
func (a *arrangement) ray(i int32) [2]int {
	l := &a.link[i]
	g := a.segment(l.from, l.to, l.k)
	m := g.Mid()
	to := r2.Vec{X: math.Inf(1), Y: m.Y}
	level := math.Abs(g.B.X-g.A.X) > math.Abs(g.B.Y-g.A.Y)
	if level {
		to = r2.Vec{X: m.X, Y: math.Inf(1)}
	}
	view := func(s Segment) Segment {
		if level {
			return Segment{quarter(s.A), quarter(s.B), s.K}
		}
		return s
	}
	from := view(Segment{A: m}).A
	own := leftCount(view(g), from)
	w := [2]int{own * l.w[0], own * l.w[1]}
	a.index.search(r2.Box{Min: m, Max: to}, func(s int) bool {
		for _, p := range a.piece[a.first[s]:a.first[s+1]] {
			if p.link == i {
				continue
			}
			if n := count(view(a.segment(p.from, p.to, p.k)), from); n != 0 {
				w[0] += n * int(a.strand[s].w[0])
				w[1] += n * int(a.strand[s].w[1])
			}
		}
		return true
	})
	return w
}

// quarter turns a point clockwise about the origin.
func quarter(p r2.Vec) r2.Vec { return r2.Vec{X: p.Y, Y: -p.X} }

// leftCount is count for a point just to the left of the middle m of s.
func leftCount(s Segment, m r2.Vec) int {
	side := 1
	if s.K == 0 && s.A.Y == s.B.Y && s.A.X > s.B.X {
		return 1 // the ray ran above, to the right of the segment
	}
	if s.K > 0 {
		side = -1
	}
	n := chordCount(s, m, side)
	if s.K > 0 {
		n++
	}
	return n
}

// count returns what a segment of at most a half circle adds to the winding
// number of p: the crossing of its chord by the ray from p to the right, and
// one more where p lies between chord and arc. Summed over closed loops it is
// the winding number. A point on a chord counts as just to the right of it, and
// above it where it is level; there the count is not off by the arc, since
// both parts take the same side.
func count(s Segment, p r2.Vec) int {
	inY := (s.A.Y <= p.Y) != (s.B.Y <= p.Y)
	if s.K == 0 && !inY {
		return 0
	}
	side := exact.Orient(s.A, s.B, p)
	if side == 0 {
		side = sideOnChord(s)
	}
	n := chordCount(s, p, side)
	switch {
	case s.K > 0 && side < 0 && exact.ArcSide(s.A, s.B, s.K, p) < 0:
		n++
	case s.K < 0 && side > 0 && exact.ArcSide(s.A, s.B, s.K, p) > 0:
		n--
	}
	return n
}

// chordCount counts the crossing of the chord of s by the ray from a point on
// the given side of it.
func chordCount(s Segment, p r2.Vec, side int) int {
	switch {
	case s.A.Y <= p.Y && p.Y < s.B.Y && side > 0:
		return 1
	case s.B.Y <= p.Y && p.Y < s.A.Y && side < 0:
		return -1
	}
	return 0
}

// sideOnChord returns the side on which a point on the chord counts.
func sideOnChord(s Segment) int {
	switch {
	case s.A.Y < s.B.Y:
		return -1
	case s.A.Y > s.B.Y:
		return 1
	case s.A.X < s.B.X:
		return 1
	}
	return -1
}
