package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// Over a round floor the web is b + R − √(R²−x²) thick; its curvature under
// one moment goes with the third power of b over that.
func TestRoundBottomBendWidth(t *testing.T) {
	for _, web := range []float64{0.01, 0.1, 0.8, 3, 100} {
		b := Board{Thickness: web + 8, KerfWidth: 6, Web: web, Bottom: Round}
		sum, n := 0.0, 2_000_000
		for i := range n { // midpoint rule
			x := 3 * (2*(float64(i)+0.5)/float64(n) - 1)
			sum += math.Pow(web/(web+3-math.Sqrt(9-x*x)), 3) * 6 / float64(n)
		}
		assert.InDelta(t, sum, b.BendWidth(), 1e-6*sum, "web %v", web)
	}
	flat := Board{Thickness: 18, KerfWidth: 3, Web: 2}
	assert.Equal(t, 3.0, flat.BendWidth())
}

// A round floor strains a web more than a flat one of the same width, and
// still lands.
func TestRoundBottomPlan(t *testing.T) {
	b := mdf19
	b.Bottom = Round
	flat, err := KerfPlan(sweep(-1), mdf19, common)
	require.NoError(t, err)
	p, err := KerfPlan(sweep(-1), b, common)
	require.NoError(t, err)
	checkPlan(t, sweep(-1), p, common)
	perKerf := func(p Plan) float64 { return p.Strain * float64(len(p.Kerfs)) }
	assert.Greater(t, perKerf(p), perKerf(flat))
	s := refold(t, p, sweep(-1))
	slot := (19-1.6-1.6)*3.2 + math.Pi*1.6*1.6/2
	want := p.FlatLength*19 - float64(len(p.Kerfs))*slot
	assert.InDelta(t, want, s.Outline.Area(), 1e-3*want)
}

// The closing angle is that at which the corners of the refolded kerf meet,
// over either floor.
func TestClosingAngleMeets(t *testing.T) {
	for _, bottom := range []Bottom{Flat, Round} {
		for _, b := range []Board{{Thickness: 19, KerfWidth: 3.2, Web: 1.6}, {Thickness: 9, KerfWidth: 6, Web: 0.5}, {Thickness: 40, KerfWidth: 2, Web: 3}} {
			b.Bottom = bottom
			s, err := Refold(Blank{b, 100, []Kerf{{At: 50, Turn: b.ClosingAngle()}}}, r2.Vec{}, 0)
			require.NoError(t, err)
			assert.InDelta(t, 0, s.Mouths[0], 1e-12, "%v %+v", bottom, b)
		}
	}
}

func TestBoardRefusals(t *testing.T) {
	for _, c := range []struct {
		name string
		b    Board
		kind error
	}{
		{"skew", Board{Thickness: 19, KerfWidth: 3, Web: 2, Skew: 3 * arc.Degree}, ErrSkew},
		{"web as thick as the board", Board{Thickness: 2, KerfWidth: 3, Web: 2}, ErrRange},
		{"kerf narrower than the blade", Board{Thickness: 19, KerfWidth: 2, Web: 2, Cutter: Cutter{Width: 3}}, ErrCutter},
		{"deeper than the blade", Board{Thickness: 19, KerfWidth: 3, Web: 2, Cutter: Cutter{Depth: 16}}, ErrCutter},
		{"round cutter wider than twice the depth", Board{Thickness: 3, KerfWidth: 6, Web: 1, Bottom: Round}, ErrRange},
		{"no such bottom", Board{Thickness: 3, KerfWidth: 6, Web: 1, Bottom: 7}, ErrRange},
		{"zero", Board{}, ErrRange},
	} {
		assert.ErrorIs(t, c.b.Check(), c.kind, c.name)
	}
	assert.NoError(t, Board{Thickness: 19, KerfWidth: 3, Web: 2, Cutter: Cutter{Width: 3, Depth: 17}}.Check())
}

func TestProfileRefusals(t *testing.T) {
	square := arc.Rect(0, 0, 10, 10)
	_, err := KerfPlan(square, mdf19, common)
	assert.ErrorIs(t, err, ErrClosed)
	square.Closed = false
	_, err = KerfPlan(square, mdf19, common)
	assert.ErrorIs(t, err, ErrCorner)
	_, err = KerfPlan(arc.Path{V: []arc.Vertex{arc.V(1, 1, 0), arc.V(1, 1, 0)}}, mdf19, common)
	assert.ErrorIs(t, err, ErrRange)
	_, err = KerfPlan(arc.Path{}, mdf19, common)
	assert.Error(t, err)
	_, err = KerfPlan(arc.Path{V: make([]arc.Vertex, maxSegments+2)}, mdf19, common)
	assert.ErrorIs(t, err, ErrTooMany)
	_, err = KerfPlan(sweep(1), Board{Thickness: 1e-4, KerfWidth: 1e-6, Web: 1e-5}, Limits{Facet: 1e-12})
	assert.Error(t, err, "millions of kerfs")
	_, err = KerfPlan(sweep(-1), Board{Thickness: 1, KerfWidth: 0.01, Web: 0.001}, Limits{Facet: 1e-8})
	assert.ErrorIs(t, err, ErrTooMany)
}

// A profile read from a drawing has its corners rounded to four decimals.
func TestRoundedProfile(t *testing.T) {
	p := chain(r2.Vec{X: 540, Y: 140}, 1.7, []float64{60, 300, 250, 200, 30}, []float64{0, -0.3, -0.3, 0.2, 0})
	for i := range p.V {
		v := &p.V[i]
		v.P.X, v.P.Y, v.K = math.Round(v.P.X*1e4)/1e4, math.Round(v.P.Y*1e4)/1e4, math.Round(v.K*1e6)/1e6
	}
	_, err := KerfPlan(p, mdf19, common)
	require.ErrorIs(t, err, ErrCorner)
	lim := common
	lim.Corner = 1e-4
	plan, err := KerfPlan(p, mdf19, lim)
	require.NoError(t, err)
	s := refold(t, plan, p)
	landed(t, p, s.Show)
	assert.LessOrEqual(t, farthest(s.Show, p), lim.Facet+1e-9)
	assert.LessOrEqual(t, farthest(p, s.Show), lim.Facet+1e-9)
}

// A slight corner in a straight is made up for by the kerfs on both sides of
// it; in a straight at the end of the profile it is refused.
func TestKinkedStraight(t *testing.T) {
	p := chain(r2.Vec{}, 0, []float64{300, 100, 100, 300}, []float64{0.3, 0, 0, -0.3})
	p.V[2].P.Y += 1e-3
	lim := common
	lim.Corner = 1e-4
	plan, err := KerfPlan(p, mdf19, lim)
	require.NoError(t, err)
	landed(t, p, refold(t, plan, p).Show)
	p = chain(r2.Vec{}, 0, []float64{300, 100, 100}, []float64{0.3, 0, 0})
	p.V[2].P.Y += 1e-3
	_, err = KerfPlan(p, mdf19, lim)
	assert.ErrorIs(t, err, ErrCorner)
}

func TestRefoldRefusals(t *testing.T) {
	ok := Blank{mdf19, 100, []Kerf{{At: 20, Turn: 0.01}, {At: 50, Turn: -0.01}}}
	_, err := Refold(ok, r2.Vec{}, 0)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		k    []Kerf
		kind error
	}{
		"out of order":       {[]Kerf{{At: 50}, {At: 20}}, ErrOverlap},
		"overlapping":        {[]Kerf{{At: 50}, {At: 53}}, ErrOverlap},
		"off the start":      {[]Kerf{{At: 1}}, ErrOverlap},
		"off the end":        {[]Kerf{{At: 99}}, ErrOverlap},
		"no radius left":     {[]Kerf{{At: 50, Turn: 4}}, ErrTooTight},
		"not a number":       {[]Kerf{{At: math.NaN()}}, ErrNotFinite},
		"turn not a number":  {[]Kerf{{At: 50, Turn: arc.Angle(math.NaN())}}, ErrNotFinite},
		"turn without bound": {[]Kerf{{At: 50, Turn: arc.Angle(math.Inf(-1))}}, ErrTooTight},
	} {
		_, err := Refold(Blank{mdf19, 100, c.k}, r2.Vec{}, 0)
		assert.ErrorIs(t, err, c.kind, name)
	}
}

// A kerf bent beyond contact shows a mouth below zero.
func TestRefoldShowsOverclosed(t *testing.T) {
	closed := mdf19.KerfWidth / mdf19.arm()
	for _, a := range []float64{closed * 0.99, closed * 1.01} {
		s, err := Refold(Blank{mdf19, 100, []Kerf{{At: 50, Turn: arc.Angle(a)}}}, r2.Vec{}, 0)
		require.NoError(t, err)
		assert.Equal(t, a > closed, s.Mouths[0] < 0)
	}
}
