package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Round returns the path with the corners at the given vertices, or all
// corners where none is given, rounded by arcs of a radius > 0 mm, tangent to
// the segments on both sides, which may be arcs. A vertex through which the
// path runs on by less than a microradian, and an end of an open path, is no
// corner. It is an error if a corner named is none, or has no room.
func (p Path) Round(radius float64, at ...int) (Path, error) {
	const fn = "arc.Path.Round"
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return Path{}, err
	}
	return p.corners(fn, "radius", radius, at, func(a, b Segment, left bool) (Segment, bool) {
		d := radius
		if !left {
			d = -d
		}
		x, ok1 := a.shift(d)
		y, ok2 := b.shift(d)
		if !ok1 || !ok2 {
			return Segment{}, false
		}
		l, _, ok := Meet(x, y, 0)
		if !ok {
			return Segment{}, false
		}
		center, _ := x.At(l)
		onA, _ := a.Project(center)
		onB, _ := b.Project(center)
		s, u := a.At(onA)
		e, v := b.At(onB)
		return Segment{s, e, math.Tan(math.Atan2(r2.Cross(u, v), r2.Dot(u, v)) / 4)}, true
	})
}

// Chamfer returns the path with the corners at the given vertices, or all
// corners where none is given, cut off straight at a distance > 0 mm along both
// segments. Corners are those of [Path.Round].
func (p Path) Chamfer(d float64, at ...int) (Path, error) {
	const fn = "arc.Path.Chamfer"
	if err := needPositive(fn, "d", d, "mm"); err != nil {
		return Path{}, err
	}
	return p.corners(fn, "d", d, at, func(a, b Segment, left bool) (Segment, bool) {
		if d > a.Length() || d > b.Length() {
			return Segment{}, false
		}
		s, _ := a.At(a.Length() - d)
		e, _ := b.At(d)
		return Segment{A: s, B: e}, true
	})
}

// A Relief is the place of the hole that lets a round cutter reach into an
// inside corner.
type Relief uint8

// The places of a relief.
const (
	ReliefOnBisector Relief = iota // reaches equally into both sides
	ReliefIntoNext                 // leaves the segment that comes to the corner whole
	ReliefIntoLast                 // leaves the segment that leaves the corner whole
)

// Relieve returns the path with its inside corners relieved for a cutter of a
// radius > 0 mm that works on the right of the path, as it does around every
// loop of a [Region]: at corners between lines that turn right, the given
// vertices or all such where none is given, an arc of the cutter's radius
// through the corner takes the place of what the cutter would leave. With 2θ
// the angle between the sides it turns by 2π − 4θ. It is an error if a vertex
// named is no such corner, or has no room.
func (p Path) Relieve(radius float64, side Relief, at ...int) (Path, error) {
	const fn = "arc.Path.Relieve"
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return Path{}, err
	}
	if side > ReliefIntoLast {
		return Path{}, &ParamError{fn, "side", int(side), "", "ReliefOnBisector, ReliefIntoNext or ReliefIntoLast", ErrRange}
	}
	if err := p.Usable(); err != nil {
		return Path{}, err
	}
	if len(at) == 0 {
		for i := range p.V {
			if p.inside(i) {
				at = append(at, i)
			}
		}
		if len(at) == 0 {
			return p.Clone(), nil
		}
	}
	for _, i := range at {
		if !p.inside(i) {
			return Path{}, &ParamError{fn, "at", i, "", "the number of a vertex that is an inside corner between lines", ErrRange}
		}
	}
	return p.corners(fn, "radius", radius, at, func(a, b Segment, _ bool) (Segment, bool) {
		half := (math.Pi + cornerTurn(a, b)) / 2
		sin, cos := math.Sincos(half)
		k := -cos / sin
		onA, onB := 2*radius*cos, 2*radius*cos
		switch side {
		case ReliefIntoNext:
			onA, onB = 0, 2*radius*math.Sin(2*half)
		case ReliefIntoLast:
			onA, onB = 2*radius*math.Sin(2*half), 0
		}
		la, lb := a.Length(), b.Length()
		if onA > la || onB > lb {
			return Segment{}, false
		}
		s, _ := a.At(la - onA)
		e, _ := b.At(onB)
		return Segment{s, e, k}, true
	})
}

// cornerAngle is the turn, in radians, below which a path runs on.
const cornerAngle = 1e-6

// cornerTurn returns the angle by which the path turns left from a to b.
func cornerTurn(a, b Segment) float64 {
	_, u := a.Tangents()
	v, _ := b.Tangents()
	return math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
}

// corner returns the segments before and after vertex i, and whether there is a
// corner.
func (p Path) corner(i int) (a, b Segment, ok bool) {
	n := p.NumSegments()
	if i < 0 || i >= len(p.V) || n < 2 || !p.Closed && (i == 0 || i == n) {
		return a, b, false
	}
	a, b = p.Segment((i+n-1)%n), p.Segment(i)
	return a, b, math.Abs(cornerTurn(a, b)) > cornerAngle
}

// inside reports whether vertex i is a corner between lines that turns right.
func (p Path) inside(i int) bool {
	a, b, ok := p.corner(i)
	return ok && a.K == 0 && b.K == 0 && cornerTurn(a, b) < 0
}

// corners puts what cut returns in the place of corners: a segment from a point
// of a to a point of b.
func (p Path) corners(fn, param string, value float64, at []int, cut func(a, b Segment, left bool) (Segment, bool)) (Path, error) {
	if err := p.Usable(); err != nil {
		return Path{}, err
	}
	for _, i := range at {
		if _, _, ok := p.corner(i); !ok {
			return Path{}, &ParamError{fn, "at", i, "", "the number of a vertex that is a corner", ErrRange}
		}
	}
	n := p.NumSegments()
	cuts := make([]*Segment, len(p.V))
	from, to := make([]float64, n), make([]float64, n)
	for i := range n {
		to[i] = p.Segment(i).Length()
	}
	noRoom := &ParamError{fn, param, value, "mm", "less, for want of room at a corner", ErrRange}
	for i := range p.V {
		a, b, ok := p.corner(i)
		if !ok || len(at) > 0 && !slices.Contains(at, i) {
			continue
		}
		s, ok := cut(a, b, cornerTurn(a, b) > 0)
		if !ok {
			return Path{}, noRoom
		}
		j := (i + n - 1) % n
		to[j], _ = a.Project(s.A)
		from[i], _ = b.Project(s.B)
		cuts[i] = &s
	}
	out := Path{Closed: p.Closed}
	for i := range n {
		s := p.Segment(i)
		l := s.Length()
		slack := 1e-12 * l
		if from[i] < -slack || to[i] > l+slack || from[i] > to[i]+slack {
			return Path{}, noRoom
		}
		if c := cuts[i]; c != nil {
			out.V = append(out.V, Vertex{c.A, c.K})
			s.A = c.B
		}
		if c := cuts[(i+1)%len(p.V)]; c != nil {
			s.B = c.A
		}
		if to[i]-from[i] > slack {
			out.V = append(out.V, Vertex{s.A, p.Segment(i).Part(from[i], to[i]).K})
		}
	}
	if !p.Closed {
		out.V = append(out.V, Vertex{P: p.V[n].P})
	}
	return out, out.Usable()
}
