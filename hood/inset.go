package hood

import "example.com/sagitta/hood/internal/rise"

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// inset returns the closed path whose every segment i lies at[i] to the left
// of that of p, neighbors run on or trimmed to where they meet. It keeps the
// sequence of segments, so it is good for bevels only, which are small beside
// the segments. It returns false where two neighbors do not meet or a segment
// is used up.
func inset(p arc.Path, at []float64) (arc.Path, bool) {
	n := p.NumSegments()
	moved := make([]arc.Segment, n)
	for i := range n {
		s := p.Segment(i)
		if s.K > 0 && s.Radius() <= at[i] {
			return arc.Path{}, false
		}
		a, b := rise.EndNormals(s)
		moved[i] = arc.Segment{A: r2.Add(s.A, r2.Scale(at[i], a)), B: r2.Add(s.B, r2.Scale(at[i], b)), K: s.K}
	}
	from, to := make([]float64, n), make([]float64, n)
	for i := range n {
		j := (i + 1) % n
		var ok bool
		if to[i], from[j], ok = meet(moved[i], moved[j]); !ok {
			return arc.Path{}, false
		}
	}
	out := arc.Path{V: make([]arc.Vertex, n), Closed: true}
	for i, s := range moved {
		if to[i] <= from[i] {
			return arc.Path{}, false
		}
		q, _ := s.At(from[i])
		out.V[i] = arc.Vertex{P: q, K: rise.KOfFirst(s, to[i]-from[i])}
	}
	return out, true
}

// meet returns where a, near its end, and b, near its start, meet: the lengths
// along each, which may lie beyond its ends.
func meet(a, b arc.Segment) (onA, onB float64, ok bool) {
	la := a.Length()
	onA = la
	// Newton's method on both lengths; exact in one step for lines.
	for range 20 {
		p, t := a.At(onA)
		q, u := b.At(onB)
		gap := r2.Sub(q, p)
		if size := r2.Norm(gap); size < 1e-11*(1+r2.Norm(p)) {
			return onA, onB, true
		}
		cross := r2.Cross(t, u)
		if math.Abs(cross) < 1e-7 {
			// Tangent neighbors that were moved by different amounts do not
			// meet; by the same amount they do, but for rounding.
			return onA, onB, r2.Norm(gap) < 1e-6
		}
		onA += r2.Cross(gap, u) / cross
		onB += r2.Cross(gap, t) / cross
		if math.Abs(onA-la) > la || math.Abs(onB) > b.Length() {
			return 0, 0, false
		}
	}
	return 0, 0, false
}
