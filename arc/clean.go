package arc

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Clean returns the path with fewer vertices, none farther than tol > 0 mm from
// it: vertices closer together than that become one, stretches that a line or
// an arc of up to a half circle can stand for become one segment, and of a
// closed path needles are dropped, where it goes out and back with less than
// tol between. Every point of the path, needles apart, is within tol of the
// result, as measured at the ends of its segments and seven points between. The
// ends of an open path stay.
//
// It is an error if nothing is left of a closed path. It may make paths touch
// that come nearer to themselves than 2·tol.
func (p Path) Clean(tol float64) (Path, error) { return p.CleanContext(context.Background(), tol) }

// CleanContext is [Path.Clean], stopped with the context's error when ctx is
// done.
func (p Path) CleanContext(ctx context.Context, tol float64) (Path, error) {
	const fn = "arc.Path.Clean"
	if err := needPositive(fn, "tol", tol, "mm"); err != nil {
		return Path{}, err
	}
	if _, err := p.needLength(fn); err != nil {
		return Path{}, err
	}
	// A fourth of the tolerance moves vertices, the rest joins.
	q := p.merged(tol / 4)
	if q.Closed {
		q = q.withoutNeedles(tol / 4)
		if len(q.V) < 2 || thin(q, tol/2) {
			return Path{}, &ParamError{fn, "tol", tol, "mm", "less, for anything to be left of the path", ErrEmpty}
		}
		q = q.fromCorner()
	}
	return q.joined(ctx, 0.7*tol)
}

// Clean returns the region with its loops cleaned as by [Path.Clean] and
// without the holes of which nothing is left.
func (r Region) Clean(tol float64) (Region, error) { return r.CleanContext(context.Background(), tol) }

// CleanContext is [Region.Clean], stopped with the context's error when ctx is
// done.
func (r Region) CleanContext(ctx context.Context, tol float64) (Region, error) {
	if err := checkLoops("arc.Region.Clean", r); err != nil {
		return Region{}, err
	}
	var out Region
	for i, p := range r.Loops() {
		q, err := p.CleanContext(ctx, tol)
		switch {
		case err == nil && i == 0:
			out.Outer = q
		case err == nil:
			out.Holes = append(out.Holes, q)
		case i == 0 || kindOf(err) != ErrEmpty:
			return Region{}, err
		}
	}
	return out, nil
}

func kindOf(err error) error {
	if pe, ok := err.(*ParamError); ok {
		return pe.Err
	}
	return err
}

// merged drops vertices that are closer than d along the path to the one kept
// before, and so segments of no length; the ends of an open path stay.
func (p Path) merged(d float64) Path {
	out := Path{V: []Vertex{{P: p.V[0].P}}, Closed: p.Closed}
	since, n := 0.0, p.NumSegments()
	for i := range n {
		s := p.Segment(i)
		since += s.Length()
		m := len(out.V) - 1
		switch last := i == n-1; {
		case since >= d && s.B != out.V[m].P || last && m == 0:
			out.V[m].K = s.K
			out.V = append(out.V, Vertex{P: s.B})
			since = 0
		case last: // the one before moves to the end
			out.V[m].P = s.B
		}
	}
	if p.Closed && len(out.V) > 1 { // the last is the first again
		out.V = out.V[:len(out.V)-1]
	}
	return out
}

// withoutNeedles drops from a closed path where it goes out and back.
func (p Path) withoutNeedles(d float64) Path {
	v := make([]Vertex, 0, len(p.V))
	for _, x := range p.V {
		v = append(v, x)
		for len(v) > 2 && needle(&v, d) {
		}
	}
	// Once around the start, where the last vertices meet the first.
	for len(v) > 2 {
		n := len(v)
		w := []Vertex{v[n-2], v[n-1], v[0]}
		if needle(&w, d) {
			v = append(v[:n-2:n-2], w[:len(w)-1]...)
			continue
		}
		w = []Vertex{v[n-1], v[0], v[1]}
		if needle(&w, d) {
			v = append(append(v[1:n-1:n-1], w[:len(w)-1]...), []Vertex{}...)
			continue
		}
		break
	}
	return Path{V: v, Closed: true}
}

// needle drops the middle of the last three vertices where it is the tip of a
// needle: the path turns back there and one of its sides ends within d of the
// other.
func needle(v *[]Vertex, d float64) bool {
	w := *v
	n := len(w)
	a, b := Segment{w[n-3].P, w[n-2].P, w[n-3].K}, Segment{w[n-2].P, w[n-1].P, w[n-2].K}
	if a.A == a.B || b.A == b.B {
		*v = append(w[:n-2], w[n-1])
		if a.A != a.B {
			return true
		}
		w[n-3].K = b.K
		return true
	}
	_, out := a.Tangents()
	back, _ := b.Tangents()
	if r2.Dot(out, back) > -0.5 {
		return false
	}
	// From the shorter side's end to its foot on the longer one.
	la, lb := a.Length(), b.Length()
	if l, q := a.Closest(b.B); lb <= la && near(q, b.B, d) && within(b, a, d) {
		w[n-3].K = a.Part(0, l).K
		*v = append(w[:n-2], w[n-1])
		return true
	}
	if l, q := b.Closest(a.A); la < lb && near(q, a.A, d) && within(a, b, d) {
		w[n-3].K = b.Part(l, lb).K
		*v = append(w[:n-2], w[n-1])
		return true
	}
	return false
}

// within reports whether seven points of s are within d of t.
func within(s, t Segment, d float64) bool {
	l := s.Length()
	for i := range 7 {
		if p, _ := s.At(l * float64(i+1) / 8); t.Distance(p) > d {
			return false
		}
	}
	return true
}

// fromCorner starts a closed path at its sharpest corner.
func (p Path) fromCorner() Path {
	n := len(p.V)
	at, most := 0, 0.0
	for i := range p.V {
		if t := math.Abs(cornerTurn(p.Segment((i+n-1)%n), p.Segment(i))); t > most {
			at, most = i, t
		}
	}
	return Path{append(append([]Vertex(nil), p.V[at:]...), p.V[:at]...), true}
}

// joined puts one segment for the longest stretches that it is within d of, from
// the start on. How long is found by doubling and halving.
func (p Path) joined(ctx context.Context, d float64) (Path, error) {
	n := p.NumSegments()
	out := Path{Closed: p.Closed}
	for i := 0; i < n; {
		if err := ctx.Err(); err != nil {
			return Path{}, err
		}
		best, good, step := p.Segment(i), 1, 1
		for most := n - i; good < most; step *= 2 {
			s, ok := p.standIn(i, min(good+step, most), d)
			if !ok {
				break
			}
			best, good = s, min(good+step, most)
		}
		for ; step > 0; step /= 2 {
			if good+step > n-i {
				continue
			}
			if s, ok := p.standIn(i, good+step, d); ok {
				best, good = s, good+step
			}
		}
		out.V = append(out.V, Vertex{best.A, best.K})
		i += good
	}
	if !p.Closed {
		out.V = append(out.V, Vertex{P: p.V[n].P})
	} else if len(out.V) < 2 {
		return p, nil
	}
	return out, nil
}

// standIn returns the segment that stands for n segments of p from i on, and
// whether they run along it within d.
func (p Path) standIn(i, n int, d float64) (Segment, bool) {
	a, b := p.V[i].P, p.V[(i+n)%len(p.V)].P
	if a == b {
		return Segment{}, false
	}
	line := Segment{A: a, B: b}
	if p.runsAlong(line, i, n, d) {
		return line, true
	}
	// Through the middle of the stretch, and as another try so that it keeps
	// the turn of the tangents where these are known.
	mid := p.Segment(i + n/2).A
	if n%2 == 1 {
		mid = p.Segment(i + n/2).Mid()
	}
	s := Segment{a, b, quarterTan(r2.Sub(mid, a), r2.Sub(b, mid))}
	if !(math.Abs(s.K) <= 1) {
		return s, false
	}
	return s, p.runsAlong(s, i, n, d)
}

// runsAlong reports whether n segments of p from i on run along s within d,
// forward all the way.
func (p Path) runsAlong(s Segment, i, n int, d float64) bool {
	last := 0.0
	for j := i; j < i+n; j++ {
		t := p.Segment(j)
		l := t.Length()
		points := 8
		if t.K == 0 && s.K == 0 {
			points = 1
		}
		for k := 1; k <= points; k++ {
			q, _ := t.At(l * float64(k) / float64(points))
			at, foot := s.Closest(q)
			if !near(q, foot, d) || at < last-d {
				return false
			}
			last = math.Max(last, at)
		}
	}
	return true
}
