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

// TestConstantBevel compares the gap of one constant bevel with a section of
// the joint: at every height two boards of thickness t, cut with the bevel b
// where the faces turn by 2b', leave their back edges apart.
func TestConstantBevel(t *testing.T) {
	s, err := flared().Seam()
	require.NoError(t, err)
	one, gap, err := s.Steps(1)
	require.NoError(t, err)
	require.Len(t, one, 1)
	assert.Equal(t, [2]float64{s.Lower, s.Upper}, [2]float64{one[0].From, one[0].To})
	assert.InDelta(t, 44.4902, one[0].First.Degrees(), 1e-4)
	assert.InDelta(t, 766.041871557, one[0].U[0][1], 1e-6)
	worst := 0.0
	for i := range 721 {
		at, err := s.At(140 + float64(i))
		require.NoError(t, err)
		half := (math.Pi - float64(at.Dihedral)) / 2
		// The board's back corner in the section, and its distance from the
		// plane that halves the corner; the other board is its mirror image.
		corner := r2.Vec{X: -19 * math.Tan(float64(one[0].First)), Y: -19}
		plane := r2.Vec{X: -math.Sin(half), Y: -math.Cos(half)}
		worst = math.Max(worst, 2*math.Abs(r2.Cross(plane, corner)))
	}
	assert.InDelta(t, worst, gap, 1e-6)
	assert.InDelta(t, 6.6, gap, 0.1) // seven degrees over 19 mm: not to be done
}

// TestStepsGetFiner wants every further step to help, and 1/k of the gap.
func TestStepsGetFiner(t *testing.T) {
	s, err := flared().Seam()
	require.NoError(t, err)
	_, one, err := s.Steps(1)
	require.NoError(t, err)
	last := math.Inf(1)
	for k := 1; k <= 12; k++ {
		steps, gap, err := s.Steps(k)
		require.NoError(t, err)
		require.Len(t, steps, k)
		assert.Less(t, gap, last)
		assert.InDelta(t, one/float64(k), gap, 0.1*one/float64(k))
		last = gap
		for i := 1; i < k; i++ {
			assert.Equal(t, steps[i-1].To, steps[i].From)
			assert.Equal(t, steps[i-1].U[0][1], steps[i].U[0][0])
		}
	}
}

// TestStraightNeedsOneStep: flat boards have a constant bevel.
func TestStraightNeedsOneStep(t *testing.T) {
	p := flared()
	p.First.Profile = arc.Polyline(r2.Vec{X: 500}, r2.Vec{X: 380, Y: 400})
	p.Second.Profile = arc.Polyline(r2.Vec{X: 420}, r2.Vec{X: 450, Y: 400})
	s, err := p.Seam()
	require.NoError(t, err)
	steps, gap, err := s.Steps(5)
	require.NoError(t, err)
	assert.Len(t, steps, 1)
	assert.InDelta(t, 0, gap, 1e-12)
}

// TestTrimFollowsTheEdges holds the edges' paths to the exact cut, and the
// blade's bevel to half the turn between the faces.
func TestTrimFollowsTheEdges(t *testing.T) {
	p := flared()
	s, err := p.Seam()
	require.NoError(t, err)
	e1, e2, err := s.Edges(0.01)
	require.NoError(t, err)
	for i, e := range []miter.Edge{e1[0], e2[0]} {
		for j := range 201 {
			q, tangent := e.Show.At(e.Show.Length() * float64(j) / 200)
			trim, err := s.Trim(miter.Side(i), q.Y)
			require.NoError(t, err)
			// Square to the edge.
			assert.Less(t, math.Abs(trim.Show-q.X)*tangent.Y, 0.01)
			assert.InDelta(t, math.Atan2(-tangent.X, tangent.Y), float64(trim.Miter), 0.002)
			q, tangent = e.Back.At(e.Back.Length() * float64(j) / 200)
			trim, err = s.Trim(miter.Side(i), q.Y)
			require.NoError(t, err)
			assert.Less(t, math.Abs(trim.Back-q.X)*tangent.Y, 0.01)
		}
	}
	at, err := s.At(428)
	require.NoError(t, err)
	trim, err := s.Trim(miter.First, at.First.Show.Y)
	require.NoError(t, err)
	assert.InDelta(t, at.First.Show.X, trim.Show, 1e-9)
	assert.InDelta(t, at.First.Bevel.Degrees(), trim.Bevel.Degrees(), 0.003)
}

// TestConstantBevelRefits cuts both blanks with the one bevel along their show
// edges and bends them back: the gap between the back edges is the one told,
// and nothing overlaps.
func TestConstantBevelRefits(t *testing.T) {
	p := flared()
	s, err := p.Seam()
	require.NoError(t, err)
	one, gap, err := s.Steps(1)
	require.NoError(t, err)
	first, second := blanks(t, p, 1e-4)
	for i, b := range []*miter.Blank{&first, &second} {
		bevel := []arc.Angle{one[0].First, one[0].Second}[i]
		show := b.Edges[0].Show
		var back []r2.Vec
		for j := range 3001 {
			q, dir := show.At(show.Length() * float64(j) / 3000)
			in := r2.Scale(b.Thickness*math.Tan(float64(bevel)), r2.Vec{X: -dir.Y, Y: dir.X})
			back = append(back, r2.Add(q, in))
		}
		b.Edges[0].Back = arc.Polyline(back...)
	}
	fit, err := miter.Refit(first, second, p.Plan)
	require.NoError(t, err)
	assert.InDelta(t, gap, fit.Back.Gap, 0.02)
	assert.InDelta(t, 0.75*gap, fit.Face.Gap, 0.02)
	assert.Less(t, fit.Show.Max(), 0.001)
	assert.Less(t, math.Max(fit.Face.Overlap, fit.Back.Overlap), 0.01)
}
