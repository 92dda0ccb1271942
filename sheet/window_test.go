package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func corners(xy ...float64) arc.Path {
	var v []r2.Vec
	for i := 0; i < len(xy); i += 2 {
		v = append(v, r2.Vec{X: xy[i], Y: xy[i+1]})
	}
	return arc.Polygon(v...)
}

// The largest rectangles of known shapes: half of a right triangle, the square
// of a disc, the better leg of an angle, the better side of a knot.
func TestWindowOfKnownShapes(t *testing.T) {
	ell := arc.Region{Outer: corners(0, 0, 500, 0, 500, 150, 300, 150, 300, 300, 0, 300)}
	for name, c := range map[string]struct {
		s           Stock
		margin, gap float64
		area        float64
	}{
		"whole":    {Stock{Length: 400, Width: 300}, 10, 3, 380 * 280},
		"triangle": {Stock{Outline: arc.Region{Outer: corners(0, 0, 600, 0, 0, 400)}}, 0, 0, 300 * 200},
		"disc":     {Stock{Outline: arc.Region{Outer: arc.Circle(r2.Vec{X: 7, Y: -3}, 200)}}, 0, 0, 2 * 200 * 200},
		"angle":    {Stock{Outline: ell}, 0, 0, 300 * 300},
		"trimmed":  {Stock{Outline: ell}, 10, 3, 280 * 280},
		"knot":     {Stock{Length: 1000, Width: 500, Forbidden: []arc.Region{{Outer: arc.Circle(r2.Vec{X: 300, Y: 200}, 50)}}}, 0, 4, 646 * 500},
		"ring": {Stock{Outline: arc.Region{Outer: corners(0, 0, 900, 0, 900, 300, 0, 300), Holes: []arc.Path{corners(100, 100, 100, 200, 200, 200, 200, 100)}}},
			20, 0, 660 * 260},
	} {
		b, ok := c.s.window(c.margin, c.gap, 1e-4, unstopped)
		require.True(t, ok, name)
		require.InEpsilon(t, c.area, area(b), 1e-5, "%s: %v", name, b)
		require.LessOrEqual(t, area(b), c.area*(1+1e-9), name)
	}
	_, ok := Stock{Outline: arc.Region{Outer: corners(0, 0, 30, 0, 0, 30)}}.window(12, 0, 0.05, unstopped)
	require.False(t, ok, "nothing is left of a chip")
	_, ok = Stock{Length: 100, Width: 100, Forbidden: []arc.Region{{Outer: arc.Rect(-1, -1, 101, 101)}}}.window(0, 0, 0.05, unstopped)
	require.False(t, ok, "all is forbidden")
}

// Rectangular defects against all rectangles with sides on theirs.
func TestWindowAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	for range 60 {
		s := Stock{Length: 100, Width: 60}
		xs, ys := []float64{0, 100}, []float64{0, 60}
		for range 1 + rng.IntN(5) {
			x, y := float64(rng.IntN(90)), float64(rng.IntN(50))
			w, h := float64(1+rng.IntN(30)), float64(1+rng.IntN(20))
			s.Forbidden = append(s.Forbidden, arc.Region{Outer: arc.Rect(x, y, x+w, y+h)})
			xs, ys = append(xs, x, x+w), append(ys, y, y+h)
		}
		most := 0.0
		for _, x0 := range xs {
			for _, x1 := range xs {
				for _, y0 := range ys {
					for _, y1 := range ys {
						if x1 <= x0 || y1 <= y0 || x1 > 100 || y1 > 60 {
							continue
						}
						free := true
						for _, f := range s.Forbidden {
							b := f.Bounds()
							free = free && (b.Max.X <= x0 || b.Min.X >= x1 || b.Max.Y <= y0 || b.Min.Y >= y1)
						}
						if free {
							most = math.Max(most, (x1-x0)*(y1-y0))
						}
					}
				}
			}
		}
		b, _ := s.window(0, 0, 0.05, unstopped)
		require.InDelta(t, most, area(b), 1e-6)
	}
}
