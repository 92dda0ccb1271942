package sheet

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func soundRun() *run {
	parts := []Part{{Name: "a", Qty: 3, Thickness: 1, Outline: arc.Region{Outer: arc.Rect(0, 0, 100, 50)}}}
	stock := []Stock{{Thickness: 1, Length: 300, Width: 200, Count: 1}}
	return newRun(context.Background(), parts, stock, groups(parts, stock)[0], Options{Iterations: 5})
}

// at puts copies 0, 1, … of the part at points.
func planAt(left []int, at ...r2.Vec) *plan {
	p := &plan{left: [][]int{left}, large: []bool{false}, sheets: []Sheet{{}}}
	for i, v := range at {
		p.sheets[0].Placements = append(p.sheets[0].Placements, Placement{Copy: i, At: v})
	}
	return p
}

// Where the last plan of a search is faulty, whatever the fault, the best
// before it is taken, or what of it is not at fault.
func TestFaultyPlansAreNotReturned(t *testing.T) {
	good, fewer := planAt([]int{2}, r2.Vec{}, r2.Vec{X: 100}), planAt([]int{1, 2}, r2.Vec{})
	two := planAt(nil, r2.Vec{}, r2.Vec{X: 110}, r2.Vec{Y: 60})
	two.sheets = append(two.sheets, Sheet{Placements: two.sheets[0].Placements[2:]})
	two.sheets[0].Placements = two.sheets[0].Placements[:2]
	for name, bad := range map[string]*plan{
		"overlap":  planAt(nil, r2.Vec{}, r2.Vec{X: 99}, r2.Vec{Y: 60}),
		"off":      planAt(nil, r2.Vec{X: -1}, r2.Vec{X: 100}, r2.Vec{Y: 60}),
		"lost":     planAt(nil, r2.Vec{}, r2.Vec{X: 100}),
		"twice":    planAt([]int{2}, r2.Vec{}, r2.Vec{X: 100}, r2.Vec{Y: 60}),
		"no stock": two,
	} {
		r := soundRun()
		require.NotEmpty(t, r.faults(bad), name)
		r.trail = []*plan{fewer, good, bad}
		require.Same(t, good, r.sound(bad), name)
		r.trail = nil
		p := r.sound(bad)
		require.Empty(t, r.faults(p), name)
		if name == "overlap" || name == "off" {
			require.Len(t, p.sheets[0].Placements, 2, name)
			require.Len(t, p.left[0], 1, name)
		}
	}
	require.Same(t, good, soundRun().sound(good))
	// Five panels around a square cannot be cut from edge to edge.
	r := soundRun()
	r.saw = &Saw{}
	r.parts[0].Qty, r.windows[0] = 4, box(0, 0, 300, 200)
	wheel := planAt(nil, r2.Vec{}, r2.Vec{X: 150}, r2.Vec{X: 50, Y: 100}, r2.Vec{X: 50, Y: 50})
	wheel.sheets[0].Placements[1].Rotate = 90 * arc.Degree
	wheel.sheets[0].Placements[3] = Placement{Copy: 3, At: r2.Vec{X: 50, Y: 50}, Rotate: 90 * arc.Degree}
	require.Len(t, r.faults(wheel), 1)
	require.Equal(t, "cut", r.faults(wheel)[0].Rule)
	require.Empty(t, r.faults(r.sound(wheel)))
}

func TestFaultyStripsAreNotReturned(t *testing.T) {
	r := soundRun()
	r.opt.Gap, r.stock[0].Width = 4, 60
	bad := Strip{Placements: planAt(nil, r2.Vec{}, r2.Vec{X: 20}, r2.Vec{X: 200}).sheets[0].Placements}
	require.Error(t, r.checkStrip(bad, 60))
	s, err := r.soundStrip(bad, 60)
	require.NoError(t, err)
	require.NoError(t, r.checkStrip(s, 60))
	require.NoError(t, r.checkStrip(r.row(bad), 60))
	r.stock[0].Width = 40
	_, err = r.soundStrip(bad, 40)
	require.ErrorIs(t, err, ErrIllegal)
}
