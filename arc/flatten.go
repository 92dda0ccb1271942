package arc

import "math"

// maxFacets bounds what one arc may be cut into, so that no tolerance can make
// Flatten allocate without end.
const maxFacets = 1 << 20

// Facets returns the least number of equal chords that stay within tol of an
// arc of the given radius and turn; 1 for a line. A chord that turns by 2x
// stands R(1 − cos x) = 2R·sin²(x/2) off its arc.
func Facets(radius float64, turn Angle, tol float64) (int, error) {
	const fn = "arc.Facets"
	if err := needPositive(fn, "tol", tol, "mm"); err != nil {
		return 0, err
	}
	if math.IsInf(radius, 0) || turn == 0 {
		return 1, nil
	}
	x := 2 * math.Asin(math.Min(1, math.Sqrt(tol/(2*math.Abs(radius)))))
	n := math.Max(1, math.Ceil(math.Abs(float64(turn))/(2*x)-1e-12))
	if !(n <= maxFacets) {
		return 0, &ParamError{fn, "tol", tol, "mm", "a tolerance of at most a million chords an arc", ErrRange}
	}
	return int(n), nil
}

// Flatten returns the path with every arc replaced by equal chords whose ends
// are on it and that leave it by no more than tol. It is an error if a number,
// or the length of the path, is not finite.
func (p Path) Flatten(tol float64) (Path, error) {
	if _, err := p.needLength("arc.Path.Flatten"); err != nil {
		return Path{}, err
	}
	out := Path{Closed: p.Closed}
	for i := range p.NumSegments() {
		s := p.Segment(i)
		n, err := Facets(s.Radius(), s.Angle(), tol)
		if err != nil {
			return Path{}, err
		}
		l := s.Length() / float64(n)
		for j := range n {
			q, _ := s.At(l * float64(j))
			out.V = append(out.V, Vertex{P: q})
		}
	}
	if !p.Closed {
		out.V = append(out.V, Vertex{P: p.V[len(p.V)-1].P})
	}
	return out, nil
}
