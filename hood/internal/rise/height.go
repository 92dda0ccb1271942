package rise

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// rising is OutAt for a path that rises throughout.
func rising(p arc.Path, y float64) float64 {
	n := p.NumSegments()
	for i := range n {
		if x, ok := OutOn(p.Segment(i), y, i == n-1); ok {
			return x
		}
	}
	return math.NaN()
}

// OutOn is rising for one segment of the path. It reports false where the path
// goes on to the height beyond it.
func OutOn(s arc.Segment, y float64, last bool) (float64, bool) {
	if y > s.B.Y && !last {
		return 0, false
	}
	if s.K == 0 || y <= s.A.Y || y >= s.B.Y {
		f := 0.0
		if s.B.Y > s.A.Y {
			f = (y - s.A.Y) / (s.B.Y - s.A.Y)
		}
		return s.A.X + f*(s.B.X-s.A.X), true
	}
	return AtHeight(s, y).X, true
}

// AtHeight returns the point of a rising arc at a height between its ends. With
// the tangent at the angle φ, which grows by the curvature κ per length,
// dy = sin φ ds gives cos φ = cos φ0 − κ·(y − y0), and the chord from the start
// stands at the mean of both angles, of which the cotangent is
// (cos φ0 + cos φ)/(sin φ0 + sin φ); that holds for arcs as flat as one likes.
func AtHeight(s arc.Segment, y float64) r2.Vec {
	up := y - s.A.Y
	if up <= 0 {
		return s.A
	}
	dx, dy, k := s.B.X-s.A.X, s.B.Y-s.A.Y, s.K
	chord2 := dx*dx + dy*dy
	chord := math.Sqrt(chord2)
	// The tangent at the start lies half the turn to the right of the chord:
	// cos(turn/2) = (1 − k²)/(1 + k²), sin(turn/2) = 2k/(1 + k²), κ = 2·sin(turn/2)/chord.
	half := 1 / (chord * (1 + k*k))
	from := (dx*(1-k*k) + dy*2*k) * half
	sin := (dy*(1-k*k) - dx*2*k) * half
	to := max(-1, min(from-4*k*up*half, 1))
	return r2.Vec{X: s.A.X + up*(from+to)/(sin+math.Sqrt((1-to)*(1+to))), Y: y}
}

// OutAt returns how far out a path that rises or falls throughout stands at a
// height, and beyond its ends how far out the nearer end stands on its chord.
func OutAt(p arc.Path, y float64) float64 {
	n := p.NumSegments()
	if p.V[0].P.Y <= p.V[n].P.Y {
		return rising(p, y)
	}
	for i := n - 1; i >= 0; i-- {
		s := arc.Segment{A: p.V[i+1].P, B: p.V[i].P, K: -p.V[i].K}
		if x, ok := OutOn(s, y, i == 0); ok {
			return x
		}
	}
	return math.NaN()
}

// Trimmed returns a rising path cut off, or run on, at two heights.
func Trimmed(p arc.Path, low, high float64) (arc.Path, bool) {
	p, ok1 := StartAt(p, HalfPlane{r2.Vec{Y: low}, r2.Vec{Y: -1}})
	p, ok2 := EndAt(p, HalfPlane{r2.Vec{Y: high}, r2.Vec{Y: 1}})
	return p, ok1 && ok2 && low < high
}
