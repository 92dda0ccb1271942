package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

func must[T any](t testing.TB, v T, err error) T {
	t.Helper()
	require.NoError(t, err)
	return v
}

// Machinery's Handbook, 31st ed., pp. 50 and 78-83, circular segments and
// sectors; what it prints, and the exact value beside it.
func TestMachinerysHandbook(t *testing.T) {
	a, err := arc.FromSagRadius(8, 60) // p. 79: c 59.86
	a = must(t, a, err)
	assert.InDelta(t, 59.86, a.Chord(), 0.01)
	assert.InDelta(t, 59.866518, a.Chord(), 5e-7)

	a, err = arc.FromChordSag(16, 6) // p. 79: R 8 1/3
	a = must(t, a, err)
	assert.InDelta(t, 25.0/3, a.Radius(), 1e-14)
	assert.InDelta(t, 147.479591, a.Turn().Degrees(), 5e-7)
	assert.InDelta(t, 21.450037, a.Length(), 5e-7)
	assert.InDelta(t, 70.708487, a.Area(), 5e-7)

	a, err = arc.FromSagRadius(2, 12) // p. 50: c 13.27, l 14.06, A 18.01
	a = must(t, a, err)
	assert.InDelta(t, 13.27, a.Chord(), 0.005)
	assert.InDelta(t, 13.266499, a.Chord(), 5e-7)
	assert.InDelta(t, 14.06, a.Length(), 0.005)
	assert.InDelta(t, 14.056453, a.Length(), 5e-7)
	assert.InDelta(t, 18.01, a.Area(), 0.005)
	assert.InDelta(t, 18.006222, a.Area(), 5e-7)
	// Printed 67.13°; exactly 67.115°.
	assert.InDelta(t, 67.115, a.Turn().Degrees(), 5e-4)

	a, err = arc.FromRadiusTurn(35, 60*arc.Degree) // p. 78: sector area 641.41
	a = must(t, a, err)
	sector := a.Area() + 35*35*math.Sqrt(3)/4
	assert.InDelta(t, 641.41, sector, 0.005)
	assert.InDelta(t, 641.408500, sector, 5e-7)
	// Printed l 36.645; exactly 36.652.
	assert.InDelta(t, 36.651914, a.Length(), 5e-7)
}

// Hatfield, The American House Carpenter, art. 518: radius 75, chord 120, rise 30.
func TestAmericanHouseCarpenter(t *testing.T) {
	a, err := arc.FromChordRadius(120, 75, false)
	assert.InDelta(t, 30, must(t, a, err).Sag(), 1e-13)
	b, err := arc.FromChordRadius(120, 75, true)
	assert.InDelta(t, 120, must(t, b, err).Sag(), 1e-12, "the rest of the circle")
}

// A railway field book, Table II, to one unit of its last printed digit: a chord of 100 ft,
// degree of curve D: R = 50/sin(D/2), mid-ordinate 50·tan(D/4).
func TestRailwayFieldBook(t *testing.T) {
	for _, c := range []struct{ degree, radius, mid float64 }{
		{1, 5729.6, .218}, {1.5, 3819.8, .327}, {1 + 50.0/60, 3125.4, .400}, {7, 819.0, 1.528},
		{7 + 40.0/60, 747.9, 1.673}, {8 + 20.0/60, 688.2, 1.819}, {9, 637.3, 1.965}, {9.5, 603.8, 2.074},
	} {
		a, err := arc.FromChordTurn(100, arc.Angle(c.degree)*arc.Degree)
		a = must(t, a, err)
		assert.InDelta(t, c.radius, a.Radius(), 0.1)
		assert.InDelta(t, c.mid, a.Sag(), 0.001)
		assert.InDelta(t, a.Sag(), a.Ordinate(50), 1e-13)
	}
}

// Segments of the unit circle by their angle, worked out to 12 digits from
// first principles.
func TestUnitRadius(t *testing.T) {
	for _, c := range []struct{ degrees, length, height, chord, area float64 }{
		{1, 0.0174532925199, 0.0000380769358287, 0.0174530709967, 4.43041329891e-7},
		{10, 0.174532925199, 0.00380530190825, 0.174311485495, 0.000442373766251},
		{30, 0.523598775598, 0.0340741737109, 0.517638090205, 0.0117993877991},
		{60, 1.04719755120, 0.133974596216, 1, 0.0905860737061},
		{90, 1.57079632679, 0.292893218813, 1.41421356237, 0.285398163397},
		{120, 2.09439510239, 0.5, 1.73205080757, 0.614184849304},
		{150, 2.61799387799, 0.741180954897, 1.93185165258, 1.05899693900},
		{180, 3.14159265359, 1, 2, 1.57079632679},
	} {
		a, err := arc.FromRadiusTurn(1, arc.Angle(c.degrees)*arc.Degree)
		a = must(t, a, err)
		assert.InEpsilon(t, c.length, a.Length(), 1e-11)
		assert.InEpsilon(t, c.height, a.Sag(), 1e-11)
		assert.InEpsilon(t, c.chord, a.Chord(), 1e-11)
		assert.InEpsilon(t, c.area, a.Area(), 1e-11)
	}
}

// Chords and sags with whole radii; the rest worked out from first principles.
func TestWholeRadii(t *testing.T) {
	for _, c := range []struct{ chord, sag, radius, degrees, length, area float64 }{
		{24, 8, 13, 134.760270104, 30.5761353845, 138.744879999},
		{30, 5, 25, 73.7397952917, 32.1750554397, 102.188192996},
		{48, 12, 30, 106.260204708, 55.6377130801, 402.565696201},
		{42, 3, 75, 32.5204094166, 42.5691163812, 84.3418642968},
		{96, 4, 290, 19.0545667629, 96.4438289906, 256.355203636},
	} {
		a, err := arc.FromChordSag(c.chord, c.sag)
		a = must(t, a, err)
		assert.InEpsilon(t, c.radius, a.Radius(), 1e-15)
		assert.InEpsilon(t, c.degrees, a.Turn().Degrees(), 1e-11)
		assert.InEpsilon(t, c.length, a.Length(), 1e-11)
		assert.InEpsilon(t, c.area, a.Area(), 1e-11)
	}
}

// The Building Trades Pocketbook, Mensuration: arc ≈ (8e − c)/3, e the chord
// of half the arc. How far off it is was worked out from first principles.
func TestShopRuleForTheLengthOfAnArc(t *testing.T) {
	for degrees, percent := range map[arc.Angle]float64{60: -0.0155, 90: -0.0778, 120: -0.2425} {
		a, err := arc.FromRadiusTurn(300, degrees*arc.Degree)
		a = must(t, a, err)
		half, err := arc.FromRadiusTurn(300, degrees/2*arc.Degree)
		half = must(t, half, err)
		rule := (8*half.Chord() - a.Chord()) / 3
		assert.InDelta(t, percent, 100*(rule/a.Length()-1), 5e-5)
	}
}
