package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

func region(outer arc.Path, holes ...arc.Path) arc.Region {
	return arc.Region{Outer: outer, Holes: holes}
}

func totals(rs []arc.Region) (area, length float64, loops int) {
	for _, r := range rs {
		area += r.Area()
		for _, l := range r.Loops() {
			length += l.Length()
			loops++
		}
	}
	return area, length, loops
}

// TestOffsetClosedForms has cases whose area, length and loops are known
// exactly.
func TestOffsetClosedForms(t *testing.T) {
	pi := math.Pi
	s11 := math.Sqrt(11)
	circle := arc.Circle(r2.Vec{X: 5, Y: -3}, 10)
	frame := region(arc.Rect(0, 0, 100, 80), arc.Rect(20, 20, 80, 60).Reverse())
	dumbbell := arc.Polygon(r2.Vec{}, r2.Vec{X: 30}, r2.Vec{X: 30, Y: 10}, r2.Vec{X: 50, Y: 10}, r2.Vec{X: 50}, r2.Vec{X: 80},
		r2.Vec{X: 80, Y: 30}, r2.Vec{X: 50, Y: 30}, r2.Vec{X: 50, Y: 20}, r2.Vec{X: 30, Y: 20}, r2.Vec{X: 30, Y: 30}, r2.Vec{Y: 30})
	for _, c := range []struct {
		name         string
		r            arc.Region
		d            float64
		join         arc.Join
		area, length float64
		loops        int
	}{
		{"square grown", region(arc.Rect(0, 0, 10, 10)), 2, arc.RoundJoin, 180 + 4*pi, 40 + 4*pi, 1},
		{"square mitered", region(arc.Rect(0, 0, 10, 10)), 2, arc.MiterJoin, 196, 56, 1},
		{"square shrunk", region(arc.Rect(0, 0, 10, 10)), -2, arc.RoundJoin, 36, 24, 1},
		{"square vanishing", region(arc.Rect(0, 0, 10, 10)), -5, arc.RoundJoin, 0, 0, 0},
		{"square nearly vanishing", region(arc.Rect(0, 0, 10, 10)), -4.999, arc.RoundJoin, 4e-6, 8e-3, 1},
		{"square long gone", region(arc.Rect(0, 0, 10, 10)), -500, arc.RoundJoin, 0, 0, 0},
		{"circle grown", region(circle), 3, arc.RoundJoin, 169 * pi, 26 * pi, 1},
		{"circle shrunk", region(circle), -3, arc.RoundJoin, 49 * pi, 14 * pi, 1},
		{"circle vanishing", region(circle), -10, arc.RoundJoin, 0, 0, 0},
		{"circle nearly vanishing", region(circle), -10 + 1e-9, arc.RoundJoin, 0, 0, 0},
		{"ring closing", region(arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{}, 5).Reverse()), 5, arc.RoundJoin, 625 * pi, 50 * pi, 1},
		{"ring thinning", region(arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{}, 10).Reverse()), -4.5, arc.RoundJoin, (15.5*15.5 - 14.5*14.5) * pi, 60 * pi, 2},
		{"ring thinned away", region(arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{}, 10).Reverse()), -5, arc.RoundJoin, 0, 0, 0},
		{"frame shrunk", frame, -5, arc.MiterJoin, 90*70 - 70*50, 320 + 240, 2},
		{"frame grown over its hole", frame, 20, arc.MiterJoin, 140 * 120, 520, 1},
		{"neck as wide as the tool", region(dumbbell), -5, arc.RoundJoin, 900 - 25*pi, 140 + 10*pi, 2},
		{"neck a little wider", region(dumbbell), -4.9, arc.RoundJoin, 2*20.2*20.2 + 4 + 98 - 4.9*4.9*pi, 0, 1},
		{"neck split", region(dumbbell), -6, arc.RoundJoin, 2 * (18*18 + 10*(6-s11) - 2*(9*pi-s11*2.5-18*math.Asin(s11/6))), 0, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := c.r.Offset(c.d, arc.OffsetOptions{Join: c.join})
			require.NoError(t, err)
			area, length, loops := totals(out)
			assert.Equal(t, c.loops, loops)
			assert.InDelta(t, c.area, area, 1e-5)
			if c.length != 0 {
				assert.InDelta(t, c.length, length, 1e-5)
			}
		})
	}
}
