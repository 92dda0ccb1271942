package num

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestRootClosedForms(t *testing.T) {
	for _, c := range []struct {
		name    string
		f       func(float64) float64
		a, b, x float64
	}{
		{"line", func(x float64) float64 { return 3*x - 1 }, -7, 5, 1. / 3},
		{"falling line", func(x float64) float64 { return 1 - 3*x }, -7, 5, 1. / 3},
		{"sine", math.Sin, 2, 4, math.Pi},
		{"cosine, ends swapped", math.Cos, 3, 0, math.Pi / 2},
		{"cube root of 2", func(x float64) float64 { return x*x*x - 2 }, 0, 1e3, math.Cbrt(2)},
		{"steep", func(x float64) float64 { return math.Expm1(50 * (x - 0.7)) }, 0, 10, 0.7},
		{"flat", func(x float64) float64 { return math.Pow(x-0.25, 9) }, -1, 2, 0.25},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.125) }, -1, 3, 0.125},
		{"root at an end", func(x float64) float64 { return x }, 0, 1, 0},
		{"root at the other end", func(x float64) float64 { return x - 1 }, 0, 1, 1},
	} {
		x, err := Root(c.f, c.a, c.b, 1e-12)
		assert.NoError(t, err, c.name)
		assert.InDelta(t, c.x, x, 1e-12, c.name)
	}
}

func TestRootFaults(t *testing.T) {
	square := func(x float64) float64 { return x*x + 1 }
	_, err := Root(square, -1, 1, 1e-9)
	assert.ErrorIs(t, err, ErrBracket)
	line := func(x float64) float64 { return x - 0.1 }
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, args := range [][3]float64{{v, 1, 1e-9}, {0, v, 1e-9}, {0, 1, v}} {
			_, err := Root(line, args[0], args[1], args[2])
			assert.True(t, errors.Is(err, ErrNotFinite), "%v", args)
		}
	}
	_, err = Root(func(x float64) float64 { return 1/(x-0.5) + math.Sqrt(x-0.9) }, 0, 1, 1e-9)
	assert.ErrorIs(t, err, ErrNotFinite)
	x, err := Root(line, 0, 1, 0)
	assert.NoError(t, err, "no tolerance asks for all float64 can give")
	assert.InDelta(t, 0.1, x, 1e-16)
}

// The worst case of ITP is a step or two more than bisection.
func TestRootCalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := rapid.Float64Range(0.001, 0.999).Draw(t, "root")
		power := rapid.SampledFrom([]float64{1, 3, 5, 15}).Draw(t, "power")
		calls := 0
		x, err := Root(func(x float64) float64 {
			calls++
			return math.Copysign(math.Pow(math.Abs(x-root), power), x-root)
		}, 0, 1, 1e-9)
		if err != nil || math.Abs(x-root) > 1e-9 && power < 15 {
			t.Fatalf("got %v, %v for %v", x, err, root)
		}
		if most := 2 + 29 + 2; calls > most {
			t.Fatalf("%d calls, bisection takes %d", calls, most-2)
		}
	})
}
