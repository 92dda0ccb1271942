package arc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/sagitta/arc"
)

// flatness draws a tan(turn/4) of any size that matters: lines, arcs as flat as
// float64 can say, common ones and major ones.
func flatness() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		if rapid.IntRange(0, 9).Draw(t, "line") == 0 {
			return 0
		}
		k := math.Pow(10, rapid.Float64Range(-18, 0.5).Draw(t, "log10 k"))
		if rapid.Bool().Draw(t, "right") {
			return -k
		}
		return k
	})
}

func anyPoint(most float64) *rapid.Generator[r2.Vec] {
	return rapid.Custom(func(t *rapid.T) r2.Vec {
		return r2.Vec{X: rapid.Float64Range(-most, most).Draw(t, "x"), Y: rapid.Float64Range(-most, most).Draw(t, "y")}
	})
}

func anySegment() *rapid.Generator[arc.Segment] {
	return rapid.Custom(func(t *rapid.T) arc.Segment {
		a := anyPoint(1000).Draw(t, "a")
		dir := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "dir")
		c := math.Pow(10, rapid.Float64Range(-1, 3.3).Draw(t, "log10 chord"))
		return arc.Segment{A: a, B: r2.Add(a, r2.Scale(c, r2.Vec{X: math.Cos(dir), Y: math.Sin(dir)})), K: flatness().Draw(t, "k")}
	})
}

// walked returns points along a segment by Simpson's rule over its tangents,
// which shares nothing with At but the meaning of K.
func walked(s arc.Segment, n int) []r2.Vec {
	turn := 4 * math.Atan(s.K)
	dir := math.Atan2(s.B.Y-s.A.Y, s.B.X-s.A.X) - turn/2
	step := s.Length() / float64(n)
	at := func(x float64) r2.Vec { sin, cos := math.Sincos(dir + turn*x); return r2.Vec{X: cos, Y: sin} }
	out := []r2.Vec{s.A}
	for i := range n {
		x, h := float64(i)/float64(n), 1/float64(n)
		sum := r2.Add(r2.Add(at(x), r2.Scale(4, at(x+h/2))), at(x+h))
		out = append(out, r2.Add(out[i], r2.Scale(step/6, sum)))
	}
	return out
}

func TestPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySegment().Draw(t, "s")
		l := s.Length()
		from := rapid.Float64Range(-0.2, 0.5).Draw(t, "from") * l
		to := from + rapid.Float64Range(0.1, 0.9).Draw(t, "share")*l
		p := s.Part(from, to)
		assert.InDelta(t, to-from, p.Length(), 1e-12*l, "length")
		for _, x := range []float64{0, 0.3, 1} {
			got, u := p.At(x * p.Length())
			want, v := s.At(from + x*(to-from))
			assert.Less(t, r2.Norm(r2.Sub(got, want)), 1e-11*(l+1000))
			assert.Less(t, r2.Norm(r2.Sub(u, v)), 1e-10*(1+1000/l), "tangent")
		}
		assert.Equal(t, s, s.Part(0, l), "all of it")
		assert.Equal(t, s.A, s.Part(0, l/2).A)
		assert.Equal(t, s.B, s.Part(l/2, l).B)
	})
}

func TestTangents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySegment().Draw(t, "s")
		u, v := s.Tangents()
		_, u2 := s.At(0)
		_, v2 := s.At(s.Length())
		assert.Less(t, r2.Norm(r2.Sub(u, u2))+r2.Norm(r2.Sub(v, v2)), 1e-14)
	})
}

func TestProjectAndClosest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySegment().Draw(t, "s")
		on := rapid.Float64Range(0.001, 0.999).Draw(t, "on") * s.Length()
		d := rapid.Float64Range(-0.4, 0.4).Draw(t, "d") * math.Min(s.Chord(), s.Radius())
		p, u := s.At(on)
		q := r2.Add(p, r2.Scale(d, r2.Vec{X: -u.Y, Y: u.X}))
		tol := 1e-11 * (1000 + s.Length())
		l, left := s.Project(q)
		assert.InDelta(t, on, l, tol)
		assert.InDelta(t, d, left, tol)
		cl, foot := s.Closest(q)
		assert.InDelta(t, on, cl, tol)
		assert.Less(t, r2.Norm(r2.Sub(foot, p)), tol)
		assert.InDelta(t, math.Abs(d), s.Distance(q), tol)
	})
}

func TestClosestIsNearestOfManyPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySegment().Draw(t, "s")
		q := anyPoint(3000).Draw(t, "q")
		best := math.Inf(1)
		n := 2000
		for _, p := range walked(s, n) {
			best = math.Min(best, r2.Norm(r2.Sub(p, q)))
		}
		l, p := s.Closest(q)
		d := r2.Norm(r2.Sub(p, q))
		step := s.Length() / float64(n)
		assert.InDelta(t, best, d, 1e-8+math.Min(step, step*step*(1/math.Max(best, 1e-9)+math.Abs(s.Curvature()))))
		assert.InDelta(t, d, s.Distance(q), 1e-9)
		at, _ := s.At(l)
		assert.Less(t, r2.Norm(r2.Sub(at, p)), 1e-9)
	})
}

func TestClosestOfCenterAndSpecials(t *testing.T) {
	s := arc.Segment{A: r2.Vec{X: 1}, B: r2.Vec{X: -1}, K: 1}
	l, p := s.Closest(r2.Vec{})
	assert.InDelta(t, math.Pi/2, l, 1e-15)
	assert.InDelta(t, 1, p.Y, 1e-15)
	l, left := s.Project(r2.Vec{X: 0, Y: -2})
	assert.InDelta(t, math.Pi*1.5, math.Abs(l-math.Pi/2)+math.Pi/2, 1e-15, "half a turn from the middle")
	assert.InDelta(t, -1, left, 1e-15)
	odd := []float64{0, math.Copysign(0, -1), 5e-324, 1e-160, 1e160, math.MaxFloat64, math.NaN(), math.Inf(1)}
	for _, x := range odd {
		for _, k := range odd {
			s := arc.Segment{A: r2.Vec{X: x}, B: r2.Vec{X: 1, Y: x}, K: k}
			for _, q := range []r2.Vec{{X: x, Y: 1}, {X: 1}} {
				assert.NotPanics(t, func() {
					s.Project(q)
					s.Closest(q)
					s.Distance(q)
					s.Tangents()
					s.Part(x, k)
					s.Crossings(q, r2.Vec{X: 1})
					arc.Meet(s, s.Reverse(), x)
					_, _ = arc.Path{V: []arc.Vertex{{P: s.A, K: k}, {P: s.B}}}.Shift([]float64{x}, 0)
				})
			}
		}
	}
	for _, k := range []float64{0, 5e-324, 1e-300, 1e-17, -1e-12} {
		s := arc.Segment{B: r2.Vec{X: 100}, K: k}
		l, left := s.Project(r2.Vec{X: 30, Y: 4})
		assert.InDelta(t, 30, l, 1e-10, "k %g", k)
		assert.InDelta(t, 4, left, 1e-10, "k %g", k)
	}
}

// TestCrossings counts changes of side of points stepped along, and holds the
// points found to be on the line.
func TestCrossings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySegment().Draw(t, "s")
		pts := walked(s, 400)
		// A line through the neighborhood of the segment.
		i := rapid.IntRange(0, 400).Draw(t, "through")
		dir := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "dir")
		d := r2.Vec{X: math.Cos(dir), Y: math.Sin(dir)}
		at := r2.Add(pts[i], r2.Scale(rapid.Float64Range(-0.1, 0.1).Draw(t, "off")*s.Chord(), r2.Vec{X: -d.Y, Y: d.X}))
		l, n := s.Crossings(at, d)
		odd := (r2.Cross(d, r2.Sub(s.A, at)) > 0) != (r2.Cross(d, r2.Sub(s.B, at)) > 0)
		require.Equal(t, odd, n == 1, "an odd number where the ends are on both sides")
		prev := -1.0
		for _, x := range l[:n] {
			p, u := s.At(x)
			slope := math.Max(1e-7, math.Abs(r2.Cross(d, u)))
			require.Less(t, math.Abs(r2.Cross(d, r2.Sub(p, at)))*slope, 1e-9)
			require.GreaterOrEqual(t, x, prev)
			require.LessOrEqual(t, x, s.Length()*(1+1e-15))
			prev = x
		}
		changes, above := 0, r2.Cross(d, r2.Sub(s.A, at)) > 0
		for _, p := range pts[1:] {
			// What Simpson's rule leaves is far below this margin.
			if h := r2.Cross(d, r2.Sub(p, at)); math.Abs(h) > 1e-6 && (h > 0) != above {
				changes, above = changes+1, !above
			}
		}
		require.LessOrEqual(t, changes-n, 0, "none missed")
	})
}

func TestCrossingsOfFlatArcs(t *testing.T) {
	for _, k := range []float64{0, 5e-324, 1e-17, 1e-12, -1e-12, 1e-9, 1e-8} {
		s := arc.Segment{A: r2.Vec{X: 0, Y: 10}, B: r2.Vec{X: 100, Y: 30}, K: k}
		l, n := s.Crossings(r2.Vec{Y: 15}, r2.Vec{X: 1})
		require.Equal(t, 1, n)
		assert.InDelta(t, s.Length()/4, l[0], 1e-5)
		p, _ := s.At(l[0])
		assert.InDelta(t, 15, p.Y, 1e-12)
	}
	// A half circle: ends on the line, touched at the top, crossed below it.
	s := arc.Segment{A: r2.Vec{X: 1}, B: r2.Vec{X: -1}, K: 1}
	for y, want := range map[float64]int{1: 0, 1 + 1e-12: 0, 1 - 1e-12: 2, 0.5: 2, 0: 2, -0.1: 0} {
		_, n := s.Crossings(r2.Vec{Y: y}, r2.Vec{X: 1})
		assert.Equal(t, want, n, "height %g", y)
	}
}

// TestClosedPathsCrossEvenly sends lines through the corners of paths with arcs
// too, where rounding would lose one.
func TestClosedPathsCrossEvenly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := arc.Path{Closed: true}
		for range rapid.IntRange(2, 7).Draw(t, "n") {
			p.V = append(p.V, arc.Vertex{P: anyPoint(50).Draw(t, "p"), K: flatness().Draw(t, "k")})
		}
		y := p.V[rapid.IntRange(0, len(p.V)-1).Draw(t, "through")].P.Y
		sum := 0
		for i := range p.NumSegments() {
			_, n := p.Segment(i).Crossings(r2.Vec{Y: y}, r2.Vec{X: 1})
			sum += n
		}
		assert.Zero(t, sum%2)
	})
}

func TestMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Two that meet at a point: cut or run on, they meet there again.
		a := arc.Segment{A: r2.Vec{}, B: r2.Vec{X: 100}, K: rapid.Float64Range(-0.3, 0.3).Draw(t, "ka")}
		_, u := a.Tangents()
		turn := rapid.Float64Range(0.3, 2).Draw(t, "turn")
		if rapid.Bool().Draw(t, "right") {
			turn = -turn
		}
		sin, cos := math.Sincos(turn)
		v := r2.Vec{X: u.X*cos - u.Y*sin, Y: u.Y*cos + u.X*sin}
		b := arc.Segment{A: a.B, B: r2.Add(a.B, r2.Scale(80, v)), K: rapid.Float64Range(-0.1, 0.1).Draw(t, "kb")}
		da, db := rapid.Float64Range(-10, 10).Draw(t, "da"), rapid.Float64Range(-10, 10).Draw(t, "db")
		ca, cb := a.Part(0, a.Length()+da), b.Part(db, b.Length())
		onA, onB, ok := arc.Meet(ca, cb, 0)
		require.True(t, ok)
		p, _ := ca.At(onA)
		q, _ := cb.At(onB)
		assert.Less(t, r2.Norm(r2.Sub(p, q)), 1e-11)
		if math.Abs(turn) > 1 {
			assert.Less(t, r2.Norm(r2.Sub(p, a.B)), 1e-9, "the meeting nearest the ends")
		}
	})
	a := arc.Segment{B: r2.Vec{X: 10}}
	_, _, ok := arc.Meet(a, arc.Segment{A: r2.Vec{X: 10, Y: 1}, B: r2.Vec{X: 20, Y: 1}}, 1e-9)
	assert.False(t, ok, "parallel")
	onA, onB, ok := arc.Meet(a, arc.Segment{A: r2.Vec{X: 10, Y: 1e-10}, B: r2.Vec{X: 20}}, 1e-9)
	assert.True(t, ok)
	assert.Equal(t, 10.0, onA)
	assert.Zero(t, onB)
}

// TestShift compares a rounded square with a smaller one, and a square shifted
// by another distance on each side with the square so made.
func TestShift(t *testing.T) {
	p, err := arc.Rect(0, 0, 100, 60).Shift([]float64{1, 2, 3, -4}, 1e-9)
	require.NoError(t, err)
	want := []r2.Vec{{X: -4, Y: 1}, {X: 98, Y: 1}, {X: 98, Y: 57}, {X: -4, Y: 57}}
	for i, v := range p.V {
		assert.InDelta(t, want[i].X, v.P.X, 1e-12)
		assert.InDelta(t, want[i].Y, v.P.Y, 1e-12)
	}
	q := math.Tan(math.Pi / 8)
	round := arc.Path{Closed: true, V: []arc.Vertex{
		{P: r2.Vec{X: 10}}, {P: r2.Vec{X: 90}, K: q}, {P: r2.Vec{X: 100, Y: 10}}, {P: r2.Vec{X: 100, Y: 50}, K: q},
		{P: r2.Vec{X: 90, Y: 60}}, {P: r2.Vec{X: 10, Y: 60}, K: q}, {P: r2.Vec{Y: 50}}, {P: r2.Vec{Y: 10}, K: q},
	}}
	for _, d := range []float64{-5, 0, 3, 9.99} {
		s, err := round.Shift([]float64{d}, 1e-9)
		require.NoError(t, err)
		assert.InDelta(t, (100-2*d)*(60-2*d)-(4-math.Pi)*(10-d)*(10-d), s.Area(), 1e-9)
	}
	_, err = round.Shift([]float64{10}, 1e-9)
	assert.Error(t, err)
	_, err = round.Shift([]float64{10.01}, 1e-9)
	assert.ErrorIs(t, err, arc.ErrRange, "the corners are used up")
	_, err = arc.Rect(0, 0, 10, 10).Shift([]float64{6}, 1e-9)
	assert.ErrorIs(t, err, arc.ErrEmpty)
	_, err = arc.Rect(0, 0, 10, 10).Shift([]float64{1, 2}, 0)
	assert.ErrorIs(t, err, arc.ErrRange)
	_, err = arc.Rect(0, 0, 10, 10).Shift([]float64{1}, math.NaN())
	assert.ErrorIs(t, err, arc.ErrNotFinite)
	// A flat arc is like the line beside it.
	for _, k := range []float64{0, 1e-17, 1e-13} {
		s, err := arc.Path{V: []arc.Vertex{{K: k}, {P: r2.Vec{X: 50}}, {P: r2.Vec{X: 50, Y: 50}}}}.Shift([]float64{2}, 1e-9)
		require.NoError(t, err)
		assert.InDelta(t, 48, s.V[1].P.X, 1e-9)
		assert.InDelta(t, 2, s.V[1].P.Y, 1e-9)
	}
}

func BenchmarkClosest(b *testing.B) {
	for _, c := range []struct {
		name string
		k    float64
	}{{"line", 0}, {"arc", 0.3}} {
		s := arc.Segment{A: r2.Vec{X: 1, Y: 2}, B: r2.Vec{X: 101, Y: 32}, K: c.k}
		q := r2.Vec{X: 50, Y: 3}
		sum := 0.0
		b.Run(c.name+"/closest", func(b *testing.B) {
			for range b.N {
				l, _ := s.Closest(q)
				sum += l
			}
		})
		b.Run(c.name+"/project", func(b *testing.B) {
			for range b.N {
				l, d := s.Project(q)
				sum += l + d
			}
		})
		b.Run(c.name+"/distance", func(b *testing.B) {
			for range b.N {
				sum += s.Distance(q)
			}
		})
		_ = sum
	}
}
