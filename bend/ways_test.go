package bend

import (
	"math"
	"testing"

	"example.com/sagitta/arc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func job(sense float64) Job {
	mdf, _ := LookUp("mdf")
	return Job{
		Profile: sweep(sense), Board: mdf19, Width: 1050, Limits: Limits{Facet: 0.1},
		Material: mdf, Factor: 0.8, SawKerf: 3, ThinPly: 2,
	}
}

func TestWaysOrder(t *testing.T) {
	ways, err := Ways(job(-1))
	require.NoError(t, err)
	require.Len(t, ways, 3)
	// Radius 1622.5 strains 19 mm by 19/2/(1622.5 + 9.5) = 0.0058: it stands
	// 0.008 even unkerfed.
	assert.Equal(t, []Method{AsIs, Kerfed, Laminated}, methods(ways))
	for _, w := range ways {
		assert.NoError(t, w.Err)
		assert.Greater(t, w.Use, 0.0)
		assert.LessOrEqual(t, w.Use, 1+1e-9)
		assert.NotEmpty(t, w.Cautions)
	}
	assert.InDelta(t, 9.5/0.008-9.5, ways[0].LeastRadius, 1e-9)
	assert.InDelta(t, 21*1050, ways[1].CutLength, 1e-9)
	assert.InDelta(t, 0.00562067/0.008, ways[1].Use, 1e-5)

	// By the published table 3/4 in plywood stands 12 ft at best, and 19 mm a little less, so only
	// kerfs and plies are left; what is refused goes last and says the number.
	j := job(-1)
	j.Table = PlywoodTable()
	ways, err = Ways(j)
	require.NoError(t, err)
	assert.Equal(t, []Method{Kerfed, Laminated, AsIs}, methods(ways))
	require.ErrorIs(t, ways[2].Err, ErrTooTight)
	assert.ErrorContains(t, ways[2].Err, "1622.5")
	assert.ErrorContains(t, ways[2].Err, "3638.4")
}

func methods(w []Way) (m []Method) {
	for _, w := range w {
		m = append(m, w.Method)
	}
	return m
}

// Where the radius varies, the form has more than the one told.
func TestWaysManyRadii(t *testing.T) {
	for n, profile := range map[int]arc.Path{1: sweep(-1), 2: chain(arc.V(0, 0, 0).P, 0, []float64{900, 900}, []float64{-0.3, -0.2})} {
		j := job(-1)
		j.Profile = profile
		ways, err := Ways(j)
		require.NoError(t, err)
		assert.Equal(t, n, radii(profile))
		for _, w := range ways {
			if w.Method == Laminated {
				require.NoError(t, w.Err)
				assert.Len(t, w.Cautions, n+1)
			}
		}
	}
}

// The inside of a bow is its back, thinner by the board.
func TestWaysInsideRadius(t *testing.T) {
	cove, _ := insideRadius(sweep(-1), 19)
	bow, _ := insideRadius(sweep(1), 19)
	assert.InDelta(t, 1622.5, cove, 1e-9)
	assert.InDelta(t, 1603.5, bow, 1e-9)
	tight := Job{Profile: arc.Path{V: []arc.Vertex{arc.V(0, 0, 1), arc.V(20, 0, 0)}}, Board: mdf19, Width: 100, Limits: Limits{Strain: 0.008}}
	ways, err := Ways(tight)
	require.NoError(t, err)
	for _, w := range ways {
		assert.Error(t, w.Err, "a bow of 10 mm in a board of 19: %v", w.Method)
	}
}

func TestWaysFaults(t *testing.T) {
	for name, change := range map[string]func(*Job){
		"no width":       func(j *Job) { j.Width = 0 },
		"no material":    func(j *Job) { j.Material = Material{} },
		"no factor":      func(j *Job) { j.Factor = 0 },
		"closed":         func(j *Job) { j.Profile.Closed = true },
		"no board":       func(j *Job) { j.Board = Board{} },
		"negative limit": func(j *Job) { j.Limits.Facet = -1 },
		"empty":          func(j *Job) { j.Profile = arc.Path{} },
		"not a number":   func(j *Job) { j.Width = math.NaN() },
	} {
		j := job(1)
		change(&j)
		_, err := Ways(j)
		assert.Error(t, err, name)
	}
	j := job(1)
	j.Profile = arc.Polyline(arc.V(0, 0, 0).P, arc.V(0, 500, 0).P)
	ways, err := Ways(j)
	require.NoError(t, err)
	assert.Equal(t, AsIs, ways[0].Method)
	assert.Zero(t, ways[0].Use, "a straight needs nothing")
}
