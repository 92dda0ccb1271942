package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// FlattenTo returns a closed path with every arc replaced by chords on the side
// asked of the area it encloses: with Inside all chords lie within the area,
// with Outside none does, both to within rounding, and neither is farther than
// tol from the arc; with OnBoundary the chords swing about the arc by up to
// tol on either side, which takes the fewest. The ends of arcs stay where they
// are. It is an error if the path is open, has no area or tol is not above 0.
func (p Path) FlattenTo(side Side, tol float64) (Path, error) {
	const fn = "arc.Path.FlattenTo"
	if err := p.Usable(); err != nil {
		return Path{}, err
	}
	if err := needPositive(fn, "tol", tol, "mm"); err != nil {
		return Path{}, err
	}
	area := p.Area()
	switch {
	case !p.Closed:
		return Path{}, &ParamError{fn, "p", "open path", "", "a closed path", ErrOpen}
	case area == 0:
		return Path{}, &ParamError{fn, "p", area, "mm²", "a loop with area", ErrZeroArea}
	case side < Outside || side > Inside:
		return Path{}, &ParamError{fn, "side", int(side), "", "Outside, OnBoundary or Inside", ErrRange}
	}
	out := Path{Closed: true}
	for i := range p.NumSegments() {
		s := p.Segment(i)
		out.V = append(out.V, Vertex{P: s.A})
		if s.A == s.B || s.Radius() > math.MaxFloat64/4 {
			continue // a line, or an arc so flat that four radii overflow
		}
		cut := chordsInside
		switch bulges := (s.K > 0) == (area > 0); {
		case side == OnBoundary:
			cut = chordsAbout
		case bulges != (side == Inside):
			cut = chordsOutside
		}
		pts, err := cut(s, tol)
		if err != nil {
			return Path{}, err
		}
		for _, q := range pts {
			out.V = append(out.V, Vertex{P: q})
		}
	}
	return out, nil
}

// chordsInside returns the inner corners of equal chords with their ends on the
// arc.
func chordsInside(s Segment, tol float64) ([]r2.Vec, error) {
	n, err := Facets(s.Radius(), s.Angle(), tol)
	if err != nil {
		return nil, err
	}
	var out []r2.Vec
	for i := 1; i < n; i++ {
		out = append(out, s.raised(float64(i)/float64(n), 0))
	}
	return out, nil
}

// chordsOutside returns the corners of a line that touches the arc at its ends
// and at equal steps between. With x half a step, a corner stands
// R(sec x − 1) = 2R·sin²(x/2)/cos x off the arc.
func chordsOutside(s Segment, tol float64) ([]r2.Vec, error) {
	r, turn := s.Radius(), math.Abs(float64(s.Angle()))
	// sec x = 1 + tol/R, so tan²(x/2) = tol/(2R + tol).
	x := 2 * math.Atan(math.Sqrt(tol/(2*r+tol)))
	n := math.Max(math.Ceil(turn/(2*x)-1e-12), math.Ceil(turn/2.5))
	if !(n <= maxFacets) {
		return nil, &ParamError{"arc.Path.FlattenTo", "tol", tol, "mm", "a tolerance of at most a million chords an arc", ErrRange}
	}
	x = turn / n / 2
	up := 2 * r * math.Sin(x/2) * math.Sin(x/2) / math.Cos(x)
	var out []r2.Vec
	for i := range int(n) {
		out = append(out, s.raised((float64(i)+0.5)/n, up))
	}
	return out, nil
}

// chordsAbout returns the inner corners of chords that swing about the arc.
// Corners raised by e = R·tan²(x/2), x half a step, make chords that sink by
// e. The first and the last start on the arc itself; their steps are
// (2+√2)/4 as long: with q the square of that, such a chord lies at
// e·s − 8qe·s(1−s) over the arc, 0 <= s <= 1, and sinks by e where
// (8q − 1)² = 32q. That is to first order in x; 0.85 is a little shorter.
func chordsAbout(s Segment, tol float64) ([]r2.Vec, error) {
	const edge = 0.85
	r, turn := s.Radius(), math.Abs(float64(s.Angle()))
	if n, err := Facets(r, s.Angle(), tol); n == 1 || err != nil {
		return nil, err
	}
	x := math.Min(2*math.Atan(math.Sqrt(tol/r)), 1)
	n := math.Max(2, math.Ceil(turn/(2*x)-2*edge+2-1e-12))
	if !(n <= maxFacets) {
		return nil, &ParamError{"arc.Path.FlattenTo", "tol", tol, "mm", "a tolerance of at most a million chords an arc", ErrRange}
	}
	x = turn / (n - 2 + 2*edge) / 2
	up := r * math.Pow(math.Tan(x/2), 2)
	var out []r2.Vec
	for i := range int(n) - 1 {
		out = append(out, s.raised((edge+float64(i))*2*x/turn, up))
	}
	return out, nil
}

// raised returns the point at a part of the length of an arc, moved off it by
// up, away from the center.
func (s Segment) raised(part, up float64) r2.Vec {
	p, t := s.At(part * s.Length())
	if s.K < 0 {
		up = -up
	}
	return r2.Add(p, r2.Scale(up, r2.Vec{X: t.Y, Y: -t.X}))
}
