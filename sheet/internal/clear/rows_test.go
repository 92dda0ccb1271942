package clear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// Whatever is near is found, and the winding is that of all elements.
func TestRowsFindAll(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 6))
	for range 300 {
		var v []arc.Vertex
		n, wide, high := 3+r.IntN(60), math.Exp(8*r.Float64()), math.Exp(8*r.Float64())
		for range n { // loops that cross themselves at will
			v = append(v, arc.V(wide*r.Float64(), high*r.Float64(), float64(r.IntN(2))*(r.Float64()-0.5)))
		}
		b := NewBody(arc.Region{Outer: arc.Path{V: v, Closed: true}})
		rows := newRows(b)
		for range 20 {
			p := r2.Vec{X: wide * (1.2*r.Float64() - 0.1), Y: high * (1.2*r.Float64() - 0.1)}
			assert.Equal(t, b.winding(p), rows.winding(p))
			d := math.Exp(6 * r.Float64())
			box := r2.Box{Min: p, Max: r2.Add(p, r2.Vec{X: d * r.Float64(), Y: d * r.Float64()})}
			found := map[int]int{}
			rows.near(box, d, func(i int) { found[i]++ })
			for i := range b.e {
				if Near(b.e[i].box, box, d) {
					assert.Equal(t, 1, found[i])
				}
				assert.LessOrEqual(t, found[i], 1)
			}
		}
	}
}

// star is a loop of n lines, in and out, about a circle.
func star(n int) arc.Region {
	var p []r2.Vec
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d := 500. + float64(i%2)*3
		p = append(p, r2.Vec{X: d * cos, Y: d * sin})
	}
	return arc.Region{Outer: arc.Polygon(p...)}
}

// A vertex that is pulled across the loop is seen wherever it is.
func TestCrossingOfLongLoops(t *testing.T) {
	for at := range 40 {
		r := star(400)
		_, bad := Crossing(r)
		assert.False(t, bad)
		v := &r.Outer.V[at*10].P
		*v = r2.Scale(-1.1, *v)
		_, bad = Crossing(r)
		assert.True(t, bad)
	}
}

func BenchmarkCrossing(b *testing.B) {
	for _, n := range []int{500, 5000} {
		r := star(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, bad := Crossing(r); bad {
					b.Fatal("a sound loop is refused")
				}
			}
		})
	}
}
