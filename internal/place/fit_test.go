package place

import (
	"context"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

func square(x, y, s float64) []r2.Vec { return moved(rect(s, s), r2.Vec{X: x, Y: y}) }

// A plate of its hole's exact size fits only in the hole.
func TestFitIntoHole(t *testing.T) {
	frame := Item{Outer: rect(100, 100), Holes: [][]r2.Vec{square(20, 30, 50)}}
	items := []Item{frame, {Outer: square(500, 500, 50)}, {Outer: square(0, 0, 50)}}
	r, err := Fit(context.Background(), items, []Container{{Width: 100, Height: 100}}, Options{Iterations: 3000})
	require.NoError(t, err)
	requireLegal(t, items, r.Placed, 100, 100, 0)
	require.Len(t, r.Placed, 2)
	require.Equal(t, []Unplaced{{2, 0, NoRoom}}, r.Unplaced)
}

func TestFitAvoidsForbidden(t *testing.T) {
	items := []Item{{Outer: rect(30, 20), Demand: 20, Rotations: rightAngles}}
	holes := [][]r2.Vec{square(10, 10, 7), square(70.25, 40.5, 9), {{X: 50, Y: 0}, {X: 60, Y: 0}, {X: 55, Y: 12}}}
	c := Container{Width: 120, Height: 80, Forbidden: solids(holes...)}
	r, err := Fit(context.Background(), items, []Container{c}, Options{Iterations: 500})
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(r.Placed), 8)
	require.Equal(t, 20, len(r.Placed)+len(r.Unplaced))
	requireLegal(t, items, r.Placed, 120, 80, 0)
	requireApart(t, items, r.Placed, holes)
}

func requireApart(t *testing.T, items []Item, placed []Placement, forbidden [][]r2.Vec) {
	t.Helper()
	for _, p := range placed {
		for k, f := range forbidden {
			require.False(t, ratOverlap(ratLoops(placedLoops(items, p)), ratLoops([][]r2.Vec{f}), 0), "item %d on forbidden %d", p.Item, k)
		}
	}
}

// An L-shaped leftover, away from the origin: all items within its outline.
func TestFitIrregularContainer(t *testing.T) {
	ell := []r2.Vec{{X: 1000, Y: 500}, {X: 1200, Y: 500}, {X: 1200, Y: 560}, {X: 1090, Y: 600}, {X: 1090, Y: 700}, {X: 1000, Y: 700}}
	items := []Item{{Outer: rect(40, 25), Demand: 25, Rotations: rightAngles}, {Outer: star7(12), Demand: 10, Rotations: []float64{0, 1, 2}}}
	r, err := Fit(context.Background(), items, []Container{{Outer: ell}}, Options{Iterations: 400})
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(r.Placed), 15)
	var back []Placement
	for _, p := range r.Placed {
		p.At = r2.Sub(p.At, r2.Vec{X: 1000, Y: 500})
		back = append(back, p)
	}
	requireLegal(t, items, back, 200, 200, 0)
	ring := [][]r2.Vec{square(0, 0, 3000), ell}
	for _, p := range r.Placed {
		require.False(t, ratOverlap(ratLoops(placedLoops(items, p)), ratLoops(ring), 0), "item %d sticks out", p.Item)
	}
}

func star7(r float64) []r2.Vec {
	var p []r2.Vec
	for k := range 7 {
		q := r * (0.6 + 0.4*float64(k%2))
		p = append(p, r2.Vec{X: q * math.Cos(float64(k)*2*math.Pi/7), Y: q * math.Sin(float64(k)*2*math.Pi/7)})
	}
	return p
}

func TestFitPriorityAndContainers(t *testing.T) {
	items := []Item{
		{Outer: rect(60, 60), Demand: 1},
		{Outer: rect(50, 50), Demand: 1, Priority: 5},
		{Outer: rect(10, 10), Demand: 2, Containers: []int{1}},
	}
	r, err := Fit(context.Background(), items, []Container{{Width: 100, Height: 100}, {Width: 40, Height: 40}}, Options{Iterations: 300})
	require.NoError(t, err)
	require.Len(t, r.Placed, 3)
	require.Equal(t, 1, r.Placed[0].Item, "the item of higher priority has the sheet")
	require.Equal(t, []Unplaced{{0, 0, NoRoom}}, r.Unplaced)
	require.Equal(t, []int{0, 1, 1}, []int{r.Placed[0].Container, r.Placed[1].Container, r.Placed[2].Container})
}

func TestFitLeavesOffcut(t *testing.T) {
	items := []Item{{Outer: rect(300, 200), Demand: 4, Rotations: rightAngles}}
	r, err := Fit(context.Background(), items, []Container{{Width: 2000, Height: 600}}, Options{Iterations: 500})
	require.NoError(t, err)
	require.Equal(t, 400.0, r.Length, "two columns: 200 (2 x 300 high) and 200; the area bound is 400")
	require.InDelta(t, 1, r.Density, 1e-12)
}

// The bodies of squares of the 21-square squared square of side 112
// (Duijvestijn 1978; Bouwkamp code; OEIS A014530): their areas add up to the
// square's and the engine must find that no more fit than the area allows.
func TestFitNeverMoreThanArea(t *testing.T) {
	sides := []float64{2, 4, 6, 7, 8, 9, 11, 15, 16, 17, 18, 19, 24, 25, 27, 29, 33, 35, 37, 42, 50}
	var items []Item
	sum := 0.0
	for _, s := range sides {
		items = append(items, Item{Outer: rect(s, s)})
		sum += s * s
	}
	require.Equal(t, 112.0*112, sum)
	r, err := Fit(context.Background(), items, []Container{{Width: 112, Height: 112}}, Options{Iterations: 800})
	require.NoError(t, err)
	requireLegal(t, items, r.Placed, 112, 112, 0)
	require.Greater(t, r.Density, 0.85)
}

func TestSameBytesForAnyWorkers(t *testing.T) {
	items := []Item{
		{Outer: star7(10), Demand: 8, Rotations: []float64{0, 0.7}},
		{Outer: rect(17, 5), Demand: 8, Rotations: rightAngles},
		{Outer: []r2.Vec{{}, {X: 9}, {Y: 14}}, Demand: 6, Mirror: true},
	}
	sheets := []Container{{Width: 50, Height: 50}, {Width: 60, Height: 40, Forbidden: solids(square(20, 20, 4))}, {Width: 60, Height: 60}}
	opt := Options{Seed: 5, Iterations: 150}
	var strips, fits []Result
	for _, workers := range []int{0, 1, 2, 5} {
		opt.Workers = workers
		s, err := Strip(context.Background(), items, 40, opt)
		require.NoError(t, err)
		f, err := Fit(context.Background(), items, sheets, opt)
		require.NoError(t, err)
		strips, fits = append(strips, s), append(fits, f)
	}
	for k := range strips {
		require.Equal(t, strips[0], strips[k])
		require.Equal(t, fits[0], fits[k])
	}
	requireLegal(t, items, strips[0].Placed, strips[0].Length, 40, 0)
	opt.Seed = 6
	s, err := Strip(context.Background(), items, 40, opt)
	require.NoError(t, err)
	require.NotEqual(t, strips[0].Placed, s.Placed, "another seed, another layout")
}

func TestCancelIsQuick(t *testing.T) {
	items := []Item{{Outer: star7(10), Demand: 300, Rotations: rightAngles}, {Outer: rect(30, 8), Demand: 200, Rotations: rightAngles}}
	for _, after := range []time.Duration{0, 20 * time.Millisecond, 400 * time.Millisecond} {
		ctx, cancel := context.WithCancel(context.Background())
		var at time.Time
		done := make(chan struct{})
		time.AfterFunc(after, func() { at = time.Now(); cancel(); close(done) })
		r, err := Strip(ctx, items, 100, Options{Time: time.Hour, Workers: 2})
		<-done
		late := time.Since(at)
		t.Logf("cancel after %v: returned %v later", after, late)
		require.Less(t, late, time.Second, "far more than the 50 ms that a free machine needs")
		require.NoError(t, err)
		require.True(t, r.Stopped)
		if after == 0 && len(r.Placed) == 0 {
			continue // stopped before the items were read
		}
		require.Len(t, r.Placed, 500)
		if after == 400*time.Millisecond {
			requireLegal(t, items, r.Placed, r.Length, 100, 0)
		}
	}
}

// solids are obstacles without holes.
func solids(loops ...[]r2.Vec) []Obstacle {
	var out []Obstacle
	for _, l := range loops {
		out = append(out, Obstacle{Outer: l})
	}
	return out
}

func outersOf(o []Obstacle) (out [][]r2.Vec) {
	for _, s := range o {
		out = append(out, s.Outer)
	}
	return out
}

// What lies in the hole of an obstacle is placed where there is no other room.
func TestFitUsesHolesOfObstacles(t *testing.T) {
	ring := Obstacle{Outer: square(5, 5, 90), Holes: [][]r2.Vec{square(30, 30, 40)}}
	items := []Item{{Outer: square(0, 0, 30), Demand: 1}, {Outer: square(0, 0, 8), Demand: 2}}
	r, err := Fit(context.Background(), items, []Container{{Width: 100, Height: 100, Forbidden: []Obstacle{ring}}}, Options{Seed: 1, Iterations: 200})
	require.NoError(t, err)
	require.Len(t, r.Placed, 3)
	for _, p := range r.Placed {
		require.True(t, p.At.X >= 30-1e-9 && p.At.Y >= 30-1e-9 && p.At.X <= 62 && p.At.Y <= 62, "%v", p)
	}
	ring.Holes = nil
	r, err = Fit(context.Background(), items, []Container{{Width: 100, Height: 100, Forbidden: []Obstacle{ring}}}, Options{Seed: 1, Iterations: 50})
	require.NoError(t, err)
	require.Empty(t, r.Placed)
}
