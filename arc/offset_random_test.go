package arc_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// randomRegion returns a region of at most 60 segments, every fourth of them
// wild: stars that may cross themselves and each other, to be refused.
func randomRegion(rng *rand.Rand) arc.Region {
	const size = 100.0
	if rng.IntN(4) > 0 {
		return simpleRegion(rng, size)
	}
	r := arc.Region{Outer: star(rng, 3+rng.IntN(40), size)}
	for range rng.IntN(4) {
		sin, cos := math.Sincos(2 * math.Pi * rng.Float64())
		d := rng.Float64() * size / 2
		h := star(rng, 3+rng.IntN(6), size*(0.03+0.2*rng.Float64())).Reverse()
		r.Holes = append(r.Holes, h.Transform(arc.Shift(r2.Vec{X: d * cos, Y: d * sin})))
	}
	return r
}

func TestRandomOffsets(t *testing.T) {
	n := 3000
	if os.Getenv("SAGITTA_FULL") == "1" {
		n = 100000
	}
	if testing.Short() {
		n = 500
	}
	var crossed, unproven, pieces int
	var worst time.Duration
	for seed := range n {
		rng := rand.New(rand.NewPCG(uint64(seed), 3))
		r := randomRegion(rng)
		d := 60 * math.Pow(10, -6*rng.Float64()*rng.Float64())
		if rng.IntN(2) == 0 {
			d = -d / 2
		}
		start := time.Now()
		out, err := r.Offset(d, arc.OffsetOptions{})
		took := time.Since(start)
		for range 5 { // others may have had the processor
			if took > 20*time.Millisecond {
				start = time.Now()
				_, _ = r.Offset(d, arc.OffsetOptions{})
				took = min(took, time.Since(start))
			}
		}
		worst = max(worst, took)
		switch {
		case errors.Is(err, arc.ErrCrossing), errors.Is(err, arc.ErrOrientation):
			crossed++
			continue
		case errors.Is(err, arc.ErrUnproven):
			t.Logf("seed %d: %v", seed, err)
			unproven++
			continue
		case err != nil:
			t.Fatalf("seed %d: %v", seed, err)
		}
		pieces += len(out)
		checkOffset(t, rng, seed, r, d, out)
	}
	t.Logf("%d offsets, %d refused, %d unproven, %d pieces, slowest %v", n, crossed, unproven, pieces, worst)
	if unproven > 0 {
		t.Fail()
	}
}

// checkOffset compares a result with distances sampled over the plane and along
// the result.
func checkOffset(t *testing.T, rng *rand.Rand, seed int, r arc.Region, d float64, out []arc.Region) {
	const flat = 1e-3
	inside := func(q r2.Vec, rs []arc.Region, pts [][]r2.Vec) bool {
		w := 0
		for _, p := range pts {
			w += windsAround(q, p)
		}
		return w > 0
	}
	flatten := func(rs []arc.Region) (pts [][]r2.Vec) {
		for _, r := range rs {
			for _, l := range r.Loops() {
				pts = append(pts, chords(l, flat))
			}
		}
		return pts
	}
	in := []arc.Region{r}
	inPts, outPts := flatten(in), flatten(out)
	for range 60 {
		q := r2.Vec{X: 320*rng.Float64() - 160, Y: 320*rng.Float64() - 160}
		if d < 0 {
			q = r2.Scale(0.6, q)
		}
		dist := distTo(q, r.Loops()...)
		if dist < 2*flat || math.Abs(dist-math.Abs(d)) < 2*flat {
			continue
		}
		signed := dist
		if inside(q, in, inPts) {
			signed = -dist
		}
		if want := signed < d; want != inside(q, out, outPts) {
			t.Errorf("seed %d, d %g: %v at %g is wrong", seed, d, q, signed)
			return
		}
	}
	for _, o := range out {
		for _, l := range o.Loops() {
			for i := range l.NumSegments() {
				s := l.Segment(i)
				q, _ := s.At(rng.Float64() * s.Length())
				if dist := distTo(q, r.Loops()...); math.Abs(dist-math.Abs(d)) > 2e-6 {
					t.Errorf("seed %d, d %g: boundary at %g", seed, d, dist)
					return
				}
			}
		}
	}
}
