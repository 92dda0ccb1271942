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
	return bentStrip(t, true_, n, pitch, true_.ClosingAngle())
}

// bentStrip does so with kerfs turned by an angle, below 0 opening.
func bentStrip(t require.TestingT, true_ Board, n int, pitch float64, turn arc.Angle) float64 {
	b := Blank{Board: true_, Length: float64(n) * pitch}
	for i := range n {
		b.Kerfs = append(b.Kerfs, Kerf{At: (float64(i) + 0.5) * pitch, Turn: turn})
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

// Every stage of a strip is what the strip measures when it is bent back from
// its kerfs alone, in the direction of its panel, whose own bend comes first.
func TestStripStages(t *testing.T) {
	for _, sense := range []float64{-1, 1} {
		p, err := KerfPlan(sweep(sense), mdf19, common)
		require.NoError(t, err)
		s, err := p.TestStrip()
		require.NoError(t, err)
		assert.Equal(t, p.Kerfs[0].Turn < 0, s.Opens)
		assert.InDelta(t, p.Pitch, s.Pitch, 1e-9)
		n := len(s.Slots)
		assert.GreaterOrEqual(t, n, 5)
		require.Len(t, s.Stages, 4)
		assert.InDelta(t, math.Abs(float64(p.Kerfs[0].Turn)), float64(s.Stages[0].Kerf), 1e-15)
		assert.InDelta(t, p.Strain, s.Stages[0].Strain, 1e-12)
		assert.GreaterOrEqual(t, s.Stages[0].Turn.Degrees(), 15.0)
		for i, g := range s.Stages {
			assert.InEpsilon(t, bentStrip(t, mdf19, n, s.Pitch, arc.Angle(math.Copysign(float64(g.Kerf), float64(p.Kerfs[0].Turn)))), g.Radius, 1e-9)
			a, err := arc.FromChordSag(g.Chord, g.Sag)
			require.NoError(t, err)
			assert.InEpsilon(t, g.Radius, a.Radius(), 1e-9)
			assert.InDelta(t, float64(g.Turn), float64(a.Turn()), 1e-9)
			assert.False(t, g.Closed)
			// Its strain is that of the kerf plan of a panel bent so.
			got, err := StripBend{Board: mdf19, Pitch: s.Pitch, Radius: g.Radius, Opens: s.Opens}.Strain()
			require.NoError(t, err)
			assert.InEpsilon(t, mdf19.Web*float64(g.Kerf)/(2*mdf19.KerfWidth), got, 1e-9)
			assert.InEpsilon(t, g.Strain, got, 1e-9)
			if i > 0 {
				assert.Less(t, g.Radius, s.Stages[i-1].Radius)
			}
		}

		box := s.Outline.Bounds()
		for i, slot := range s.Slots {
			b := slot.Bounds()
			assert.InDelta(t, mdf19.KerfWidth*box.Max.Y, slot.Area(), 1e-9)
			assert.Greater(t, b.Min.X, stripGrip)
			assert.Less(t, b.Max.X, box.Max.X-stripGrip)
			assert.InDelta(t, s.Centers[i].V[0].P.X, (b.Min.X+b.Max.X)/2, 1e-9)
		}
	}
	_, err := Plan{Board: mdf19}.TestStrip()
	assert.ErrorIs(t, err, ErrRange)
}

// A bow near closing ends with its kerfs closed, which calibrates it; the same
// curve hollow has nothing to close.
func TestStripClosesWhereThePanelNearlyDoes(t *testing.T) {
	board := Board{Thickness: 25, KerfWidth: 2.2, Web: 1.8}
	for _, sense := range []float64{-1, 1} {
		a, err := arc.FromChordRadius(160*math.Sqrt2, 160, false)
		require.NoError(t, err)
		profile := arc.Path{V: []arc.Vertex{arc.V(160, 0, sense*a.K()), arc.V(0, 160, 0)}}
		p, err := KerfPlan(profile, board, Limits{Facet: 0.25})
		require.NoError(t, err)
		s, err := p.TestStrip()
		require.NoError(t, err)
		last := s.Stages[len(s.Stages)-1]
		assert.Equal(t, sense > 0, last.Closed)
		if sense < 0 {
			continue
		}
		assert.InEpsilon(t, closeStrip(t, board, len(s.Slots), s.Pitch), last.Radius, 1e-9)
		c, err := Calibrate(StripTest{Board: board, Pitch: s.Pitch, Radius: last.Radius})
		require.NoError(t, err)
		assert.InDelta(t, board.KerfWidth, c.KerfWidth, 1e-9)
	}
}

func TestStripBendRefuses(t *testing.T) {
	ok := StripBend{Board: mdf19, Pitch: 30, Radius: 1500}
	_, err := ok.Strain()
	require.NoError(t, err)
	for _, v := range []float64{0, math.Copysign(0, -1), -1, math.NaN(), math.Inf(1), 1e300, 5e-324} {
		for _, s := range []StripBend{{mdf19, v, 1500, true}, {mdf19, 30, v, false}, {Board{19, v, 1.6, Flat, 0, Cutter{}}, 30, 1500, false}} {
			_, err := s.Strain()
			assert.Error(t, err, "%v", s)
		}
	}
	_, err = StripBend{Board: mdf19, Pitch: 3.2, Radius: 100}.Strain()
	assert.ErrorIs(t, err, ErrRange)
}
