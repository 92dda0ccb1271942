package say

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

var (
	metric = Format{}
	inch   = Format{Unit: arc.Inches}
	fine   = Format{Unit: arc.Inches, Fraction: 64}
)

func TestWhatPeopleRead(t *testing.T) {
	for want, got := range map[string]string{
		"1050.9 mm":          metric.Length(1050.93),
		"19 mm":              metric.Length(19.049999999999997 - 0.01),
		"19.1 mm":            metric.Length(19.06),
		"0 mm":               metric.Length(-0.04),
		"41 3/8 in":          inch.Length(41.375 * 25.4),
		"41 23/64 in":        fine.Length(41.359375 * 25.4),
		"-1/2 in":            inch.Length(-12.7),
		"0 in":               inch.Length(-0.1),
		"820 × 290 mm":       metric.Size(820, 290),
		"32 1/4 × 11 3/8 in": inch.Size(32.25*25.4, 11.375*25.4),
		"1.59 mm":            metric.Thin(1.5875),
		"0.063 in":           inch.Thin(1.5875),
		"closed":             metric.Gap(1e-9),
		"0.09 mm":            metric.Gap(0.0912),
		"0.004 in":           inch.Gap(0.0912),
		"12.3 kg":            metric.Mass(12.34),
		"27.2 lb (12.3 kg)":  inch.Mass(12.34),
		"120 N":              metric.Force(120.2),
		"27 lbf":             inch.Force(120.2),
		"2400 mm/min":        metric.Feed(2400),
		"94 in/min":          inch.Feed(2400),
		"12.4 m":             metric.Run(12444),
		"40.8 ft":            inch.Run(12444),
		"22.5°":              Saw(22.46 * arc.Degree),
		"22.46°":             Program(22.46 * arc.Degree),
		"38.3":               metric.Place(38.29),
		"1.507":              inch.Place(38.29),
		"262.4 mm":           metric.Down(262.49),
		"262.5 mm":           metric.Up(262.41),
		"18 mm":              metric.Down(18 - 1e-12),
		"1.58 mm":            metric.Down(1.5875),
		"0.062 in":           inch.Down(1.5875),
		"3/4 in":             inch.Down(19.049999999999997),
		"11/16 in":           inch.Down(17.5),
		"23/32 in":           inch.Up(17.5),
	} {
		assert.Equal(t, want, got)
	}
	assert.Equal(t, 0.75, inch.Value(19.049999999999997))
	assert.Equal(t, 19.05, metric.Value(19.049999999999997))
}

// What is written reads back within half a step, and a limit never on the wrong
// side of what it limits.
func TestReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mm := rapid.Float64Range(0.01, 9000).Draw(r, "mm")
		f := rapid.SampledFrom([]Format{metric, inch, fine}).Draw(r, "format")
		step := ruled
		if f.inches() {
			step = arc.Inch / float64(f.fraction())
		}
		read := func(text string) float64 {
			got, err := arc.ParseLength(text, f.Unit)
			require.NoError(r, err, text)
			return got
		}
		assert.InDelta(r, mm, read(f.Length(mm)), step/2+1e-9)
		least := step
		if mm < small {
			least = gauged
			if f.inches() {
				least = mils
			}
		}
		down, up := read(f.Down(mm)), read(f.Up(mm))
		assert.True(r, down <= mm*(1+1e-9)+1e-9 && down > mm-least-1e-6, "%v: %v", mm, down)
		assert.True(r, up >= mm*(1-1e-9)-1e-9 && up < mm+least+1e-6, "%v: %v", mm, up)
	})
}

// No text holds more digits than a hand can work to, and none is of the other
// unit, whatever is written.
func TestNoNoise(t *testing.T) {
	noise := regexp.MustCompile(`\.\d{4}|e[-+]\d`)
	values := []float64{0, math.Copysign(0, -1), math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, 1e300, -1, 19.049999999999997, 0.1 + 0.2}
	for _, x := range values {
		for _, f := range []Format{metric, inch, fine, {Unit: arc.Inches, Fraction: -7}} {
			texts := []string{f.Length(x), f.Size(x, x), f.Thin(x), f.Gap(x), f.Place(x), f.Down(x), f.Up(x), f.Feed(x), f.Run(x), Saw(arc.Angle(x)), Program(arc.Angle(x))}
			for _, text := range texts {
				assert.NotEmpty(t, text)
				assert.False(t, noise.MatchString(text), text)
				assert.False(t, strings.HasPrefix(text, "-0 "), text)
				if f.inches() {
					assert.NotContains(t, text, "mm")
				} else {
					assert.NotContains(t, text, " in")
				}
			}
		}
	}
}
