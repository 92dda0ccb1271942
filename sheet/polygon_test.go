package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// toSegment is the distance of a point from a line segment.
func toSegment(p, a, b r2.Vec) float64 {
	u := r2.Sub(b, a)
	t := math.Max(0, math.Min(1, r2.Dot(r2.Sub(p, a), u)/r2.Norm2(u)))
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(t, u))))
}

// windingOf counts how often a polygon goes around a point.
func windingOf(poly []r2.Vec, p r2.Vec) float64 {
	sum := 0.0
	for i, a := range poly {
		a, b := r2.Sub(a, p), r2.Sub(poly[(i+1)%len(poly)], p)
		sum += math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
	}
	return sum / (2 * math.Pi)
}

// The polygons the search works with must keep every point of the true outline
// at least the grown distance inside; points of the outline are sampled, the
// distances are those of straight edges.
func TestGrownHoldsTheOutline(t *testing.T) {
	shapes := []func(l, w, k float64) arc.Region{
		func(l, w, _ float64) arc.Region { return arc.Region{Outer: arc.Rect(0, 0, l, w)} },
		func(l, _, _ float64) arc.Region { return arc.Region{Outer: arc.Circle(r2.Vec{}, l)} },
		func(l, w, k float64) arc.Region { // a slot that a large distance closes
			return arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(l, 0, -k), arc.V(l, w, 0), arc.V(l/2+3, w, 0), arc.V(l/2+3, w/3, 0), arc.V(l/2-3, w/3, 0), arc.V(l/2-3, w, 0), arc.V(0, w, 0)}, Closed: true}}
		},
		func(l, w, k float64) arc.Region { // a hole that vanishes, and one that does not
			return arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, k), arc.V(l, w, 0), arc.V(0, w, 0)}, Closed: true},
				Holes: []arc.Path{arc.Circle(r2.Vec{X: l / 4, Y: w / 2}, min(l, w)/5).Reverse(), arc.Rect(l*0.6, w*0.4, l*0.6+6, w*0.4+6).Reverse()}}
		},
		func(l, w, k float64) arc.Region { // a scallop of small arcs
			return arc.Region{Outer: arc.Path{V: []arc.Vertex{arc.V(0, 0, 0), arc.V(l, 0, 0), arc.V(l, w, -k), arc.V(l*2/3, w, k), arc.V(l/3, w, -k), arc.V(0, w, 0)}, Closed: true}}
		},
	}
	rapid.Check(t, func(t *rapid.T) {
		l, w := rapid.Float64Range(60, 600).Draw(t, "l"), rapid.Float64Range(40, 300).Draw(t, "w")
		r := rapid.SampledFrom(shapes).Draw(t, "shape")(l, w, rapid.Float64Range(0.02, 0.35).Draw(t, "k"))
		r = r.Transform(arc.Rotate(arc.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn"))))
		d := rapid.SampledFrom([]float64{0, 0.5, 4, 6.35, 20}).Draw(t, "grow")
		outer, holes := grown(r, d, 0.05)
		require.True(t, simple(outer))
		for _, loop := range r.Loops() {
			for s := 0.0; s < loop.Length(); s += loop.Length() / 200 {
				p, _ := loop.At(s)
				requireInside(t, p, outer, holes, d)
			}
		}
	})
}

func requireInside(t *rapid.T, p r2.Vec, outer []r2.Vec, holes [][]r2.Vec, d float64) {
	for i, poly := range append([][]r2.Vec{outer}, holes...) {
		least := math.Inf(1)
		for j, a := range poly {
			least = math.Min(least, toSegment(p, a, poly[(j+1)%len(poly)]))
		}
		require.GreaterOrEqual(t, least, d-1e-9, "distance to loop %d", i)
		if least > 1e-9 {
			want := 0.0
			if i == 0 {
				want = 1
			}
			require.InDelta(t, want, windingOf(poly, p), 1e-6, "loop %d", i)
		}
	}
}

// Tangents may stand off an arc by the tolerance, mitered corners by as much
// as a right angle needs; nothing more is given away.
func TestGrownIsTight(t *testing.T) {
	for _, c := range []struct {
		r    arc.Region
		d    float64
		area float64
	}{
		{arc.Region{Outer: arc.Rect(0, 0, 100, 50)}, 4, 108 * 58},
		{arc.Region{Outer: arc.Circle(r2.Vec{}, 100)}, 5, math.Pi * 105 * 105},
		{arc.Region{Outer: arc.Rect(0, 0, 100, 50), Holes: []arc.Path{arc.Rect(20, 10, 80, 40).Reverse()}}, 5, 110*60 - 50*20},
	} {
		outer, holes := grown(c.r, c.d, 0.05)
		a := shoelace(outer)
		for _, h := range holes {
			a += shoelace(h)
		}
		require.InDelta(t, c.area, a, 0.05*c.r.Outer.Length()*1.1+1e-6)
	}
}

// Edges of whole coordinates against all others, by exact signs.
func TestSimpleAgainstAllPairs(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	side := func(a, b, p r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) }
	on := func(p, a, b r2.Vec) bool { return side(a, b, p) == 0 && r2.Dot(r2.Sub(a, p), r2.Sub(b, p)) <= 0 }
	count := map[bool]int{}
	for range 20000 {
		p := make([]r2.Vec, 4+rng.IntN(4))
		for i := range p {
			p[i] = r2.Vec{X: float64(rng.IntN(9)), Y: float64(rng.IntN(9))}
		}
		want := true
		for i, a := range p {
			for k := i + 2; k < len(p) && k-i < len(p)-1; k++ {
				b, c, d := p[i+1], p[k], p[(k+1)%len(p)]
				cross := side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
				want = want && !cross && !on(a, c, d) && !on(b, c, d) && !on(c, a, b) && !on(d, a, b)
			}
		}
		require.Equal(t, want, simple(p), "%v", p)
		count[want]++
	}
	require.Greater(t, min(count[true], count[false]), 1000)
}
