package bend

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// The invariants of kerf plans, one a test; oneArc and draws, in
// property_test.go, draw the profiles.

// boards draws a board that a kerfed panel may be made of.
func boards(t *rapid.T) Board {
	thick := rapid.Float64Range(6, 25).Draw(t, "thickness")
	return Board{
		Thickness: thick,
		KerfWidth: rapid.Float64Range(1.5, 8).Draw(t, "kerf"),
		Web:       rapid.Float64Range(0.05, 0.3).Draw(t, "web/thickness") * thick,
	}
}

// plans draws a profile, a board and limits that have a plan.
func plans(t *rapid.T, profile arc.Path) (Plan, Board) {
	b := boards(t)
	p, err := KerfPlan(profile, b, Limits{Facet: rapid.Float64Range(0.05, 2).Draw(t, "facet")})
	if err != nil {
		t.Skip(err)
	}
	return p, b
}

func TestKerfTurnsAddUpToTheProfilesTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile := draws(t)
		p, _ := plans(t, profile)
		want, got := 0.0, 0.0
		for i := range profile.NumSegments() {
			want += float64(profile.Segment(i).Angle())
		}
		for _, k := range p.Kerfs {
			got += float64(k.Turn)
		}
		assert.InDelta(t, want, got, 1e-11)
	})
}

// The blank of one arc is as long as its neutral arc, and longer by no more
// than the facets stand off along the turn.
func TestFlatLengthLiesBetweenNeutralArcAndFacets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile := oneArc(t)
		p, b := plans(t, profile)
		s := profile.Segment(0)
		turn := math.Abs(float64(s.Angle()))
		neutral := s.Radius() - math.Copysign(b.Web/2, s.K)
		tol := 1e-12 * p.FlatLength
		assert.GreaterOrEqual(t, p.FlatLength, neutral*turn-tol)
		assert.LessOrEqual(t, p.FlatLength, (neutral+p.Facet)*turn+tol)
	})
}

func TestMoreKerfsAreNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile, b := oneArc(t), boards(t)
		loose := rapid.Float64Range(0.1, 2).Draw(t, "facet")
		p, err := KerfPlan(profile, b, Limits{Facet: loose})
		q, errq := KerfPlan(profile, b, Limits{Facet: loose * rapid.Float64Range(0.3, 1).Draw(t, "share")})
		if err != nil || errq != nil {
			t.Skip()
		}
		require.GreaterOrEqual(t, len(q.Kerfs), len(p.Kerfs))
		assert.LessOrEqual(t, q.Facet, p.Facet*(1+1e-12))
		assert.LessOrEqual(t, q.Strain, p.Strain*(1+1e-12))
		if profile.V[0].K > 0 { // closing kerfs stay farther from closed
			assert.GreaterOrEqual(t, q.Mouth, p.Mouth-1e-12)
		}
	})
}

func TestScaledBoardAndCurveScaleThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile, b := draws(t), boards(t)
		lim := Limits{Facet: 0.3}
		f := math.Ldexp(1, rapid.IntRange(-6, 6).Draw(t, "log2 scale")) // exact, so that no count can tip
		p, err := KerfPlan(profile, b, lim)
		q, errq := KerfPlan(profile.Transform(arc.Scale(f)), Board{Thickness: b.Thickness * f, KerfWidth: b.KerfWidth * f, Web: b.Web * f}, Limits{Facet: lim.Facet * f})
		require.Equal(t, err == nil, errq == nil)
		if err != nil {
			t.Skip()
		}
		require.Len(t, q.Kerfs, len(p.Kerfs))
		tol := 1e-9 * p.FlatLength
		assert.InDelta(t, p.FlatLength, q.FlatLength/f, tol)
		assert.InDelta(t, p.Strain, q.Strain, 1e-12)
		assert.InDelta(t, p.Facet, q.Facet/f, 1e-9)
		for i, k := range p.Kerfs {
			require.InDelta(t, k.At, q.Kerfs[i].At/f, tol)
			require.InDelta(t, float64(k.Turn), float64(q.Kerfs[i].Turn), 1e-9)
		}
	})
}

// No kerf turns more than it may, one kerf fewer would, and a limit that the
// plan keeps anyhow changes nothing.
func TestTurnLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile, b := oneArc(t), boards(t)
		free, err := KerfPlan(profile, b, Limits{Facet: 2})
		if err != nil {
			t.Skip()
		}
		least := math.Abs(float64(free.Bends[0].Turn))
		lim := Limits{Facet: 2, Turn: arc.Angle(least * rapid.Float64Range(0.2, 1.5).Draw(t, "share"))}
		p, err := KerfPlan(profile, b, lim)
		if err != nil {
			assert.ErrorIs(t, err, ErrNoRoom)
			assert.ErrorContains(t, err, "Limits.Turn")
			t.Skip()
		}
		bend := p.Bends[0]
		assert.LessOrEqual(t, math.Abs(float64(bend.Turn)), float64(lim.Turn)*(1+1e-11))
		if float64(lim.Turn) >= least {
			assert.Equal(t, free.Kerfs, p.Kerfs)
			return
		}
		total := math.Abs(float64(profile.Segment(0).Angle()))
		assert.Equal(t, TurnLimit, bend.Limit)
		assert.Greater(t, total/float64(bend.Count-1), float64(lim.Turn))
	})
}
