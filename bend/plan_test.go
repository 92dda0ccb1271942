package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The panel the exact values below were worked out for with 40-digit
// arithmetic: front of 240 by 720 mm, sag 45.
func sweep(sense float64) arc.Path {
	chord := math.Hypot(240, 720)
	return arc.Path{V: []arc.Vertex{arc.V(540, 140, sense*2*45/chord), arc.V(300, 860, 0)}}
}

var (
	mdf19  = Board{Thickness: 19, KerfWidth: 3.2, Web: 1.6}
	common = Limits{Facet: 0.1, Strain: 0.008}
)

func headingOf(p arc.Path) arc.Angle {
	s := p.Segment(0)
	d := r2.Sub(s.B, s.A)
	return arc.Angle(math.Atan2(d.Y, d.X)) - s.Angle()/2
}

func endHeadingOf(p arc.Path) arc.Angle {
	s := p.Segment(p.NumSegments() - 1)
	d := r2.Sub(s.B, s.A)
	return arc.Angle(math.Atan2(d.Y, d.X)) + s.Angle()/2
}

// refold bends the plan back from where the profile begins.
func refold(t require.TestingT, p Plan, profile arc.Path) Section {
	s, err := Refold(p.Blank(), profile.V[0].P, headingOf(profile))
	require.NoError(t, err)
	return s
}

// Derived from first principles, checked with 40-digit arithmetic.
func TestSweepCove(t *testing.T) {
	p, err := KerfPlan(sweep(-1), mdf19, common)
	require.NoError(t, err)
	assert.Len(t, p.Kerfs, 21)
	assert.InDelta(t, 766.041871557, p.ShowLength, 5e-10)
	assert.InDelta(t, 36.497573116, p.Pitch, 5e-10)
	assert.InDelta(t, 766.449035431, p.FlatLength, 5e-10)
	assert.InDelta(t, 36.497573116/2, p.Kerfs[0].At, 5e-10)
	assert.InDelta(t, 0.0935784, p.Facet, 5e-8)
	assert.InDelta(t, 0.00562067, p.Strain, 1e-8) // cut off, not rounded: 1.6·0.472137/(2·3.2·21) = 0.0056206756
	assert.InDelta(t, -27.051442940/21, p.Kerfs[7].Turn.Degrees(), 5e-10)
	assert.Greater(t, p.Mouth, 3.2, "opens")
	assert.Equal(t, FacetLimit, p.Limit)
}

func TestSweepBow(t *testing.T) {
	p, err := KerfPlan(sweep(1), mdf19, common)
	require.NoError(t, err)
	assert.Len(t, p.Kerfs, 21)
	assert.InDelta(t, 36.461599277, p.Pitch, 5e-10)
	assert.InDelta(t, 765.693584814, p.FlatLength, 5e-10)
	assert.InDelta(t, 0.0934773, p.Facet, 5e-8)
	assert.Less(t, p.Mouth, 3.2, "closes")
}

// One kerf fewer breaks the limit that is named.
func TestFewestKerfs(t *testing.T) {
	for _, c := range []struct {
		lim  Limits
		by   Limit
		want int // by hand: from R 1622.5, turn 27.051442940°
	}{
		{Limits{Facet: 0.1, Strain: 0.008}, FacetLimit, 21},
		{Limits{Facet: 0.1, Strain: 0.005}, StrainLimit, 24}, // 1.6·0.472137/(6.4·0.005) = 23.6
		{Limits{}, ClosingLimit, 3},                          // 0.472137·18.2/3.2 = 2.69
	} {
		p, err := KerfPlan(sweep(1), mdf19, c.lim)
		require.NoError(t, err)
		assert.Len(t, p.Kerfs, c.want)
		assert.Equal(t, c.by, p.Limit)
	}
	p, err := KerfPlan(sweep(-1), mdf19, Limits{})
	require.NoError(t, err)
	assert.Len(t, p.Kerfs, 1, "nothing closes in a cove")
}

func TestSweepRefolds(t *testing.T) {
	for _, sense := range []float64{-1, 1} {
		profile := sweep(sense)
		p, err := KerfPlan(profile, mdf19, common)
		require.NoError(t, err)
		s := refold(t, p, profile)
		landed(t, profile, s.Show)
		assert.InDelta(t, p.FlatLength, s.Neutral.Length(), 1e-9, "the neutral line keeps its length")
		assert.InDelta(t, p.Facet, farthest(s.Show, profile), 1e-6, "measured, not by the formula")
		h := mdf19.Thickness - mdf19.Web/2
		a := math.Abs(float64(p.Kerfs[0].Turn))
		rho := mdf19.KerfWidth / a
		for _, m := range s.Mouths {
			assert.InDelta(t, 2*(rho-sense*h)*math.Sin(a/2), m, 1e-9)
			assert.InDelta(t, p.Mouth, m, 1e-3)
		}
		// Wood is neither won nor lost but in the webs, whose mid-surface
		// keeps its length: the section is the blank less the kerfs.
		want := p.FlatLength*19 - 21*3.2*(19-1.6)
		assert.InDelta(t, want, s.Outline.Area(), 1e-6*want)
	}
}

// landed checks ends and end tangents to 1e-9 of the length.
func landed(t require.TestingT, profile, show arc.Path) {
	n, m := len(profile.V)-1, len(show.V)-1
	tol := 1e-9 * profile.Length()
	require.InDelta(t, 0, r2.Norm(r2.Sub(profile.V[n].P, show.V[m].P)), tol)
	turn := math.Remainder(float64(endHeadingOf(profile)-endHeadingOf(show)), 2*math.Pi)
	require.InDelta(t, 0, turn, 1e-9)
	require.InDelta(t, 0, r2.Norm(r2.Sub(profile.V[0].P, show.V[0].P)), tol)
}

// farthest returns the largest distance of sampled points of a from b.
func farthest(a, b arc.Path) float64 {
	most := 0.0
	for i := range a.NumSegments() {
		s := a.Segment(i)
		const n = 12 // even, to have the middle of a web
		for j := range n + 1 {
			p, _ := s.At(s.Length() * float64(j) / n)
			most = math.Max(most, distance(p, b))
		}
	}
	return most
}

// distance returns the distance of a point from a path of lines and arcs.
func distance(p r2.Vec, path arc.Path) float64 {
	d := math.Inf(1)
	for i := range path.NumSegments() {
		d = math.Min(d, segmentDistance(p, path.Segment(i)))
	}
	return d
}

func segmentDistance(p r2.Vec, s arc.Segment) float64 {
	d := math.Min(r2.Norm(r2.Sub(p, s.A)), r2.Norm(r2.Sub(p, s.B)))
	ab := r2.Sub(s.B, s.A)
	if s.K == 0 {
		u := r2.Dot(r2.Sub(p, s.A), ab) / r2.Norm2(ab)
		if u > 0 && u < 1 {
			d = math.Min(d, math.Abs(r2.Cross(r2.Sub(p, s.A), ab))/r2.Norm(ab))
		}
		return d
	}
	// A point sees the chord from the arc's side under less or more than the
	// arc does: on the circle's ray through p, the nearest point is on the arc
	// where its angle from the middle is within half the turn.
	c := s.Center()
	v, m := r2.Sub(p, c), r2.Sub(s.Mid(), c)
	if math.Abs(math.Atan2(r2.Cross(m, v), r2.Dot(m, v))) <= math.Abs(float64(s.Angle()))/2 {
		d = math.Min(d, math.Abs(r2.Norm(v)-s.Radius()))
	}
	return d
}
