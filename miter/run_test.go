package miter_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"example.com/sagitta/arc"
	"example.com/sagitta/miter"
)

// TestBandAroundChimney: a plumb band around three sides of a chimney. Its long
// points are on the show face, a thickness past the wall at each outside corner
// (common practice: wall plus thickness for each mitered end).
func TestBandAroundChimney(t *testing.T) {
	run := miter.Run{Tilt: deg(90), Width: 90, Thickness: 18,
		Path: []r2.Vec{{Y: 300}, {}, {X: 700}, {X: 700, Y: 300}}}
	pieces, err := run.Solve()
	require.NoError(t, err)
	require.Len(t, pieces, 3)
	for i, want := range [][2]float64{{318, 300}, {736, 700}, {318, 300}} {
		assert.InDelta(t, want[0], pieces[i].Long, 1e-9)
		assert.InDelta(t, want[1], pieces[i].Short, 1e-9)
	}
	assert.Equal(t, miter.End{Hand: miter.Left}, pieces[0].Left)
	assert.InDelta(t, 45, pieces[0].Right.Bevel.Degrees(), 1e-9)
	assert.Equal(t, miter.End{Hand: miter.Right}, pieces[2].Right)
}

// TestCrownAroundRoom: crown around the inside of a rectangular room. The long
// points are at the lower edge on the back, so the long length is the wall's
// (common practice: crown is measured along the wall at its lower edge).
func TestCrownAroundRoom(t *testing.T) {
	run := miter.Run{Closed: true, Tilt: deg(90 + 38), Width: 110, Thickness: 15,
		Path: []r2.Vec{{}, {Y: 3000}, {X: 4000, Y: 3000}, {X: 4000}}}
	pieces, err := run.Solve()
	require.NoError(t, err)
	for i, p := range pieces {
		assert.InDelta(t, []float64{3000, 4000}[i%2], p.Long, 1e-9)
		assert.InDelta(t, 31.61901, p.Left.Miter.Degrees(), 1e-5)
		assert.InDelta(t, -33.86291, p.Left.Bevel.Degrees(), 1e-5)
		// On the show face the lower edge is shorter, the upper much more: the
		// corner of its section goes out from the wall by the projection.
		out := 110*math.Sin(38*math.Pi/180) + 15*math.Cos(38*math.Pi/180)
		assert.InDelta(t, p.Wall-2*out, p.Short, 1e-9)
		upper, back := p.Right.LongPoint()
		assert.False(t, upper)
		assert.True(t, back)
	}
}

// TestRunMeetsItself stands the corners of every piece in space: at each corner
// of a random run the sections of both pieces must coincide.
func TestRunMeetsItself(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 1))
	done := 0
	for range 300 {
		box := randomBox(r)
		run := miter.Run{Path: box.Plan, Closed: true, Tilt: deg(between(r, 20, 160)),
			Width: between(r, 20, 150), Thickness: between(r, 3, 40)}
		pieces, err := run.Solve()
		if err != nil {
			assert.ErrorIs(t, err, miter.ErrVanish)
			continue
		}
		done++
		n := len(run.Path)
		corner := func(i int, right bool, v, d float64) r3.Vec {
			p, q := run.Path[i], run.Path[(i+1)%n]
			turn := setUp(run.Tilt, math.Atan2(q.Y-p.Y, q.X-p.X)-math.Pi/2)
			e, sign, at := pieces[i].Left, -1.0, r3.Vec{X: p.X, Y: p.Y}
			if right {
				e, sign, at = pieces[i].Right, 1, r3.Vec{X: q.X, Y: q.Y}
			}
			// From the point on the path along the plane of the cut, at depth d
			// behind the show face, t in front of which the path lies.
			w := run.Thickness - d
			x := sign * (-v*math.Tan(float64(e.Miter)) + w*math.Tan(float64(e.Bevel))/math.Cos(float64(e.Miter)))
			return r3.Add(at, turn.Rotate(r3.Vec{X: x, Y: v, Z: w}))
		}
		for i := range pieces {
			for _, v := range []float64{0, run.Width} {
				for _, d := range []float64{0, run.Thickness} {
					require.Less(t, apart(corner(i, true, v, d), corner((i+1)%n, false, v, d)), 1e-6)
				}
			}
		}
	}
	assert.Greater(t, done, 100)
}

func TestRunRefusals(t *testing.T) {
	good := miter.Run{Path: []r2.Vec{{}, {X: 100}, {X: 100, Y: 100}}, Tilt: deg(90), Width: 50, Thickness: 10}
	_, err := good.Solve()
	require.NoError(t, err)
	for name, c := range map[string]struct {
		change func(*miter.Run)
		want   error
	}{
		"one point":  {func(r *miter.Run) { r.Path = r.Path[:1] }, arc.ErrEmpty},
		"two closed": {func(r *miter.Run) { r.Path, r.Closed = r.Path[:2], true }, arc.ErrEmpty},
		"twice":      {func(r *miter.Run) { r.Path = []r2.Vec{{}, {}, {X: 1}} }, arc.ErrZeroArea},
		"back":       {func(r *miter.Run) { r.Path = []r2.Vec{{}, {X: 100}, {X: 50}} }, miter.ErrNoSeam},
		"nan":        {func(r *miter.Run) { r.Path = []r2.Vec{{}, {X: math.NaN()}} }, arc.ErrNotFinite},
		"flat":       {func(r *miter.Run) { r.Tilt = 0 }, arc.ErrRange},
		"thin":       {func(r *miter.Run) { r.Thickness = math.Inf(1) }, arc.ErrRange},
		"crossed":    {func(r *miter.Run) { r.Closed, r.Tilt, r.Width = true, deg(30), 500 }, miter.ErrVanish},
	} {
		r := good
		c.change(&r)
		_, err := r.Solve()
		assert.ErrorIs(t, err, c.want, name)
		refused(t, err)
	}
}

// leastCost tries every way to put pieces on bars.
func leastCost(pieces []float64, stock []miter.Bar, kerf float64) float64 {
	best := math.Inf(1)
	var loads []float64
	var try func(k int)
	try = func(k int) {
		if k == len(pieces) {
			sum := 0.0
			for _, l := range loads {
				least := math.Inf(1)
				for _, b := range stock {
					if l-kerf <= b.Length {
						least = math.Min(least, b.Price)
					}
				}
				sum += least
			}
			best = math.Min(best, sum)
			return
		}
		for i := range loads {
			loads[i] += pieces[k] + kerf
			try(k + 1)
			loads[i] -= pieces[k] + kerf
		}
		loads = append(loads, pieces[k]+kerf)
		try(k + 1)
		loads = loads[:len(loads)-1]
	}
	try(0)
	return best
}

// TestPlanBars compares plans with every arrangement tried, and checks that each
// piece is cut once and every bar holds its pieces.
func TestPlanBars(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 1))
	for range count(2000, 200, 50) {
		stock := []miter.Bar{{Length: 2400, Price: 20 + 5*r.Float64()}, {Length: 3600, Price: 30 + 5*r.Float64()}}
		var pieces []float64
		for range 1 + r.IntN(7) {
			pieces = append(pieces, math.Round(between(r, 100, 2300)))
		}
		plan, err := miter.PlanBars(pieces, stock, 3)
		require.NoError(t, err)
		assert.InDelta(t, leastCost(pieces, stock, 3), plan.Cost, 1e-6)
		assert.InDelta(t, plan.Cost, plan.Bound, 1e-6)
		holds(t, plan, pieces, stock, 3)
	}
}

func holds(t *testing.T, plan miter.BarPlan, pieces []float64, stock []miter.Bar, kerf float64) {
	t.Helper()
	seen, waste := make([]int, len(pieces)), 0.0
	for _, b := range plan.Bars {
		sum := -kerf
		waste += stock[b.Stock].Length
		for _, p := range b.Pieces {
			seen[p]++
			sum += pieces[p] + kerf
			waste -= pieces[p]
		}
		assert.LessOrEqual(t, sum, stock[b.Stock].Length+1e-6)
		assert.InDelta(t, math.Max(0, stock[b.Stock].Length-sum-kerf), b.Left, 1e-6)
	}
	for _, n := range seen {
		assert.Equal(t, 1, n)
	}
	assert.InDelta(t, waste, plan.Waste, 1e-6)
}

// TestPlanManyBars: a job too large to try all keeps its promises, and the same
// job gives the same plan.
func TestPlanManyBars(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	var pieces []float64
	for range 1500 {
		pieces = append(pieces, between(r, 50, 2300))
	}
	stock := []miter.Bar{{Length: 2400}, {Length: 3000}}
	plan, err := miter.PlanBars(pieces, stock, 3)
	require.NoError(t, err)
	holds(t, plan, pieces, stock, 3)
	assert.Less(t, plan.Cost, 1.05*plan.Bound)
	again, err := miter.PlanBars(pieces, stock, 3)
	require.NoError(t, err)
	assert.Equal(t, plan, again)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 3001} {
		_, err := miter.PlanBars([]float64{bad}, stock, 3)
		assert.ErrorIs(t, err, arc.ErrRange)
		refused(t, err)
	}
	_, err = miter.PlanBars([]float64{1}, nil, 0)
	assert.ErrorIs(t, err, arc.ErrRange)
	none, err := miter.PlanBars(nil, stock, 3)
	require.NoError(t, err)
	assert.Empty(t, none.Bars)
}
