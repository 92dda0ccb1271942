package arc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Vertex is a corner of a path. K is tan(turn/4) of the segment that
// leaves it: 0 for a line, 1 for a half circle turning left.
type Vertex struct {
	P r2.Vec
	K float64
}

// V returns the vertex at x, y whose segment has the given K.
func V(x, y, turn float64) Vertex { return Vertex{r2.Vec{X: x, Y: y}, turn} }

// A Path is a chain of lines and arcs. A closed path returns from its last
// vertex to its first; the K of the last vertex of an open path is not
// used. The zero Path is empty.
type Path struct {
	V      []Vertex
	Closed bool
}

// Polyline returns an open path of lines through the points.
func Polyline(p ...r2.Vec) Path {
	v := make([]Vertex, len(p))
	for i := range p {
		v[i].P = p[i]
	}
	return Path{V: v}
}

// Polygon returns a closed path of lines through the points.
func Polygon(p ...r2.Vec) Path {
	q := Polyline(p...)
	q.Closed = true
	return q
}

// Rect returns the counter-clockwise rectangle with opposite corners at x0, y0
// and x1, y1.
func Rect(x0, y0, x1, y1 float64) Path {
	x0, x1 = min(x0, x1), max(x0, x1)
	y0, y1 = min(y0, y1), max(y0, y1)
	return Path{V: []Vertex{V(x0, y0, 0), V(x1, y0, 0), V(x1, y1, 0), V(x0, y1, 0)}, Closed: true}
}

// Circle returns the counter-clockwise circle about c as two half circles.
func Circle(c r2.Vec, radius float64) Path {
	return Path{V: []Vertex{V(c.X+radius, c.Y, 1), V(c.X-radius, c.Y, 1)}, Closed: true}
}

// NumSegments returns how many segments the path has.
func (p Path) NumSegments() int {
	if p.Closed && len(p.V) > 1 {
		return len(p.V)
	}
	return max(0, len(p.V)-1)
}

// Segment returns segment i, 0 <= i < NumSegments.
func (p Path) Segment(i int) Segment {
	j := i + 1
	if j == len(p.V) {
		j = 0
	}
	return Segment{p.V[i].P, p.V[j].P, p.V[i].K}
}

// Usable reports the first fault that makes a path unusable: fewer than two
// vertices, [ErrEmpty], or a number that is not finite, [ErrNotFinite]. It does
// not look at where the path goes: see [Path.Check].
func (p Path) Usable() error {
	const fn = "arc.Path.Usable"
	if len(p.V) < 2 {
		return &ParamError{fn, "vertices", len(p.V), "", "at least 2", ErrEmpty}
	}
	for _, v := range p.V {
		for _, x := range [3]float64{v.P.X, v.P.Y, v.K} {
			if err := needFinite(fn, "vertex", x, ""); err != nil {
				return err
			}
		}
	}
	return nil
}

// Length returns the length along the path.
func (p Path) Length() float64 {
	sum := 0.0
	for i := range p.NumSegments() {
		sum += p.Segment(i).Length()
	}
	return sum
}

// Area returns the signed area enclosed by a closed path, positive where it
// runs counter-clockwise, and 0 for an open one.
func (p Path) Area() float64 {
	if !p.Closed || len(p.V) < 2 {
		return 0
	}
	// About the first vertex, so that a far-away path loses nothing.
	o, sum := p.V[0].P, 0.0
	for i := range p.V {
		s := p.Segment(i)
		sum += r2.Cross(r2.Sub(s.A, o), r2.Sub(s.B, o))/2 + segmentArea(s.Chord(), s.K)
	}
	return sum
}

// Bounds returns the exact extent of the path, the zero Box where it is empty.
func (p Path) Bounds() r2.Box {
	if len(p.V) == 0 {
		return r2.Box{}
	}
	b := r2.Box{Min: p.V[0].P, Max: p.V[0].P}
	for i := range p.NumSegments() {
		b = union(b, p.Segment(i).Bounds())
	}
	return b
}

// union is r2.Box.Union without its rule that a flat box is empty.
func union(a, b r2.Box) r2.Box {
	return r2.Box{
		Min: r2.Vec{X: math.Min(a.Min.X, b.Min.X), Y: math.Min(a.Min.Y, b.Min.Y)},
		Max: r2.Vec{X: math.Max(a.Max.X, b.Max.X), Y: math.Max(a.Max.Y, b.Max.Y)},
	}
}

// At returns the point and unit tangent at a length l along the path, held to
// its ends; at a vertex the tangent is that of the segment that leaves it. An
// empty path gives zeros.
func (p Path) At(l float64) (pt, tangent r2.Vec) {
	n := p.NumSegments()
	for i := range n {
		s := p.Segment(i)
		d := s.Length()
		if l < d || i == n-1 {
			return s.At(math.Max(0, math.Min(l, d)))
		}
		l -= d
	}
	if len(p.V) == 1 {
		return p.V[0].P, r2.Vec{}
	}
	return r2.Vec{}, r2.Vec{}
}

// Reverse returns the path run the other way.
func (p Path) Reverse() Path {
	n := len(p.V)
	v := make([]Vertex, n)
	for i := range v {
		v[i].P = p.V[n-1-i].P
		// The segment that now leaves this vertex is the one that came to it.
		if j := n - 2 - i; j >= 0 {
			v[i].K = -p.V[j].K
		} else if p.Closed {
			v[i].K = -p.V[n-1].K
		}
	}
	return Path{v, p.Closed}
}

// Straightened returns the path with lines for arcs of a sag below tol mm:
// what a file whose numbers end there cannot tell from lines.
func (p Path) Straightened(tol float64) Path {
	p = p.Clone()
	for i := range p.NumSegments() {
		if p.Segment(i).Sag() < tol {
			p.V[i].K = 0
		}
	}
	return p
}

// Clone returns a path that shares nothing with p.
func (p Path) Clone() Path { return Path{slices.Clone(p.V), p.Closed} }
