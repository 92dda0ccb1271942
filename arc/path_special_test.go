package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// TestPathSpecialValues gives every function of paths and regions every mix of a
// few odd numbers. None may panic or hang, and each that can fail must either
// fail or give finite numbers.
func TestPathSpecialValues(t *testing.T) {
	odd := []float64{0, math.Copysign(0, -1), 1, -1, 5e-324, 1e-160, 1e160, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN()}
	var paths []arc.Path
	for _, x := range odd {
		for _, k := range odd {
			for _, closed := range []bool{true, false} {
				paths = append(paths, arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(x, 1, 0), arc.V(1, x, k)}, Closed: closed})
			}
		}
		paths = append(paths, arc.Path{V: []arc.Vertex{arc.V(x, x, x)}, Closed: true}, arc.Path{V: []arc.Vertex{arc.V(x, x, x), arc.V(x, x, x)}, Closed: true})
	}
	paths = append(paths, arc.Path{}, arc.Path{Closed: true}, arc.Rect(0, 0, 1, 1))
	for _, p := range paths {
		for _, x := range odd {
			oddPath(t, p, x)
		}
	}
}

func oddPath(t *testing.T, p arc.Path, x float64) {
	q := r2.Vec{X: x, Y: 1}
	square := arc.Region{Outer: arc.Rect(0, 0, 3, 3)}
	r := arc.Region{Outer: p, Holes: []arc.Path{p}}
	sound := func(err error, ps ...arc.Path) {
		t.Helper()
		for _, p := range ps {
			if err == nil && len(p.V) > 0 {
				assert.NoError(t, p.Usable())
			}
		}
	}
	outer := func(rs []arc.Region) (ps []arc.Path) {
		for _, r := range rs {
			ps = append(ps, r.Loops()...)
		}
		return ps
	}
	out, err := p.Offset(x, arc.OffsetOptions{})
	sound(err, out...)
	out, err = p.Offset(1, arc.OffsetOptions{Join: arc.MiterJoin, MiterLimit: math.Abs(x), Tolerance: x})
	sound(err, out...)
	rs, err := arc.Region{Outer: p}.Offset(x, arc.OffsetOptions{})
	sound(err, outer(rs)...)
	_, err = r.Offset(x, arc.OffsetOptions{})
	assert.Error(t, err) // the hole runs the same way, or has no area, or is not finite
	one := []arc.Region{{Outer: p}}
	rs, err = arc.Union(one, []arc.Region{square}, 0)
	sound(err, outer(rs)...)
	rs, err = arc.Difference(one, []arc.Region{square}, x)
	sound(err, outer(rs)...)
	rs, err = arc.Intersection([]arc.Region{square}, one, 0)
	sound(err, outer(rs)...)
	rs, err = arc.Regions([]arc.Path{p, arc.Rect(0, 0, x, 1)})
	sound(err, outer(rs)...)
	c, err := arc.Contacts(p, square.Outer, x)
	assert.True(t, err != nil || len(c) < 100)
	_, err = p.SelfContacts(x)
	if math.IsNaN(x) {
		assert.Error(t, err)
	}
	m, err := p.Moments()
	assert.True(t, err != nil || m.Area != 0)
	_, _ = r.Moments()
	p.Locate(q)
	r.Locate(q)
	p.Closest(q)
	p.Distance(q)
	r.Distance(q)
	cut, err := p.Trim(x, 1)
	sound(err, cut)
	_, err = p.Split(x, 0.5, x)
	isParamError(t, err)
	cleaned, err := p.Clean(x)
	sound(err, cleaned)
	cleaned, err = p.Clean(1)
	sound(err, cleaned)
	_, err = p.Gap(square.Outer)
	isParamError(t, err)
	_, err = r.Gap(square)
	isParamError(t, err)
	isParamError(t, p.Check(x))
	p.StartAt(x)
	p.Oriented(true)
	r.Oriented()
	joined, err := arc.Connect([]arc.Path{p, arc.Polyline(q, r2.Vec{})}, x)
	sound(err, joined...)
	_, _ = arc.ConvexHull(p, square.Outer)
	_, _ = arc.SmallestFrame(p)
	if math.Abs(x) >= 1 {
		_, _ = p.FlattenTo(arc.Inside, x)
		_, _ = p.FlattenTo(arc.Outside, x)
		_, _ = p.FlattenTo(arc.OnBoundary, x)
	}
	_, err = p.FlattenTo(arc.Side(9), 1)
	assert.Error(t, err)
}

// TestBoundsOfTheFlattestArcs: the radius of these overflows.
func TestBoundsOfTheFlattestArcs(t *testing.T) {
	for _, k := range []float64{5e-324, 7e-310, 1e-300, 1e-160} {
		for _, m := range motions[:4] {
			p := arc.Path{V: []arc.Vertex{arc.V(0, 0, k), arc.V(1, 0, 0)}}.Transform(m.m)
			want := arc.Polyline(p.V[0].P, p.V[1].P).Bounds()
			got := p.Bounds()
			off := r2.Norm(r2.Sub(want.Min, got.Min)) + r2.Norm(r2.Sub(want.Max, got.Max))
			assert.Less(t, off, 1e-150, "%v %s", k, m.name)
		}
	}
}
