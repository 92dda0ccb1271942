package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// closeStrip bends a strip of the board as it truly is until every kerf is
// closed, and measures the radius of the circle its flats touch at their
// middles, through three of them.
func closeStrip(t require.TestingT, true_ Board, n int, pitch float64) float64 {
	b := Blank{Board: true_, Length: float64(n) * pitch}
	for i := range n {
		b.Kerfs = append(b.Kerfs, Kerf{At: (float64(i) + 0.5) * pitch, Turn: true_.ClosingAngle()})
	}
	s, err := Refold(b, r2.Vec{}, 0)
	require.NoError(t, err)
	mid := func(i int) r2.Vec { // of the show face of flat i
		q := s.Show.Segment(2 * i)
		return r2.Scale(0.5, r2.Add(q.A, q.B))
	}
	p, q, r := mid(1), mid(2), mid(3)
	a, c, d := r2.Norm(r2.Sub(p, q)), r2.Norm(r2.Sub(q, r)), r2.Norm(r2.Sub(r, p))
	area := math.Abs(r2.Cross(r2.Sub(q, p), r2.Sub(r, p))) / 2
	return a * c * d / (4 * area)
}

// A strip cut with a kerf wider than set gives that width back.
func TestCalibrateWidth(t *testing.T) {
	set := Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}
	for _, w := range []float64{3.0, 3.2, 3.35} {
		is := set
		is.KerfWidth = w
		s := StripTest{Board: set, Pitch: 30, Radius: closeStrip(t, is, 7, 30)}
		a, err := s.ClosingAngle()
		require.NoError(t, err)
		// The width barely enters the angle that a radius tells.
		assert.InDelta(t, float64(is.ClosingAngle()), float64(a), 1e-3*float64(a))
		c, err := Calibrate(s)
		require.NoError(t, err)
		assert.InDelta(t, w, c.KerfWidth, 5e-3)
		assert.Zero(t, c.WebError)
	}
}

// Lifts of single kerfs in boards of two thicknesses give width and web.
func TestCalibrateBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dw := rapid.Float64Range(-0.3, 0.3).Draw(t, "dw")
		db := rapid.Float64Range(-0.5, 0.5).Draw(t, "db")
		var tests []StripTest
		for _, thickness := range []float64{12, 19, 25} {
			set := Board{Thickness: thickness, KerfWidth: 3.2, Web: 1.6}
			is := Board{Thickness: thickness, KerfWidth: 3.2 + dw, Web: 1.6 + db}
			lift, err := LiftSpacing(500, is.ClosingAngle())
			require.NoError(t, err)
			tests = append(tests, StripTest{Board: set, Lift: lift, Mark: 500})
		}
		c, err := Calibrate(tests...)
		require.NoError(t, err)
		assert.InDelta(t, 3.2+dw, c.KerfWidth, 1e-9)
		assert.InDelta(t, db, c.WebError, 1e-9)
		assert.InDelta(t, 0, c.Residual, 1e-9)

		// A plan for the board as it is closes no kerf that would run together.
		b := c.Apply(Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6, Cutter: Cutter{Width: 3.2}})
		p, err := KerfPlan(sweep(1), b, Limits{})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, p.Mouth, 0.0)
	})
}

func TestCalibrateRefusals(t *testing.T) {
	ok := StripTest{Board: mdf19, Lift: 80, Mark: 500}
	_, err := Calibrate(ok)
	require.NoError(t, err)
	for name, s := range map[string]StripTest{
		"neither":             {Board: mdf19},
		"both":                {Board: mdf19, Lift: 80, Mark: 500, Radius: 200, Pitch: 30},
		"no mark":             {Board: mdf19, Lift: 80},
		"lift beyond mark":    {Board: mdf19, Lift: 501, Mark: 500},
		"no pitch":            {Board: mdf19, Radius: 200},
		"pitch below kerf":    {Board: mdf19, Radius: 200, Pitch: 3},
		"radius out of reach": {Board: mdf19, Radius: 1, Pitch: 30},
		"flat":                {Board: mdf19, Radius: 1e12, Pitch: 30},
		"negative":            {Board: mdf19, Radius: -5, Pitch: 30},
	} {
		_, err := Calibrate(ok, s)
		assert.Error(t, err, name)
	}
	_, err = Calibrate()
	assert.ErrorIs(t, err, ErrRange)
	other := ok
	other.Board.KerfWidth = 4
	_, err = Calibrate(ok, other)
	assert.ErrorIs(t, err, ErrRange)
	// Contradicting strips whose webs come out below nothing.
	thick := StripTest{Board: Board{Thickness: 40, KerfWidth: 3.2, Web: 1.6}, Lift: 20, Mark: 500}
	_, err = Calibrate(StripTest{Board: mdf19, Lift: 200, Mark: 500}, thick)
	assert.ErrorIs(t, err, ErrRange)
}

// The strip's printed radius, chord and sag are those of the strip refolded.
func TestStripClosesAsTold(t *testing.T) {
	for _, sense := range []float64{-1, 1} {
		p, err := KerfPlan(sweep(sense), mdf19, common)
		require.NoError(t, err)
		s, err := p.TestStrip()
		require.NoError(t, err)
		assert.InDelta(t, p.Pitch, s.Pitch, 1e-9)
		n := len(s.Slots)
		assert.GreaterOrEqual(t, n, 5)
		assert.GreaterOrEqual(t, s.Turn.Degrees(), 60.0)
		assert.InDelta(t, closeStrip(t, mdf19, n, s.Pitch), s.Radius, 1e-9*s.Radius)
		a, err := arc.FromChordSag(s.Chord, s.Sag)
		require.NoError(t, err)
		assert.InDelta(t, s.Radius, a.Radius(), 1e-9*s.Radius)
		assert.InDelta(t, float64(s.Turn), float64(a.Turn()), 1e-9)

		box := s.Outline.Bounds()
		for i, slot := range s.Slots {
			b := slot.Bounds()
			assert.InDelta(t, mdf19.KerfWidth*box.Max.Y, slot.Area(), 1e-9)
			assert.Greater(t, b.Min.X, stripGrip)
			assert.Less(t, b.Max.X, box.Max.X-stripGrip)
			assert.InDelta(t, s.Centers[i].V[0].P.X, (b.Min.X+b.Max.X)/2, 1e-9)
		}
		// Measured as predicted, it corrects nothing.
		c, err := Calibrate(StripTest{Board: mdf19, Pitch: s.Pitch, Radius: s.Radius})
		require.NoError(t, err)
		assert.InDelta(t, mdf19.KerfWidth, c.KerfWidth, 1e-9)
	}
	_, err := Plan{Board: mdf19}.TestStrip()
	assert.ErrorIs(t, err, ErrRange)
}
