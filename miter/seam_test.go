package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// flared is the sweep of a flared hood: front out 540 at z 140 to 300 at z 860
// with a sag of 45, sides 525 to 250 with a sag of 30, both hollow, 19 thick.
func flared() miter.Pair {
	cove := func(x0, z0, x1, z1, sag float64) arc.Path {
		chord := math.Hypot(x1-x0, z1-z0)
		return arc.Path{V: []arc.Vertex{arc.V(x0, z0, -2*sag/chord), arc.V(x1, z1, 0)}}
	}
	return miter.Pair{
		First:  miter.Panel{Profile: cove(540, 140, 300, 860, 45), Thickness: 19},
		Second: miter.Panel{Profile: cove(525, 140, 250, 860, 30), Thickness: 19},
		Plan:   deg(90),
	}
}

// TestFlaredSweep holds the flared sweep's values, from 40-digit arithmetic.
func TestFlaredSweep(t *testing.T) {
	s, err := flared().Seam()
	require.NoError(t, err)
	at, err := s.At(428)
	require.NoError(t, err)
	assert.InDelta(t, 383.821, at.Show.X, 5.01e-4)
	assert.InDelta(t, 397.786, at.Show.Y, 5.01e-4)
	assert.InDelta(t, 321.726, at.First.Show.Y, 5.01e-4)
	assert.InDelta(t, 320.964, at.Second.Show.Y, 5.01e-4)
	assert.InDelta(t, 41.1439, at.First.Bevel.Degrees(), 5.01e-5)
	assert.InDelta(t, 41.1439, at.Second.Bevel.Degrees(), 5.01e-5)
	require.True(t, at.HasBack)
	assert.InDelta(t, 363.281, at.First.Back.X, 5.01e-4)
	assert.InDelta(t, 328.779, at.First.Back.Y, 5.01e-4)
	assert.Equal(t, at.First.Show.X, at.Show.X)
	assert.Equal(t, at.Second.Show.X, at.Show.Y)
	for z, bevel := range map[float64]float64{140: 37.3723, 860: 44.4902} {
		at, err := s.At(z)
		require.NoError(t, err)
		assert.InDelta(t, bevel, at.First.Bevel.Degrees(), 5.01e-5)
	}
}

// blanks returns the blanks of a pair within a tolerance.
func blanks(t require.TestingT, p miter.Pair, tol float64) (first, second miter.Blank) {
	s, err := p.Seam()
	require.NoError(t, err)
	e1, e2, err := s.Edges(tol)
	require.NoError(t, err)
	return miter.Blank{Panel: p.First, Edges: e1}, miter.Blank{Panel: p.Second, Edges: e2}
}

func TestFlaredSweepRefits(t *testing.T) {
	p := flared()
	a, b := blanks(t, p, 0.005)
	fit, err := miter.Refit(a, b, p.Plan)
	require.NoError(t, err)
	t.Logf("%+v, %d segments", fit, a.Edges[0].Show.NumSegments())
	assert.Less(t, fit.Show.Max(), 0.01)
	assert.Less(t, fit.Back.Max(), 0.01)
	assert.Less(t, fit.Face.Max(), 0.02)
}

// TestRefitSeesFaults moves, tilts and scales an edge and wants it seen.
func TestRefitSeesFaults(t *testing.T) {
	p := flared()
	a, b := blanks(t, p, 0.004)
	for name, m := range map[string]arc.Motion{
		"long":  arc.Shift(r2.Vec{X: 0.1}),
		"short": arc.Shift(r2.Vec{X: -0.1}),
		"high":  arc.Shift(r2.Vec{Y: 1}),
	} {
		bad := miter.Blank{Panel: a.Panel, Edges: []miter.Edge{{
			Show: a.Edges[0].Show.Transform(m), Back: a.Edges[0].Back.Transform(m)}}}
		fit, err := miter.Refit(bad, b, p.Plan)
		require.NoError(t, err)
		for _, d := range []miter.Deviation{fit.Show, fit.Face, fit.Back} {
			if name == "short" {
				assert.Greater(t, d.Gap, 0.05, name)
				assert.Less(t, d.Overlap, 0.01, name)
			} else { // higher up the edge lies farther in: too long there
				assert.Greater(t, d.Overlap, 0.05, name)
			}
		}
	}
	square := miter.Blank{Panel: a.Panel, Edges: []miter.Edge{{Show: a.Edges[0].Show, Back: a.Edges[0].Show}}}
	fit, err := miter.Refit(square, b, p.Plan)
	require.NoError(t, err)
	assert.Greater(t, fit.Back.Overlap, 5.0)
	assert.Less(t, fit.Show.Max(), 0.01)
}

// TestStraightProfiles holds curved seams over straight profiles to the flat
// formulas, with boards of unequal slope and thickness.
func TestStraightProfiles(t *testing.T) {
	line := func(x0, x1, h float64) arc.Path {
		return arc.Polyline(r2.Vec{X: x0}, r2.Vec{X: x1, Y: h})
	}
	for _, plan := range []float64{45, 90, 120, 225, 270} {
		p := miter.Pair{
			First:  miter.Panel{Profile: line(500, 380, 400), Thickness: 19},
			Second: miter.Panel{Profile: line(420, 450, 400), Thickness: 12},
			Plan:   deg(plan),
		}
		cuts, err := miter.Corner{Plan: p.Plan,
			First:  miter.Board{Tilt: arc.Angle(math.Atan2(400, 120)), Thickness: 19},
			Second: miter.Board{Tilt: arc.Angle(math.Atan2(400, -30)), Thickness: 12}}.Cuts()
		require.NoError(t, err)
		s, err := p.Seam()
		require.NoError(t, err)
		e1, e2, err := s.Edges(0.01)
		require.NoError(t, err)
		at, err := s.At(200)
		require.NoError(t, err)
		assert.InDelta(t, float64(cuts.Dihedral), float64(at.Dihedral), 1e-12)
		for i, e := range [2]miter.Edge{e1[0], e2[0]} {
			end := [2]miter.End{cuts.First, cuts.Second}[i]
			mark := [2]miter.Mark{at.First, at.Second}[i]
			t1 := [2]float64{19, 12}[i]
			assert.InDelta(t, float64(end.Bevel), float64(mark.Bevel), 1e-12)
			for _, path := range [2]arc.Path{e.Show, e.Back} {
				require.Equal(t, 1, path.NumSegments())
				v := r2.Sub(path.V[1].P, path.V[0].P)
				assert.InDelta(t, float64(end.Miter), math.Atan2(-v.X, v.Y), 1e-9)
			}
			// The back edge is the show edge moved in by t·tan(bevel).
			v := r2.Unit(r2.Sub(e.Show.V[1].P, e.Show.V[0].P))
			in := r2.Cross(r2.Sub(e.Back.V[0].P, e.Show.V[0].P), v)
			assert.InDelta(t, -t1*math.Tan(float64(end.Bevel)), in, 1e-9)
		}
	}
}

// TestEqualProfiles wants the seam over the plan bisector, at any plan angle.
func TestEqualProfiles(t *testing.T) {
	for _, plan := range []float64{40, 90, 135, 250} {
		p := flared()
		p.Second, p.Plan = p.First, deg(plan)
		s, err := p.Seam()
		require.NoError(t, err)
		for i := range 10 {
			at, err := s.At(s.Lower + (s.Upper-s.Lower)*float64(i)/9)
			require.NoError(t, err)
			assert.InDelta(t, at.First.Show.X, at.Second.Show.X, 1e-9)
			assert.InDelta(t, float64(at.First.Bevel), float64(at.Second.Bevel), 1e-15)
			// Off the first panel by half the plan angle.
			assert.InDelta(t, at.First.Show.X, at.Show.Y/math.Tan(float64(p.Plan)/2), 1e-9)
		}
	}
}

// TestSquareDome holds the dome of four mitered pieces of a semicircular
// section (method: Atkins, Practical Sheet and Plate Metal Work; closed forms
// by integration): half width R cos(u/R), piece 2R², miter edge 1.91009889451R.
func TestSquareDome(t *testing.T) {
	const r = 300.0
	quarter := arc.Path{V: []arc.Vertex{arc.V(r, 0, math.Tan(math.Pi/8)), arc.V(0, r, 0)}}
	panel := miter.Panel{Profile: quarter, Thickness: 6}
	p := miter.Pair{First: panel, Second: panel, Plan: deg(90)}
	a, b := blanks(t, p, 1e-4)
	edge := a.Edges[0].Show
	assert.InDelta(t, 1.91009889451*r, edge.Length(), 1e-3)
	half := edge.Clone()
	half.V = append(half.V, arc.V(0, 0, 0))
	half.Closed = true
	assert.InDelta(t, r*r, half.Area(), 0.02)
	for i := range half.V[:len(half.V)-1] {
		v := half.V[i].P
		assert.InDelta(t, r*math.Cos(v.Y/r), v.X, 1e-4)
	}
	fit, err := miter.Refit(a, b, p.Plan)
	require.NoError(t, err)
	assert.Less(t, math.Max(fit.Show.Max(), fit.Back.Max()), 1e-3)
	s, err := p.Seam()
	require.NoError(t, err)
	at, err := s.At(r)
	require.NoError(t, err)
	assert.False(t, at.HasBack, "the back does not come up to the top of the dome")
	at, err = s.At(r - 6)
	require.NoError(t, err)
	assert.True(t, at.HasBack)
	assert.InDelta(t, 0, at.First.Back.X, 1e-4)
}

// TestSkirtInProfile folds a skirt into the profile: two runs, whose backs stop
// short of the fold by t·tan of half its turn.
func TestSkirtInProfile(t *testing.T) {
	p := flared()
	for _, q := range []*miter.Panel{&p.First, &p.Second} {
		v := q.Profile.V
		q.Profile = arc.Path{V: []arc.Vertex{arc.V(v[0].P.X, 0, 0), v[0], v[1]}}
	}
	a, b := blanks(t, p, 0.005)
	require.Len(t, a.Edges, 2)
	fit, err := miter.Refit(a, b, p.Plan)
	require.NoError(t, err)
	assert.Less(t, math.Max(fit.Show.Max(), fit.Back.Max()), 0.01)
	assert.Less(t, fit.Face.Max(), 0.02)
	skirt, sweep := a.Edges[0], a.Edges[1]
	top := skirt.Back.V[skirt.Back.NumSegments()].P.Y
	assert.InDelta(t, 0, skirt.Show.V[1].P.Y-140, 1e-9)
	// The back of the skirt is the line x = 521, that of the sweep the circle
	// about the same center, 19 larger; they cross below the fold.
	c := flared().First.Profile.Segment(0).Center()
	r := 1622.5 + 19
	z := c.Y - math.Sqrt(r*r-(521-c.X)*(521-c.X))
	assert.InDelta(t, z, top, 0.001)
	angle := func(x, z float64) float64 { return math.Atan2(z-c.Y, x-c.X) }
	assert.InDelta(t, 1622.5*math.Abs(angle(521, z)-angle(540, 140)), sweep.Back.V[0].P.Y-140, 0.001)
	// Roughly the thickness times the tangent of half the fold.
	turn := math.Atan2(240, 720) + 27.051442940/2*math.Pi/180
	assert.InDelta(t, 19*math.Tan(turn/2), 140-top, 0.1)
}
