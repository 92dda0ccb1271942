package arc_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// wedge draws a triangle with a corner of a known angle at the origin, its sides
// there 100 mm long, turned anyhow.
func wedge(t *rapid.T) (p arc.Path, angle float64) {
	angle = rapid.Float64Range(0.2, 2.9).Draw(t, "angle")
	turn := arc.Rotate(arc.Angle(rapid.Float64Range(-3, 3).Draw(t, "turned")))
	sin, cos := math.Sincos(angle)
	return arc.Polygon(r2.Vec{}, r2.Vec{X: 100}, r2.Vec{X: 100 * cos, Y: 100 * sin}).Transform(turn), angle
}

// TestRoundedCorner holds what rounding takes off against the closed form
// r²(cot(β/2) − (π−β)/2), β the angle between the sides, and the tangents.
func TestRoundedCorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, beta := wedge(t)
		r := rapid.Float64Range(0.001, 0.99).Draw(t, "part") * 100 * math.Tan(beta/2)
		q, err := p.Round(r, 0)
		require.NoError(t, err)
		want := r * r * (1/math.Tan(beta/2) - (math.Pi-beta)/2)
		assert.InDelta(t, want, p.Area()-q.Area(), 1e-8)
		s := q.Segment(0)
		assert.InDelta(t, r, s.Radius(), 1e-9*(1+r))
		for i := range 2 {
			_, u := q.Segment((i + len(q.V) - 1) % len(q.V)).Tangents()
			v, _ := q.Segment(i).Tangents()
			assert.InDelta(t, 0, r2.Cross(u, v), 1e-9)
		}
		back, err := p.Reverse().Round(r)
		if err == nil {
			all, err := p.Round(r)
			require.NoError(t, err)
			assert.InDelta(t, all.Area(), -back.Area(), 1e-8)
		}
		_, err = p.Round(101*math.Tan(beta/2), 0)
		require.ErrorIs(t, err, arc.ErrRange)
	})
}

// TestRoundAtArcs rounds a half disc's corners: the arc of radius r lies inside
// the circle of 50 and on the line, so its center is off the middle by
// √((50−r)² − r²).
func TestRoundAtArcs(t *testing.T) {
	half := arc.Path{V: []arc.Vertex{arc.V(-50, 0, 0), arc.V(50, 0, 1)}, Closed: true}
	for _, r := range []float64{0.01, 1, 10, 24} {
		q, err := half.Round(r)
		require.NoError(t, err)
		require.Len(t, q.V, 4)
		for _, i := range []int{0, 2} {
			c := q.Segment(i).Center()
			assert.InDelta(t, r, c.Y, 1e-9)
			assert.InDelta(t, math.Sqrt((50-r)*(50-r)-r*r), math.Abs(c.X), 1e-9)
			assert.InDelta(t, r, q.Segment(i).Radius(), 1e-9)
		}
	}
	_, err := half.Round(25.1)
	require.ErrorIs(t, err, arc.ErrRange)
}

// TestChamferedCorner: the triangle taken off is d²·sin β / 2.
func TestChamferedCorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, beta := wedge(t)
		d := rapid.Float64Range(0.001, 99).Draw(t, "d")
		q, err := p.Chamfer(d, 0)
		require.NoError(t, err)
		assert.InDelta(t, d*d*math.Sin(beta)/2, p.Area()-q.Area(), 1e-8)
	})
	q, err := arc.Rect(0, 0, 20, 10).Chamfer(5) // uses up the short sides
	require.NoError(t, err)
	assert.Len(t, q.V, 6)
	assert.InDelta(t, 150, q.Area(), 1e-12)
	_, err = arc.Rect(0, 0, 20, 10).Chamfer(5.1)
	require.ErrorIs(t, err, arc.ErrRange)
}

// TestRelievedCorner puts a disc of the cutter's size where it covers the corner
// and asks that it overlap nothing of what is left, wherever the relief goes.
func TestRelievedCorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole, beta := wedge(t)
		hole = hole.Reverse() // the corner is its last vertex
		// Twice the radius is less than the triangle is high over its third side.
		r := rapid.Float64Range(0.001, 0.08).Draw(t, "part") * 100 * math.Cos(beta/2)
		corner := hole.V[2].P
		for _, side := range []arc.Relief{arc.ReliefOnBisector, arc.ReliefIntoNext, arc.ReliefIntoLast} {
			q, err := hole.Relieve(r, side, 2)
			require.NoError(t, err)
			i := 0
			for math.Abs(q.V[i].K) == 0 {
				i++
			}
			c := q.Segment(i).Center()
			assert.InDelta(t, r, q.Segment(i).Radius(), 1e-9*r+1e-10)
			assert.InDelta(t, r, r2.Norm(r2.Sub(c, corner)), 1e-8, "the disc reaches the corner")
			assert.GreaterOrEqual(t, distTo(c, q), r-1e-8, "the disc has room")
			assert.Greater(t, math.Abs(q.Area()), math.Abs(hole.Area()), "the hole grows")
			assert.LessOrEqual(t, math.Abs(q.Area()), math.Abs(hole.Area())+math.Pi*r*r)
		}
	})
	// A right angle on the bisector: half a disc, less the triangle in the hole.
	q, err := arc.Rect(0, 0, 100, 60).Reverse().Relieve(3, arc.ReliefOnBisector)
	require.NoError(t, err)
	assert.InDelta(t, 6000+4*(math.Pi*9/2-9), -q.Area(), 1e-9)
	// Into one side: half a disc, all of it new.
	q, err = arc.Rect(0, 0, 100, 60).Reverse().Relieve(3, arc.ReliefIntoNext)
	require.NoError(t, err)
	assert.InDelta(t, 6000+4*math.Pi*9/2, -q.Area(), 1e-9)
	same, err := arc.Rect(0, 0, 100, 60).Relieve(3, arc.ReliefOnBisector)
	require.NoError(t, err)
	assert.Equal(t, arc.Rect(0, 0, 100, 60), same, "an outline has no inside corner")
	_, err = arc.Rect(0, 0, 100, 60).Relieve(3, arc.ReliefOnBisector, 1)
	require.ErrorIs(t, err, arc.ErrRange)
}

func TestShapesByClosedForm(t *testing.T) {
	for _, r := range []float64{0, 5, 10, 15} {
		p, err := arc.RoundedRect(40, 30, 0, 0, r)
		require.NoError(t, err)
		require.NoError(t, arc.Region{Outer: p}.Check(0))
		assert.InDelta(t, 1200-(4-math.Pi)*r*r, p.Area(), 1e-9)
		assert.InDelta(t, 140-(8-2*math.Pi)*r, p.Length(), 1e-9)
	}
	_, err := arc.RoundedRect(0, 0, 40, 30, 15.1)
	require.ErrorIs(t, err, arc.ErrRange)
	s, err := arc.Slot(r2.Vec{X: 3, Y: 4}, r2.Vec{X: 33, Y: 44}, 8)
	require.NoError(t, err)
	assert.InDelta(t, 50*8+math.Pi*16, s.Area(), 1e-9)
	_, err = arc.Slot(r2.Vec{}, r2.Vec{}, 8)
	require.ErrorIs(t, err, arc.ErrRange)
	for _, n := range []int{3, 4, 6, 1000} {
		p, err := arc.RegularPolygon(r2.Vec{X: 1, Y: 2}, n, 10, 0.3)
		require.NoError(t, err)
		assert.InDelta(t, float64(n)/2*100*math.Sin(2*math.Pi/float64(n)), p.Area(), 1e-9)
	}
	a, err := arc.FromChordSag(760, 45)
	require.NoError(t, err)
	assert.InDelta(t, a.Length(), a.Path().Length(), 1e-12)
	closed := a.Path()
	closed.Closed = true
	assert.InDelta(t, a.Area(), closed.Area(), 1e-9)
}

// TestCornersTakeSpecialValues: none may panic, and what comes back is finite.
func TestCornersTakeSpecialValues(t *testing.T) {
	odd := []float64{0, math.Copysign(0, -1), 1, -1, 5e-324, 1e-160, 1e160, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN()}
	for _, x := range odd {
		for _, k := range odd {
			for _, closed := range []bool{true, false} {
				p := arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(x, 1, 0), arc.V(1, x, k)}, Closed: closed}
				for _, r := range odd {
					results := make([]arc.Path, 4)
					errs := make([]error, 4)
					results[0], errs[0] = p.Round(r)
					results[1], errs[1] = p.Chamfer(r, 1)
					results[2], errs[2] = p.Relieve(r, arc.ReliefIntoNext)
					results[3], errs[3] = arc.RoundedRect(0, x, k, 1, r)
					for i, q := range results {
						if errs[i] == nil {
							assert.NoError(t, q.Usable())
						}
					}
				}
			}
			p, err := arc.Slot(r2.Vec{X: x, Y: k}, r2.Vec{X: k, Y: 1}, x)
			if err == nil {
				assert.NoError(t, p.Usable())
			}
		}
		p, err := arc.RegularPolygon(r2.Vec{X: x}, 3, x, arc.Angle(x))
		if err == nil {
			assert.NoError(t, p.Usable())
		}
	}
	for _, at := range []int{-1, 4, math.MaxInt} {
		_, err := arc.Rect(0, 0, 1, 1).Round(0.1, at)
		require.ErrorIs(t, err, arc.ErrRange)
	}
	_, err := arc.Path{}.Round(1)
	require.ErrorIs(t, err, arc.ErrEmpty)
}

func TestRegionTellsWhatPathsTell(t *testing.T) {
	r := region(arc.Rect(0, 0, 40, 30), arc.Circle(r2.Vec{X: 20, Y: 15}, 5).Reverse())
	assert.InDelta(t, 140+10*math.Pi, r.Length(), 1e-9)
	loop, _, pt := r.Closest(r2.Vec{X: 20, Y: 17})
	assert.Equal(t, 1, loop)
	assert.InDelta(t, 20, pt.Y, 1e-9)
	f, err := r.Flatten(0.01)
	require.NoError(t, err)
	assert.InDelta(t, r.Area(), f.Area(), 0.01*r.Length())
	assert.Equal(t, r.Outer.String()+"\n"+r.Holes[0].String(), fmt.Sprint(r))
	a, b := []arc.Region{r}, []arc.Region{region(arc.Rect(-10, -10, 20, 15))}
	x, err := arc.SymmetricDifference(a, b, 0)
	require.NoError(t, err)
	i, err := arc.Intersection(a, b, 0)
	require.NoError(t, err)
	xa, _, _ := totals(x)
	ia, _, _ := totals(i)
	assert.InDelta(t, r.Area()+750-2*ia, xa, 1e-6)
}

// A hole for a plug of 100 by 60, cut with a cutter of 6 mm, lets the plug's
// square corners in.
func ExamplePath_Relieve() {
	hole := arc.Rect(0, 0, 100, 60).Reverse()
	relieved, err := hole.Relieve(3, arc.ReliefOnBisector)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d arcs, %.1f mm² more\n", len(relieved.V)/2, hole.Area()-relieved.Area())
	// Output: 4 arcs, 20.5 mm² more
}

func ExamplePath_Round() {
	top, err := arc.Rect(0, 0, 600, 400).Round(50, 2, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm around\n", top.Length())
	_, err = arc.Rect(0, 0, 600, 400).Round(250)
	fmt.Println(err)
	// Output:
	// 1957.08 mm around
	// arc.Path.Round: radius = 250 mm: need less, for want of room at a corner
}

// A vertex named that is no inside corner is told as that, whatever the radius.
func TestRelieveNamesTheCorner(t *testing.T) {
	l := arc.Polygon(r2.Vec{}, r2.Vec{X: 100}, r2.Vec{X: 100, Y: 40}, r2.Vec{X: 40, Y: 40}, r2.Vec{X: 40, Y: 100}, r2.Vec{Y: 100})
	for i := range 6 {
		_, err := l.Relieve(3, arc.ReliefOnBisector, i)
		var pe *arc.ParamError
		if i == 3 {
			assert.NoError(t, err)
		} else if assert.ErrorAs(t, err, &pe) {
			assert.Equal(t, "at", pe.Param)
			assert.Equal(t, i, pe.Value)
		}
	}
}
