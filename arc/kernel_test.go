package arc_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// A sight is what two results of one case must agree on, however the input was
// turned and wherever it started.
type sight struct {
	pieces, loops int
	area, length  float64
}

func seen(rs []arc.Region) sight {
	area, length, loops := totals(rs)
	return sight{len(rs), loops, area, length}
}

func (s sight) same(t *testing.T, want sight, f, tol float64) {
	t.Helper()
	require.Equal(t, want.pieces, s.pieces, "pieces")
	require.Equal(t, want.loops, s.loops, "loops")
	require.InDelta(t, want.area*f*f, s.area, tol*f*(1+want.length*f), "area")
	require.InDelta(t, want.length*f, s.length, tol*f*1e3, "length")
}

// rotations returns the loop from each of its vertices.
func rotations(p arc.Path) []arc.Path {
	var out []arc.Path
	for i := range p.V {
		out = append(out, arc.Path{V: slices.Concat(p.V[i:], p.V[:i]), Closed: true})
	}
	return out
}

// motions are what no result may depend on.
var motions = []struct {
	name string
	m    arc.Motion
}{
	{"still", arc.Motion{}},
	{"moved", arc.Shift(r2.Vec{X: 1234.567, Y: -98.7})},
	{"quarter turn", arc.Rotate(90 * arc.Degree)},
	{"half turn", arc.Rotate(180 * arc.Degree)},
	{"turned by 0.1", arc.Rotate(0.1)},
	{"turned by 2", arc.Rotate(2)},
	{"mirrored", arc.MirrorX()},
	{"mirrored and turned", arc.MirrorY().Then(arc.Rotate(-1.2345))},
	{"small", arc.Scale(1e-3)},
	{"large", arc.Scale(1e3)},
	{"small, turned and moved", arc.Rotate(0.3).Then(arc.Scale(0.01)).Then(arc.Shift(r2.Vec{X: 5, Y: 7}))},
}

// shapes are the awkward outlines, each 10 to 100 mm in size.
func shapes() map[string]arc.Region {
	v := func(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
	closed := func(v ...arc.Vertex) arc.Path { return arc.Path{V: v, Closed: true} }
	slot := arc.Polygon(v(0, 0), v(60, 0), v(60, 40), v(35, 40), v(35, 10), v(25, 10), v(25, 40), v(0, 40))
	return map[string]arc.Region{
		"square":    region(arc.Rect(0, 0, 40, 40)),
		"circle":    region(arc.Circle(r2.Vec{}, 20)),
		"disc hole": region(arc.Rect(0, 0, 50, 50), arc.Circle(v(25, 25), 15).Reverse()),
		"ring":      region(arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{}, 10).Reverse()),
		"eccentric": region(arc.Circle(r2.Vec{}, 20), arc.Circle(v(6, 0), 10).Reverse()),
		"stadium":   region(closed(arc.V(0, 0, 0), arc.V(40, 0, 1), arc.V(40, 20, 0), arc.V(0, 20, 1))),
		"lens":      region(closed(arc.V(0, 0, 0.3), arc.V(40, 0, 0.3))),
		"moon":      region(closed(arc.V(0, 0, 0.8), arc.V(40, 0, -0.5))),
		"drop":      region(closed(arc.V(0, 0, 0), arc.V(30, -10, 1.3), arc.V(30, 10, 0))),
		"slot":      region(slot),
		"cove":      region(closed(arc.V(0, 0, 0), arc.V(40, 0, 0), arc.V(40, 40, -0.9), arc.V(0, 40, 0))),
		"scallop": region(closed(arc.V(0, 0, 0), arc.V(60, 0, 0), arc.V(60, 30, -1), arc.V(40, 30, -1), arc.V(20, 30, -1),
			arc.V(0, 30, 0))),
		"spike":       region(arc.Polygon(v(0, 0), v(50, 0), v(50, 20), v(25.0005, 20), v(25, 60), v(24.9995, 20), v(0, 20))),
		"bare spike":  region(arc.Polygon(v(0, 0), v(50, 0), v(50, 20), v(25, 20), v(25, 60), v(25, 20), v(0, 20))),
		"slit":        region(arc.Polygon(v(0, 0), v(25, 0), v(25, 15), v(25, 0), v(50, 0), v(50, 20), v(0, 20))),
		"repeated":    region(arc.Polygon(v(0, 0), v(0, 0), v(40, 0), v(40, 0), v(40, 30), v(40, 30), v(40, 30), v(0, 30))),
		"crumbs":      region(arc.Polygon(v(0, 0), v(40, 0), v(40, 1e-6), v(40.000001, 2e-6), v(40, 30), v(20, 30+1e-6), v(20-1e-6, 30), v(0, 30))),
		"nearly flat": region(arc.Polygon(v(0, 0), v(10, 1e-7), v(20, -1e-7), v(30, 1e-9), v(40, 0), v(40, 30), v(0, 30))),
		"flat arcs":   region(closed(arc.V(0, 0, 1e-9), arc.V(40, 0, 1e-5), arc.V(40, 30, -1e-7), arc.V(0, 30, 1e-12))),
		"comb": region(arc.Polygon(v(0, 0), v(70, 0), v(70, 30), v(60, 30), v(60, 10), v(50, 10), v(50, 30), v(40, 30),
			v(40, 10), v(30, 10), v(30, 30), v(20, 30), v(20, 10), v(10, 10), v(10, 30), v(0, 30))),
		"tangent hole": region(arc.Rect(0, 0, 40, 40), arc.Circle(v(20, 10), 10).Reverse()),
		"two holes touching": region(arc.Rect(-30, -20, 30, 20), arc.Circle(v(-10, 0), 10).Reverse(),
			arc.Circle(v(10, 0), 10).Reverse()),
	}
}

// TestOffsetInvariance offsets every shape by distances that make it touch,
// coincide, collapse and vanish, from each start vertex and in every position.
func TestOffsetInvariance(t *testing.T) {
	ds := []float64{1, 5, 10, 20, 5 - 1e-9, 5 + 1e-9, 10 - 1e-9, 10 + 1e-9, 3.3, 1e-4}
	for name, r := range shapes() {
		t.Run(name, func(t *testing.T) {
			for _, d := range ds {
				for _, d := range []float64{d, -d} {
					for _, join := range []arc.Join{arc.RoundJoin, arc.MiterJoin} {
						invariant(t, r, d, join)
					}
				}
			}
		})
	}
}

func invariant(t *testing.T, r arc.Region, d float64, join arc.Join) {
	t.Helper()
	base, err := r.Offset(d, arc.OffsetOptions{Join: join, Tolerance: 1e-6})
	require.NoError(t, err, "d %g", d)
	if join == arc.RoundJoin {
		sampled(t, r, d, base)
	}
	want := seen(base)
	for _, m := range motions {
		f := m.m.Factor()
		out, err := r.Transform(m.m).Offset(d*f, arc.OffsetOptions{Join: join, Tolerance: 1e-6 * math.Max(f, 1e-3)})
		require.NoError(t, err, "d %g %s", d, m.name)
		seen(out).same(t, want, f, 1e-6)
	}
	for _, p := range rotations(r.Outer) {
		out, err := region(p, r.Holes...).Offset(d, arc.OffsetOptions{Join: join})
		require.NoError(t, err, "d %g", d)
		seen(out).same(t, want, 1, 1e-6)
	}
	if len(r.Holes) == 0 {
		ways := map[float64]arc.Path{d: r.Outer, -d: r.Outer.Reverse()}
		for d, p := range ways {
			out, err := p.Offset(d, arc.OffsetOptions{Join: join})
			require.NoError(t, err)
			sum := 0.0
			for _, q := range out {
				sum += q.Area()
			}
			require.InDelta(t, want.area, math.Abs(sum), 1e-3)
			require.Equal(t, want.loops, len(out))
		}
	}
}

// sampled checks every boundary of a round offset at points along it.
func sampled(t *testing.T, r arc.Region, d float64, out []arc.Region) {
	t.Helper()
	for _, o := range out {
		for _, l := range o.Loops() {
			for i := range 200 {
				q, _ := l.At(l.Length() * (float64(i) + 0.37) / 200)
				require.InDelta(t, math.Abs(d), distTo(q, r.Loops()...), 1.1e-6, "d %g", d)
			}
		}
	}
}
