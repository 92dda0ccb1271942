package rise

import (
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/internal/num"
	"gonum.org/v1/gonum/spatial/r2"
)

// A HalfPlane is the side dot(p − At, Out) <= 0 of a line.
type HalfPlane struct{ At, Out r2.Vec }

// Over returns how far a point is outside the half plane, times the length of
// Out.
func (h HalfPlane) Over(p r2.Vec) float64 { return r2.Dot(r2.Sub(p, h.At), h.Out) }

// Parallel returns the open path d to the left of p. Corners of p have to be
// smooth. It returns false where an arc that turns left is not larger than d.
//
// A concentric arc turns as far as its original, so it keeps its K.
func Parallel(p arc.Path, d float64) (arc.Path, bool) {
	out := arc.Path{V: make([]arc.Vertex, len(p.V))}
	for i := range p.NumSegments() {
		s := p.Segment(i)
		if s.K > 0 && s.Radius() <= d {
			return arc.Path{}, false
		}
		a, b := EndNormals(s)
		out.V[i] = arc.Vertex{P: r2.Add(s.A, r2.Scale(d, a)), K: s.K}
		out.V[i+1] = arc.Vertex{P: r2.Add(s.B, r2.Scale(d, b))}
	}
	return out, true
}

// EndNormals returns the left unit normals at both ends of a segment.
func EndNormals(s arc.Segment) (a, b r2.Vec) {
	t := r2.Unit(r2.Sub(s.B, s.A))
	// The tangents stand half the turn off the chord: from k = tan(turn/4),
	// cos(turn/2) = (1−k²)/(1+k²) and sin(turn/2) = 2k/(1+k²).
	k := s.K
	cos, sin := (1-k*k)/(1+k*k), 2*k/(1+k*k)
	start := r2.Vec{X: t.X*cos + t.Y*sin, Y: t.Y*cos - t.X*sin}
	end := r2.Vec{X: t.X*cos - t.Y*sin, Y: t.Y*cos + t.X*sin}
	return r2.Vec{X: -start.Y, Y: start.X}, r2.Vec{X: -end.Y, Y: end.X}
}

// atLine is how near an end counts as on the line, mm: beyond what rounding
// does to sizes of a hood, and far below what anyone can cut.
const atLine = 1e-9

// EndAt returns the path ended where it leaves the half plane for good:
// trimmed, or run on along its last tangent to the line. It returns false
// where neither reaches it.
func EndAt(p arc.Path, h HalfPlane) (arc.Path, bool) {
	n := p.NumSegments()
	if n == 0 {
		return p, false
	}
	over := h.Over(p.V[n].P)
	if math.Abs(over) < atLine {
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
		l, err := num.Root(func(l float64) float64 {
			q, _ := s.At(l)
			return h.Over(q)
		}, 0, s.Length(), 1e-12)
		if err != nil {
			return p, false
		}
		q, _ := s.At(l)
		out := arc.Path{V: append([]arc.Vertex{}, p.V[:i+1]...)}
		out.V[i].K = KOfFirst(s, l)
		out.V = append(out.V, arc.Vertex{P: q})
		return out, true
	}
	return p, false
}

// RunOn extends the path along its last tangent to the line.
func RunOn(p arc.Path, h HalfPlane) (arc.Path, bool) {
	n := p.NumSegments()
	s := p.Segment(n - 1)
	_, normal := EndNormals(s)
	t := r2.Vec{X: normal.Y, Y: -normal.X}
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

// KOfFirst returns the K of the first l of a segment.
func KOfFirst(s arc.Segment, l float64) float64 {
	return math.Tan(math.Atan(s.K) * l / s.Length())
}
