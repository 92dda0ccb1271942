package rise

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A HalfPlane is the side dot(p − At, Out) <= 0 of a line.
type HalfPlane struct{ At, Out r2.Vec }

// Over returns how far a point is outside the half plane, times the length of
// Out.
func (h HalfPlane) Over(p r2.Vec) float64 { return r2.Dot(r2.Sub(p, h.At), h.Out) }

// Parallel returns the path d to the left of p. It returns false where an arc
// that turns left is not larger than d.
func Parallel(p arc.Path, d float64) (arc.Path, bool) {
	out, err := p.Shift([]float64{d}, AtLine)
	return out, err == nil
}

// EndNormals returns the left unit normals at both ends of a segment.
func EndNormals(s arc.Segment) (a, b r2.Vec) {
	u, v := s.Tangents()
	return leftOf(u), leftOf(v)
}

func leftOf(u r2.Vec) r2.Vec { return r2.Vec{X: -u.Y, Y: u.X} }

// AtLine is how near an end counts as on a line, or on that of a neighbor, mm:
// beyond what rounding does to sizes of a hood, and far below what anyone can
// cut.
const AtLine = 1e-9

// EndAt returns the path ended where it leaves the half plane for good:
// trimmed, or run on along its last tangent to the line. It returns false
// where neither reaches it.
func EndAt(p arc.Path, h HalfPlane) (arc.Path, bool) {
	n := p.NumSegments()
	if n == 0 {
		return p, false
	}
	over := h.Over(p.V[n].P)
	if math.Abs(over) < AtLine {
		return p.Clone(), true
	}
	if over < 0 {
		return RunOn(p, h)
	}
	for i := n - 1; i >= 0; i-- {
		s := p.Segment(i)
		if h.Over(s.A) > 0 {
			continue
		}
		l, k := s.Crossings(h.At, r2.Vec{X: h.Out.Y, Y: -h.Out.X}) // outside is to its left
		if k == 0 {
			return p, false
		}
		first := s.Part(0, l[k-1])
		out := arc.Path{V: append([]arc.Vertex{}, p.V[:i+1]...)}
		out.V[i].K = first.K
		out.V = append(out.V, arc.Vertex{P: first.B})
		return out, true
	}
	return p, false
}

// RunOn extends the path along its last tangent to the line.
func RunOn(p arc.Path, h HalfPlane) (arc.Path, bool) {
	n := p.NumSegments()
	s := p.Segment(n - 1)
	_, t := s.Tangents()
	rate := r2.Dot(t, h.Out)
	gap := -h.Over(s.B)
	if rate <= 1e-6 {
		return p, false
	}
	q := r2.Add(s.B, r2.Scale(gap/rate, t))
	out := arc.Path{V: append([]arc.Vertex{}, p.V...)}
	if s.K == 0 {
		out.V[n].P = q
		return out, true
	}
	out.V[n].K = 0
	out.V = append(out.V, arc.Vertex{P: q})
	return out, true
}

// StartAt is EndAt for the start of the path.
func StartAt(p arc.Path, h HalfPlane) (arc.Path, bool) {
	q, ok := EndAt(p.Reverse(), h)
	return q.Reverse(), ok
}
