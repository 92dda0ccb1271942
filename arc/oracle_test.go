package arc_test

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// The oracle of these tests knows paths by center and radius, and inside by the
// sum of angles around many points taken along them; none of it is how the
// package works.

// distTo returns the distance of q from the segments of the paths.
func distTo(q r2.Vec, paths ...arc.Path) float64 {
	d := math.Inf(1)
	for _, p := range paths {
		for i := range p.NumSegments() {
			d = math.Min(d, distToSegment(q, p.Segment(i)))
		}
	}
	return d
}

func distToSegment(q r2.Vec, s arc.Segment) float64 {
	ends := math.Min(math.Hypot(q.X-s.A.X, q.Y-s.A.Y), math.Hypot(q.X-s.B.X, q.Y-s.B.Y))
	h := r2.Sub(s.B, s.A)
	if s.A == s.B {
		return ends
	}
	if math.Abs(s.K) < 1e-7 {
		t := r2.Dot(r2.Sub(q, s.A), h) / r2.Norm2(h)
		if t > 0 && t < 1 {
			return math.Min(ends, math.Abs(r2.Cross(h, r2.Sub(q, s.A)))/r2.Norm(h))
		}
		return ends
	}
	c := s.Center()
	start := math.Atan2(s.A.Y-c.Y, s.A.X-c.X)
	at := math.Atan2(q.Y-c.Y, q.X-c.X)
	turn := float64(s.Angle())
	swept := math.Mod(at-start, 2*math.Pi)
	if turn > 0 && swept < 0 {
		swept += 2 * math.Pi
	}
	if turn < 0 && swept > 0 {
		swept -= 2 * math.Pi
	}
	if math.Abs(swept) < math.Abs(turn) {
		return math.Min(ends, math.Abs(math.Hypot(q.X-c.X, q.Y-c.Y)-s.Radius()))
	}
	return ends
}

// chords returns points along a closed path, off it by no more than tol.
func chords(p arc.Path, tol float64) []r2.Vec {
	f, err := p.Flatten(tol)
	if err != nil {
		panic(err)
	}
	pts := make([]r2.Vec, len(f.V))
	for i := range pts {
		pts[i] = f.V[i].P
	}
	return pts
}

// windsAround counts crossings of a ray upward from q, one at a time.
func windsAround(q r2.Vec, pts []r2.Vec) int {
	w := 0
	a := pts[len(pts)-1]
	for _, b := range pts {
		if (a.X > q.X) != (b.X > q.X) {
			y := a.Y + (q.X-a.X)/(b.X-a.X)*(b.Y-a.Y)
			if y > q.Y {
				if a.X > b.X {
					w++
				} else {
					w--
				}
			}
		}
		a = b
	}
	return w
}

// star returns a counter-clockwise loop about the origin that mostly does not
// cross itself, with lines and arcs.
func star(rng *rand.Rand, n int, size float64) arc.Path {
	p := arc.Path{Closed: true}
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n))
		r := size * (0.25 + 0.75*rng.Float64())
		k := 0.0
		if rng.IntN(2) == 0 {
			k = rng.Float64() - 0.5
		}
		p.V = append(p.V, arc.V(r*cos, r*sin, k))
	}
	return p
}

// simpleRegion returns a region of at most 60 segments that does not cross
// itself: an outline of lines and arcs by turns, each arc kept within reach of
// its chord so that it stays clear of its neighbors, and holes in a circle
// around the middle that the outline leaves free.
func simpleRegion(rng *rand.Rand, size float64) arc.Region {
	r := arc.Region{Outer: gear(rng, 3+rng.IntN(40), size, 0.4)}
	for i := range rng.IntN(4) {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i)/3 + 0.1*rng.Float64()))
		h := gear(rng, 3+rng.IntN(4), size*(0.02+0.12*rng.Float64()), 0.2).Reverse()
		r.Holes = append(r.Holes, h.Transform(arc.Shift(r2.Scale(0.2*size, r2.Vec{X: cos, Y: sin}))))
	}
	if _, err := r.Offset(1e-3, arc.OffsetOptions{}); err != nil {
		return simpleRegion(rng, size) // a hole crosses: draw another
	}
	return r
}

// gear returns a loop around the origin between the radii low·size and size
// with vertices at growing angles. An arc of a chord bends away from the origin,
// where it cannot leave its wedge by more than its sag, or by a little towards
// it.
func gear(rng *rand.Rand, n int, size, low float64) arc.Path {
	p := arc.Path{Closed: true}
	spread := 2 * math.Pi / float64(n)
	level := low + (1-low)*rng.Float64()
	for i := range n {
		if rng.IntN(3) > 0 {
			level = low + (1-low)*rng.Float64()
		}
		// Not below the chord of the neighbors' wedge.
		r := size * math.Max(level, low) / math.Max(math.Cos(spread), 0.3)
		r = math.Min(r, size)
		sin, cos := math.Sincos(spread * (float64(i) + 0.6*rng.Float64()))
		k := 0.0
		if rng.IntN(2) == 0 {
			k = 0.25 * (rng.Float64() - 0.4)
		}
		p.V = append(p.V, arc.V(r*cos, r*sin, k))
	}
	if _, err := p.Offset(1e-3, arc.OffsetOptions{}); err != nil {
		return gear(rng, n, size, low) // crosses itself: draw another
	}
	return p
}
