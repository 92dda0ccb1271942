package num_test

import (
	"math"
	"math/big"
	"testing"

	"example.com/sagitta/internal/num"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// What lies half way in decimals rounds away from 0, whatever its last bits are.
func TestHalfRoundsAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		decimals := rapid.IntRange(0, 4).Draw(t, "decimals")
		whole := rapid.Int64Range(0, 30_000_000).Draw(t, "whole")
		half := big.NewRat(2*whole+1, 2*int64(math.Pow10(decimals)))
		x, _ := half.Float64()
		up, _ := new(big.Rat).SetFrac64(whole+1, int64(math.Pow10(decimals))).Float64()
		for range rapid.IntRange(0, 8).Draw(t, "bits") {
			x = math.Nextafter(x, math.Inf(rapid.SampledFrom([]int{-1, 1}).Draw(t, "way")))
		}
		assert.Equal(t, up, num.Decimals(x, decimals))
		assert.Equal(t, -up, num.Decimals(-x, decimals))
	})
}

// A rounded number is near the one that it was, a multiple of its step, and
// rounds to itself.
func TestRoundIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e4, 1e4).Draw(t, "x")
		step := math.Ldexp(1, -rapid.IntRange(0, 24).Draw(t, "step"))
		y := num.Round(x, step)
		assert.LessOrEqual(t, math.Abs(x-y), 0.5002*step)
		assert.Equal(t, y, math.Round(y/step)*step)
		assert.Equal(t, y, num.Round(y, step))
	})
}

// Ten digits hold a length to 1e-7 mm and an area to 1e-4 mm².
func TestDigits(t *testing.T) {
	for x, want := range map[float64]float64{
		646996.9671587903: 646996.9672, 766.449035431: 766.4490354, 0.5: 0.5, 3.2e-9: 0, 0: 0, -1449.9999999996: -1450, 1.23456789e-4: 1.2346e-4,
	} {
		assert.Equal(t, want, num.Digits(x, 10, 8))
	}
	for _, x := range []float64{math.Inf(1), math.MaxFloat64, 5e-324, math.Copysign(0, -1), math.NaN()} {
		assert.NotPanics(t, func() { num.Digits(x, 10, 8); num.Decimals(x, 3); num.Round(x, 0); num.Round(x, x) })
	}
	assert.False(t, math.Signbit(num.Decimals(-1e-9, 3)))
}
