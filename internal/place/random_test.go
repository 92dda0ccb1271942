package place

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// star returns a simple polygon about the origin: radii drawn at sorted
// angles, on whole numbers, so that equal coordinates and collinear edges are
// frequent.
func star(rng *rand.Rand, n, size int) []r2.Vec {
	for {
		var p []r2.Vec
		for i := range n {
			a := (float64(i) + 0.8*rng.Float64()) * 2 * math.Pi / float64(n)
			r := float64(size) * (0.25 + 0.75*rng.Float64())
			v := r2.Vec{X: math.Round(r * math.Cos(a)), Y: math.Round(r * math.Sin(a))}
			if len(p) == 0 || v != p[len(p)-1] && v != p[0] {
				p = append(p, v)
			}
		}
		if len(p) >= 3 && area(p) > float64(size) && isSimple(p) {
			return p
		}
	}
}

// isSimple tests every pair of edges that are no neighbors for a common point.
func isSimple(p []r2.Vec) bool {
	n := len(p)
	q := ratLoops([][]r2.Vec{p})[0]
	es := ratPoly{q}.edges()
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if crossingY(es[i], es[j]) != nil {
				return false
			}
		}
	}
	return true
}

func toRegion(loops ...[]r2.Vec) region {
	g := grid{unit: 1, step: 1}
	var r region
	for k, l := range loops {
		if (area(l) > 0) != (k == 0) {
			l = reversed(l)
		}
		r = append(r, g.loop(l))
	}
	return r
}

func reversed(p []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(p))
	for i, v := range p {
		out[len(p)-1-i] = v
	}
	return out
}

// rounds returns how many random cases a test runs.
func rounds(normal, full int) int {
	switch {
	case testing.Short():
		return normal / 4
	case fullRun:
		return full
	}
	return normal
}
