package plate

import (
	"testing"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/part"
	"example.com/sagitta/sheet/cut"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A board turned over is the same board in space: its corners on both faces are,
// and so is its hole; and its bevels lean the other way.
func TestTurned(t *testing.T) {
	p := Plate{
		Panel: "board", Thickness: 18, Density: 700,
		Sides: Rectangle(10, 20, 310, 220, [4]arc.Angle{-30 * arc.Degree, -5 * arc.Degree, 0, -12 * arc.Degree}),
		Holes: []arc.Path{arc.Circle(r2.Vec{X: 80, Y: 90}, 25).Reverse()},
		Pose:  part.Pose{At: r3.Vec{X: 5, Y: 700, Z: 300}, Right: r3.Vec{X: 1}, Up: r3.Vec{Z: -1}, In: r3.Vec{Y: 1}},
	}
	require.True(t, p.Undercuts())
	q, ok := p.Turned()
	require.True(t, ok)
	require.False(t, q.Undercuts())
	a, ok := p.Finish()
	require.True(t, ok)
	b, ok := q.Finish()
	require.True(t, ok)
	require.InDelta(t, a.Mass, b.Mass, 1e-9)
	places := func(of part.Part, path arc.Path, depth float64) []r3.Vec {
		var out []r3.Vec
		for _, v := range path.V {
			out = append(out, of.Pose.Point(v.P, depth))
		}
		return out
	}
	same := func(a, b []r3.Vec) {
		t.Helper()
		require.Len(t, b, len(a))
		for _, v := range a {
			near := false
			for _, w := range b {
				near = near || r3.Norm(r3.Sub(v, w)) < 1e-6
			}
			require.True(t, near, "%v of %v", v, b)
		}
	}
	same(places(a, a.Outline.Outer, 0), places(b, b.Back.Outer, 18))
	same(places(a, a.Back.Outer, 18), places(b, b.Outline.Outer, 0))
	ha, hb := a.Outline.Holes[0].Bounds(), b.Outline.Holes[0].Bounds()
	mid := func(of part.Part, h r2.Box) r3.Vec { return of.Pose.Point(r2.Scale(0.5, r2.Add(h.Min, h.Max)), 9) }
	same([]r3.Vec{mid(a, ha)}, []r3.Vec{mid(b, hb)})
	require.Negative(t, b.Outline.Holes[0].Area())
	require.Positive(t, b.Outline.Outer.Area())
	for _, e := range b.Edges {
		require.False(t, e.Saw, e.Name)
		was, _ := a.Edge(e.Name)
		require.InDelta(t, -was.Bevel.Degrees(), e.Bevel.Degrees(), 1e-9)
	}
	require.Len(t, b.Work.Bevels, 3)

	// What would undercut then, or has a face that something is cut into, stays.
	p.Sides[2].Bevel = 8 * arc.Degree
	_, ok = p.Turned()
	require.False(t, ok)
	p.Sides[2].Bevel = 0
	p.Grooves = []cut.Slot{{From: r2.Vec{X: 10, Y: 100}, To: r2.Vec{X: 310, Y: 100}, Width: 6, Depth: 5}}
	_, ok = p.Turned()
	require.False(t, ok)
}
