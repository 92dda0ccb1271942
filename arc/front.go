package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A front is the pieces of loops that a level sweep is passing, from the lowest
// to the highest: a tree kept in balance by ranks that are as good as random
// and the same in every run (C. R. Aragon and R. G. Seidel, Randomized search
// trees, 1989).
type front struct {
	piece []rising
	root  int32
	kid   [][2]int32 // below and above, -1 for none
	up    []int32
	in    []bool
}

// A rising piece is a part of a loop along which x rises. Above tells that the
// loop's inside is above it.
type rising struct {
	edge
	loop  int32
	above bool
}

func newFront(loops []Path, area []float64) *front {
	w := &front{root: -1}
	for l, p := range loops {
		for i := range p.NumSegments() {
			w.add(p.Segment(i), int32(l), area[l] > 0)
		}
	}
	w.kid, w.up, w.in = make([][2]int32, len(w.piece)), make([]int32, len(w.piece)), make([]bool, len(w.piece))
	return w
}

// add cuts a segment where it is plumb, and adds the parts that are not plumb
// all along.
func (w *front) add(s Segment, loop int32, left bool) {
	if s.A == s.B {
		return
	}
	var cuts [3]float64 // as parts of the turn
	n := 0
	if s.K != 0 {
		turn := float64(s.Angle())
		u, _ := s.Tangents()
		from := math.Atan2(u.Y, u.X)
		for j := range 5 {
			// Directions straight up and down, in the order of the turn.
			up := (float64(j) - 1.5) * math.Pi
			if turn < 0 {
				up = -up
			}
			if f := (up - from) / turn; f > 1e-9 && f < 1-1e-9 {
				cuts[n] = f
				n++
			}
		}
	}
	cuts[n] = 1
	at, l := s.A, s.Length()
	for i, f := range cuts[:n+1] {
		from := 0.0
		if i > 0 {
			from = cuts[i-1]
		}
		part := s.Part(l*from, l*f)
		part.A = at
		if i == n {
			part.B = s.B
		}
		at = part.B
		w.put(part, loop, left)
	}
}

func (w *front) put(s Segment, loop int32, left bool) {
	switch {
	case s.A.X < s.B.X:
		w.piece = append(w.piece, rising{newEdge(s.A, s.B, s.K), loop, left})
	case s.A.X > s.B.X:
		w.piece = append(w.piece, rising{newEdge(s.B, s.A, -s.K), loop, !left})
	}
}

// y returns the height at x, held to the ends. At the parameter t of the edge
// x is hx·(t + (1−t)c) + hy·(1−t)s times t/|den|², which is a quadratic in
// t/(1−t) with one root above zero.
func (p *rising) y(x float64) float64 {
	switch {
	case x <= p.a.X:
		return p.a.Y
	case x >= p.b.X:
		return p.b.Y
	}
	h, dx := r2.Sub(p.b, p.a), x-p.a.X
	if p.k == 0 {
		return p.a.Y + h.Y*(dx/h.X)
	}
	q1, q2 := p.c*h.X+p.s*h.Y-2*p.c*dx, h.X-dx
	root := math.Sqrt(q1*q1 + 4*q2*dx)
	t := (root - q1) / (root - q1 + 2*q2)
	if q1 >= 0 {
		t = 2 * dx / (2*dx + q1 + root)
	}
	return p.at(t).Y
}

// below reports whether piece i runs below piece j where both are passed.
func (w *front) below(i, j int32) bool {
	p, q := &w.piece[i], &w.piece[j]
	from, to := math.Max(p.a.X, q.a.X), math.Min(p.b.X, q.b.X)
	best := p.y(from) - q.y(from)
	if math.Abs(best) < 1e-6*(to-from) || best == 0 {
		// They begin together: where they are farthest apart they tell.
		for _, x := range [2]float64{from/2 + to/2, to} {
			if d := p.y(x) - q.y(x); math.Abs(d) > math.Abs(best) {
				best = d
			}
		}
	}
	if best == 0 {
		return i < j
	}
	return best < 0
}

// rank mixes the bits of i (G. L. Steele and others, Fast splittable
// pseudorandom number generators, 2014).
func rank(i int32) uint64 {
	x := (uint64(i) + 1) * 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

func (w *front) has(i int32) bool { return w.in[i] }

// insert puts piece i in its place.
func (w *front) insert(i int32) {
	w.kid[i], w.up[i], w.in[i] = [2]int32{-1, -1}, -1, true
	if w.root < 0 {
		w.root = i
		return
	}
	for at := w.root; ; {
		side := 0
		if w.below(at, i) {
			side = 1
		}
		if next := w.kid[at][side]; next >= 0 {
			at = next
			continue
		}
		w.kid[at][side], w.up[i] = i, at
		break
	}
	for w.up[i] >= 0 && rank(w.up[i]) < rank(i) {
		w.rotate(i)
	}
}

// erase takes piece i out.
func (w *front) erase(i int32) {
	for {
		a, b := w.kid[i][0], w.kid[i][1]
		switch {
		case a < 0 && b < 0:
			w.replace(i, -1)
			w.in[i] = false
			return
		case a < 0 || b >= 0 && rank(b) > rank(a):
			w.rotate(b)
		default:
			w.rotate(a)
		}
	}
}

// replace puts j where i hangs.
func (w *front) replace(i, j int32) {
	u := w.up[i]
	switch {
	case u < 0:
		w.root = j
	case w.kid[u][0] == i:
		w.kid[u][0] = j
	default:
		w.kid[u][1] = j
	}
	if j >= 0 {
		w.up[j] = u
	}
}

// rotate lifts i over the piece it hangs from.
func (w *front) rotate(i int32) {
	u, side := w.up[i], 0
	if w.kid[u][1] == i {
		side = 1
	}
	w.replace(u, i)
	in := w.kid[i][1-side]
	w.kid[u][side], w.kid[i][1-side], w.up[u] = in, u, i
	if in >= 0 {
		w.up[in] = u
	}
}

// step returns the next piece above i, or below it, -1 where there is none.
func (w *front) step(i int32, above bool) int32 {
	side := 0
	if above {
		side = 1
	}
	if at := w.kid[i][side]; at >= 0 {
		for w.kid[at][1-side] >= 0 {
			at = w.kid[at][1-side]
		}
		return at
	}
	for w.up[i] >= 0 && w.kid[w.up[i]][side] == i {
		i = w.up[i]
	}
	return w.up[i]
}
