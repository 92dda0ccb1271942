package exact

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The oracle is rational arithmetic, which rounds nothing.

func rat(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }

func sub(x, y float64) *big.Rat { return new(big.Rat).Sub(rat(x), rat(y)) }

func times(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }

func ratOrient(a, b, c r2.Vec) int {
	return times(sub(b.X, a.X), sub(c.Y, a.Y)).Cmp(times(sub(b.Y, a.Y), sub(c.X, a.X)))
}

// ratSide decides by the distance from the center, with k as it is: the center
// is the middle of the chord and (1-k²)/(4k) of the chord to its left.
func ratSide(a, b r2.Vec, k float64, p r2.Vec) int {
	if k == 0 {
		return -ratOrient(a, b, p)
	}
	half := big.NewRat(1, 2)
	k2 := times(rat(k), rat(k))
	h := new(big.Rat).Quo(new(big.Rat).Sub(big.NewRat(1, 1), k2), times(big.NewRat(4, 1), rat(k)))
	dx, dy := sub(b.X, a.X), sub(b.Y, a.Y)
	cx := times(half, new(big.Rat).Add(rat(a.X), rat(b.X)))
	cy := times(half, new(big.Rat).Add(rat(a.Y), rat(b.Y)))
	cx.Sub(cx, times(h, dy))
	cy.Add(cy, times(h, dx))
	dist := func(q r2.Vec) *big.Rat {
		x, y := new(big.Rat).Sub(rat(q.X), cx), new(big.Rat).Sub(rat(q.Y), cy)
		return x.Add(times(x, x), times(y, y))
	}
	s := dist(p).Cmp(dist(a))
	if k < 0 {
		s = -s
	}
	return s
}

// nearby returns a float64 a few units in the last place from x.
func nearby(rng *rand.Rand, x float64) float64 {
	for range rng.IntN(3) {
		x = math.Nextafter(x, math.Inf(rng.IntN(2)*2-1))
	}
	return x
}

func TestOrient(t *testing.T) {
	naive := 0
	for seed := range 20000 {
		rng := rand.New(rand.NewPCG(uint64(seed), 1))
		f := math.Pow(10, float64(rng.IntN(13)-6))
		a, b := r2.Vec{X: f * rng.Float64(), Y: f * rng.Float64()}, r2.Vec{X: f * rng.Float64(), Y: f * rng.Float64()}
		u := 3*rng.Float64() - 1
		c := r2.Vec{X: nearby(rng, a.X+u*(b.X-a.X)), Y: nearby(rng, a.Y+u*(b.Y-a.Y))}
		want := ratOrient(a, b, c)
		require.Equal(t, want, Orient(a, b, c), "seed %d", seed)
		require.Equal(t, want, Orient(b, c, a))
		require.Equal(t, -want, Orient(b, a, c))
		if sign(r2.Cross(r2.Sub(b, a), r2.Sub(c, a))) != want {
			naive++
		}
	}
	// The cases must be hard enough for plain arithmetic to fail.
	assert.Greater(t, naive, 1000)
}

func TestArcSide(t *testing.T) {
	naive := 0
	for seed := range 20000 {
		rng := rand.New(rand.NewPCG(uint64(seed), 2))
		f := math.Pow(10, float64(rng.IntN(13)-6))
		a, b := r2.Vec{X: f * rng.Float64(), Y: f * rng.Float64()}, r2.Vec{X: f * rng.Float64(), Y: f * rng.Float64()}
		k := (rng.Float64() - 0.5) * math.Pow(10, float64(rng.IntN(12)-8))
		// A point on the arc but for rounding: the apex, or the far side's.
		d := r2.Sub(b, a)
		h := k / 2
		if rng.IntN(3) == 0 && math.Abs(k) > 1e-3 {
			h = -1 / (2 * k)
		}
		p := r2.Vec{X: nearby(rng, (a.X+b.X)/2+h*d.Y), Y: nearby(rng, (a.Y+b.Y)/2-h*d.X)}
		want := ratSide(a, b, k, p)
		require.Equal(t, want, ArcSide(a, b, k, p), "seed %d", seed)
		require.Equal(t, -want, ArcSide(b, a, -k, p))
		c := r2.Sub(r2.Scale(0.5, r2.Add(a, b)), r2.Scale((1/k-k)/4, r2.Vec{X: d.Y, Y: -d.X}))
		plain := sign(r2.Norm(r2.Sub(p, c)) - r2.Norm(r2.Sub(a, c)))
		if k < 0 {
			plain = -plain
		}
		if plain != want {
			naive++
		}
	}
	assert.Greater(t, naive, 1000)
}

func TestSmallAndLarge(t *testing.T) {
	for _, f := range []float64{5e-324, 1e-300, 1e-150, 1, 1e150, 1e300} {
		a, b := r2.Vec{}, r2.Vec{X: 4 * f, Y: 2 * f}
		assert.Equal(t, 0, Orient(a, b, r2.Vec{X: 2 * f, Y: f}))
		assert.Equal(t, 1, Orient(a, b, r2.Vec{X: 2 * f, Y: 2 * f}))
		assert.Equal(t, -1, Orient(a, b, r2.Vec{X: 2 * f}))
		assert.Equal(t, 0, ArcSide(a, r2.Vec{X: 2 * f}, 1, r2.Vec{X: f, Y: -f}))
		assert.Equal(t, 1, ArcSide(a, r2.Vec{X: 2 * f}, 1, r2.Vec{X: f, Y: -2 * f}))
		assert.Equal(t, -1, ArcSide(a, r2.Vec{X: 2 * f}, 1, r2.Vec{X: f}))
	}
}

func BenchmarkOrient(b *testing.B) {
	p := []r2.Vec{{}, {X: 3, Y: 1}, {X: 1, Y: 2}}
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			Orient(p[0], p[1], p[2])
		}
	})
	q := r2.Vec{X: 0.3 * 3, Y: 0.3}
	b.Run("exact", func(b *testing.B) {
		for b.Loop() {
			Orient(p[0], p[1], q)
		}
	})
}
