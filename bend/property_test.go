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

// oneArc draws an arc by chord and sag, easy enough for mdf19-like boards.
func oneArc(t *rapid.T) arc.Path {
	chord := rapid.Float64Range(300, 5000).Draw(t, "chord")
	ratio := rapid.Float64Range(0.01, 0.3).Draw(t, "sag/chord")
	sense := rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sense")
	return arc.Path{V: []arc.Vertex{arc.V(0, 0, sense*2*ratio), arc.V(chord, 0, 0)}}
}

var thin = Board{Thickness: 12, KerfWidth: 3, Web: 0.8}

// The closed form for one arc, worked with no spans: pitch = land + w, land =
// 2(N − ρ)tan(a/2), facet (N − ρ)(sec(a/2) − 1).
func TestOneArcClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile := oneArc(t)
		lim := Limits{Facet: rapid.Float64Range(0.05, 1).Draw(t, "facet"), Strain: 0.02}
		p, err := KerfPlan(profile, thin, lim)
		seg := profile.Segment(0)
		phi, sense := math.Abs(float64(seg.Angle())), math.Copysign(1, seg.K)
		neutral := seg.Radius() - sense*thin.Web/2
		at := func(n int) (facet, strain, mouth, land float64) {
			a := phi / float64(n)
			rho := thin.KerfWidth / a
			return (neutral - rho) * (1/math.Cos(a/2) - 1), thin.Web * a / (2 * thin.KerfWidth),
				thin.KerfWidth - sense*a*(thin.Thickness-thin.Web/2), 2 * (neutral - rho) * math.Tan(a/2)
		}
		n := 1
		for ; n < 10000; n++ {
			if f, s, m, _ := at(n); f <= lim.Facet && s <= lim.Strain && m >= 0 && phi/float64(n) <= math.Pi/2 {
				break
			}
		}
		facet, strain, mouth, land := at(n)
		if land < 0 {
			assert.ErrorIs(t, err, ErrNoRoom)
			return
		}
		require.NoError(t, err)
		assert.Len(t, p.Kerfs, n)
		assert.InDelta(t, math.Abs(facet), p.Facet, 1e-9)
		assert.InDelta(t, strain, p.Strain, 1e-12)
		assert.InDelta(t, mouth, p.Mouth, 1e-9)
		assert.InDelta(t, float64(n)*(land+thin.KerfWidth), p.FlatLength, 1e-9*p.FlatLength)
		assert.InDelta(t, (land+thin.KerfWidth)/2, p.Kerfs[0].At, 1e-9*p.FlatLength)
		assert.GreaterOrEqual(t, p.Mouth, 0.0)
	})
}

// With a tighter facet limit come more kerfs, and neither facet nor strain
// grows.
func TestMoreKerfsAreTruer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile := oneArc(t)
		facet := rapid.Float64Range(0.05, 2).Draw(t, "facet")
		p, err := KerfPlan(profile, thin, Limits{Facet: facet})
		q, errq := KerfPlan(profile, thin, Limits{Facet: facet * 0.8})
		if err != nil || errq != nil {
			assert.True(t, err == nil || errq != nil, "a looser limit is refused: %v", err)
			return
		}
		assert.GreaterOrEqual(t, len(q.Kerfs), len(p.Kerfs))
		assert.LessOrEqual(t, q.Facet, p.Facet*(1+1e-9))
		assert.LessOrEqual(t, q.Strain, p.Strain*(1+1e-9))
		assert.Greater(t, q.Pitch*p.Pitch, 0.0)
		assert.LessOrEqual(t, q.Pitch, p.Pitch*(1+1e-9))
	})
}

func draws(t *rapid.T) arc.Path {
	n := rapid.IntRange(1, 6).Draw(t, "arcs")
	l, turn := make([]float64, n), make([]float64, n)
	for i := range n {
		radius := math.Exp(rapid.Float64Range(math.Log(300), math.Log(5000)).Draw(t, "radius"))
		turn[i] = rapid.Float64Range(0.05, 0.9).Draw(t, "turn")
		l[i] = radius * turn[i]
		turn[i] *= rapid.SampledFrom([]float64{-1, 0, 1}).Draw(t, "sense")
	}
	return chain(r2.Vec{}, 0, l, turn)
}

// Moved, turned, run backwards and scaled, a plan is the same plan.
func TestPlanDoesNotCareWhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		profile := draws(t)
		lim := Limits{Facet: 0.3, Land: 1}
		p, err := KerfPlan(profile, thin, lim)
		moved := profile.Transform(arc.Rotate(arc.Angle(rapid.Float64Range(0, 6).Draw(t, "turned"))).Then(arc.Shift(r2.Vec{X: 1e4, Y: -3e3})))
		q, errq := KerfPlan(moved, thin, lim)
		require.Equal(t, err == nil, errq == nil)
		f := rapid.SampledFrom([]float64{1e-3, 0.1, 1 / arc.Inch, 1e3}).Draw(t, "scale")
		sb := Board{Thickness: thin.Thickness * f, KerfWidth: thin.KerfWidth * f, Web: thin.Web * f}
		s, errs := KerfPlan(profile.Transform(arc.Scale(f)), sb, Limits{Facet: lim.Facet * f, Land: lim.Land * f})
		require.Equal(t, err == nil, errs == nil)
		// Backwards the board would lie on the other side; mirrored as well it
		// is the same panel from its other end.
		m, errm := KerfPlan(profile.Transform(arc.MirrorX()).Reverse(), thin, lim)
		require.Equal(t, err == nil, errm == nil)
		if err != nil {
			return
		}
		require.Len(t, q.Kerfs, len(p.Kerfs))
		require.Len(t, s.Kerfs, len(p.Kerfs))
		require.Len(t, m.Kerfs, len(p.Kerfs))
		tol := 1e-8 * p.FlatLength
		for i, k := range p.Kerfs {
			require.InDelta(t, k.At, q.Kerfs[i].At, tol)
			require.InDelta(t, k.At, s.Kerfs[i].At/f, tol)
			require.InDelta(t, p.FlatLength-k.At, m.Kerfs[len(p.Kerfs)-1-i].At, tol)
			require.InDelta(t, float64(k.Turn), float64(s.Kerfs[i].Turn), 1e-9)
		}
	})
}

// A cove and a bow of one arc differ only by the web and the thickness; as
// both and the kerf go to zero, they become the same plan.
func TestCoveAndBowMeet(t *testing.T) {
	prev := math.Inf(1)
	for _, f := range []float64{1, 0.1, 0.01, 0.001} {
		b := Board{Thickness: 2 * f, KerfWidth: 2 * f, Web: 0.2 * f}
		cove, err := KerfPlan(sweep(-1), b, Limits{Facet: 0.05})
		require.NoError(t, err)
		bow, err := KerfPlan(sweep(1), b, Limits{Facet: 0.05})
		require.NoError(t, err)
		require.Len(t, bow.Kerfs, len(cove.Kerfs))
		most := 0.0
		for i, k := range cove.Kerfs {
			most = math.Max(most, math.Abs(k.At-bow.Kerfs[i].At))
		}
		// The two neutral lines lie a web apart.
		assert.InDelta(t, b.Web*float64(cove.Kerfs[0].Turn)*-float64(len(cove.Kerfs)), cove.FlatLength-bow.FlatLength, 1e-3*b.Web)
		assert.Less(t, most, prev/5)
		prev = most
	}
}

// With ever more kerfs the blank becomes as long as the neutral arc.
func TestManyKerfsTendToTheNeutralArc(t *testing.T) {
	for _, sense := range []float64{-1, 1} {
		seg := sweep(sense).Segment(0)
		b := Board{Thickness: 3, KerfWidth: 0.2, Web: 0.1}
		arcLength := (seg.Radius() - sense*b.Web/2) * math.Abs(float64(seg.Angle()))
		for _, facet := range []float64{1e-1, 1e-2, 1e-3, 1e-4} {
			p, err := KerfPlan(sweep(sense), b, Limits{Facet: facet})
			require.NoError(t, err)
			// Tangents exceed the arc by a third of a²/4 of it, and facet is
			// R·a²/8.
			assert.InDelta(t, arcLength, p.FlatLength, 0.7*facet/seg.Radius()*arcLength)
			assert.LessOrEqual(t, p.Facet, facet)
		}
	}
}

// An ogee of two equal arcs opens its kerfs below and closes them above.
func TestOgee(t *testing.T) {
	mid := r2.Vec{X: 420, Y: 500}
	k := 2 * 25.0 / (math.Hypot(240, 720) / 2)
	profile := arc.Path{V: []arc.Vertex{arc.V(540, 140, -k), {P: mid, K: k}, arc.V(300, 860, 0)}}
	p, err := KerfPlan(profile, mdf19, common)
	require.NoError(t, err)
	require.Len(t, p.Bends, 2)
	checkPlan(t, profile, p, common)
	low, high := p.Bends[0], p.Bends[1]
	assert.Less(t, float64(low.Turn), 0.0)
	assert.InDelta(t, float64(low.Turn)*float64(low.Count), -float64(high.Turn)*float64(high.Count), 1e-12)
	assert.Greater(t, low.Mouth, 3.2)
	assert.Less(t, high.Mouth, 3.2)
	assert.Greater(t, low.FlatLength, high.FlatLength, "the neutral line is outside in the cove, inside in the bow")
	assert.Zero(t, p.Pitch)
}

// Two arcs of one sense and different radii get equal turns, and wider lands
// on the flatter one.
func TestPitchFollowsRadius(t *testing.T) {
	profile := chain(r2.Vec{}, 0, []float64{400, 400}, []float64{-0.4, -0.2})
	p, err := KerfPlan(profile, mdf19, common)
	require.NoError(t, err)
	require.Len(t, p.Bends, 1)
	checkPlan(t, profile, p, common)
	n := len(p.Kerfs)
	for _, k := range p.Kerfs {
		assert.Equal(t, p.Kerfs[0].Turn, k.Turn)
	}
	assert.InDelta(t, 2, (p.Kerfs[n-1].At-p.Kerfs[n-2].At)/(p.Kerfs[1].At-p.Kerfs[0].At), 0.01)
}

// A straight between two bends, and one at each end, stay free of kerfs.
func TestStraightsStayWhole(t *testing.T) {
	profile := chain(r2.Vec{X: 5}, 1, []float64{50, 400, 80, 300, 120}, []float64{0, -0.4, 0, 0.3, 0})
	lim := Limits{Facet: 0.1, Strain: 0.008, Land: 3, Edge: 55}
	p, err := KerfPlan(profile, mdf19, lim)
	require.NoError(t, err)
	checkPlan(t, profile, p, lim)
	assert.Len(t, p.Bends, 2)
	straight := chain(r2.Vec{}, 1, []float64{50, 60}, []float64{0, 0})
	p, err = KerfPlan(straight, mdf19, lim)
	require.NoError(t, err)
	assert.Empty(t, p.Kerfs)
	assert.InDelta(t, 110, p.FlatLength, 1e-9)
	s := refold(t, p, straight)
	landed(t, straight, s.Show)
}
