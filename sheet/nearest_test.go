package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A gap that is too small is told as the least distance of the two outlines: of
// circles that of their centers less their radii, else that of the points of one
// outline, taken densely, from the other.
func TestGapsAreTheLeastDistance(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	stock := []Stock{{Thickness: 1, Length: 4000, Width: 4000}}
	told := 0
	for i := range 200 {
		a, b := arc.Region{Outer: arc.Circle(r2.Vec{}, 50+r.Float64()*200)}, arc.Region{Outer: arc.Circle(r2.Vec{}, 50+r.Float64()*200)}
		if i%2 == 1 {
			a.Outer = starOf(r, 60+r.Float64()*200)
		}
		parts := []Part{{Name: "a", Thickness: 1, Outline: a}, {Name: "b", Thickness: 1, Outline: b}}
		at := Placement{Part: 1, At: r2.Vec{X: 1200 + r.Float64()*300, Y: 1200 + r.Float64()*300}}
		from := Placement{At: r2.Vec{X: 900, Y: 900}}
		one, other := a.Transform(from.Motion()), b.Transform(at.Motion())
		least := math.Inf(1)
		if s := other.Outer.Segment(0); i%2 == 0 {
			q := one.Outer.Segment(0)
			least = r2.Norm(r2.Sub(center(s), center(q))) - s.Radius() - q.Radius()
		} else {
			for j := range one.Outer.NumSegments() {
				q := one.Outer.Segment(j)
				for k := range 2001 {
					p := r2.Add(q.A, r2.Scale(float64(k)/2000, r2.Sub(q.B, q.A)))
					least = math.Min(least, r2.Norm(r2.Sub(p, center(s)))-s.Radius())
				}
			}
		}
		if least < 1 {
			continue
		}
		told++
		err := Check(parts, stock, Layout{Sheets: []Sheet{{Placements: []Placement{from, at}}}}, Options{Gap: least + 1 + r.Float64()*50})
		var faults Faults
		require.ErrorAs(t, err, &faults)
		assert.InDelta(t, least, faults[0].Clear, 0.01)
	}
	assert.Greater(t, told, 60)
}

// center returns the middle of a half circle's chord.
func center(s arc.Segment) r2.Vec { return r2.Scale(0.5, r2.Add(s.A, s.B)) }

// starOf returns a loop of straight sides about the origin.
func starOf(r *rand.Rand, size float64) arc.Path {
	var p []r2.Vec
	for i := range 7 {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / 7)
		d := size * (0.5 + r.Float64()/2)
		p = append(p, r2.Vec{X: d * cos, Y: d * sin})
	}
	return arc.Polygon(p...)
}
