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

// drawnSegment draws a line or an arc of a size that a part has.
func drawnSegment(t *rapid.T, name string) arc.Segment {
	at := func(s string) float64 { return rapid.Float64Range(-200, 200).Draw(t, name+s) }
	s := arc.Segment{A: r2.Vec{X: at("x"), Y: at("y")}, B: r2.Vec{X: at("u"), Y: at("v")}}
	if rapid.Bool().Draw(t, name+" bends") {
		s.K = rapid.Float64Range(0.05, 3).Draw(t, name+" k")
		if rapid.Bool().Draw(t, name+" right") {
			s.K = -s.K
		}
	}
	if s.Chord() < 1 {
		t.Skip("of hardly any length")
	}
	return s
}

// touches asserts that two unit directions at one point of a line or circle are
// the same, and that the point lies on it: worked out from the center or the
// normal, and not as the library does it.
func touches(t require.TestingT, s arc.Segment, p, dir r2.Vec) {
	if s.K == 0 {
		u := r2.Unit(r2.Sub(s.B, s.A))
		require.InDelta(t, 0, r2.Cross(u, r2.Sub(p, s.A)), 1e-9)
		require.InDelta(t, 1, r2.Dot(u, dir), 1e-12)
		return
	}
	v := r2.Sub(p, s.Center())
	require.InDelta(t, s.Radius(), r2.Norm(v), 1e-9*(1+s.Radius()/1e3))
	ahead := r2.Scale(math.Copysign(1/r2.Norm(v), s.K), r2.Vec{X: -v.Y, Y: v.X})
	require.InDelta(t, 1, r2.Dot(ahead, dir), 1e-9)
}

// TestFilletsTouch: an arc leaves the one along it and arrives at the other
// along it, and has the radius.
func TestFilletsTouch(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		a, b, r := drawnSegment(t, "a"), drawnSegment(t, "b"), rapid.Float64Range(1, 100).Draw(t, "r")
		out, err := arc.Fillets(a, b, r)
		require.NoError(t, err)
		require.LessOrEqual(t, len(out), 4)
		for _, s := range out {
			if s.Chord() < 1e-3 || s.Chord() > 1e4 {
				continue
			}
			found++
			require.InDelta(t, r, s.Radius(), 1e-7*r/math.Min(1, s.Chord()))
			u, v := s.Tangents()
			if math.Abs(math.Abs(float64(s.Angle()))-2*math.Pi) < 1e-3 {
				continue // its ends are too near for its directions
			}
			touches(t, a, s.A, u)
			touches(t, b, s.B, v)
		}
		// A corner of two lines is Round's.
		ua, _ := a.Tangents()
		ub, _ := b.Tangents()
		if a.K == 0 && b.K == 0 && math.Abs(r2.Cross(ua, ub)) > 1e-3 {
			c := arc.Polyline(r2.Add(a.B, r2.Scale(-1e4, r2.Unit(r2.Sub(a.B, a.A)))), a.B, r2.Add(a.B, r2.Scale(1e4, r2.Unit(r2.Sub(b.B, b.A)))))
			want, err := c.Round(r)
			if err != nil {
				return
			}
			got, err := arc.Fillets(c.Segment(0), c.Segment(1), r)
			require.NoError(t, err)
			best := math.Inf(1)
			for _, s := range got {
				best = math.Min(best, r2.Norm(r2.Sub(s.A, want.V[1].P))+math.Abs(s.K-want.V[1].K))
			}
			require.Less(t, best, 1e-6)
		}
	})
	assert.Positive(t, found)
}

// TestFilletsKnown: arcs of 50 from a circle of 10 about (-30, 0) to one about
// (30, 0) have centers 40 or 60 from both.
func TestFilletsKnown(t *testing.T) {
	left := arc.Circle(r2.Vec{X: -30}, 10).Segment(0)
	right := arc.Circle(r2.Vec{X: 30}, 10).Segment(0)
	out, err := arc.Fillets(left, right, 50)
	require.NoError(t, err)
	require.Len(t, out, 4)
	for i, s := range out {
		c := s.Center()
		assert.InDelta(t, 0, c.X, 1e-12)
		want := math.Sqrt(40*40 - 30*30) // around both
		if i >= 2 {
			want = math.Sqrt(60*60 - 30*30) // beside both
		}
		assert.InDelta(t, want, math.Abs(c.Y), 1e-12)
	}
	parallel, err := arc.Fillets(arc.Segment{B: r2.Vec{X: 10}}, arc.Segment{A: r2.Vec{Y: 5}, B: r2.Vec{X: 10, Y: 5}}, 2)
	require.NoError(t, err)
	assert.Empty(t, parallel)
}

// TestTangentLinesTouch both circles, four where these are apart.
func TestTangentLinesTouch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		circle := func(n string) arc.Segment {
			c := r2.Vec{X: rapid.Float64Range(-100, 100).Draw(t, n+"x"), Y: rapid.Float64Range(-100, 100).Draw(t, n+"y")}
			return arc.Circle(c, rapid.Float64Range(1, 60).Draw(t, n+"r")).Segment(0)
		}
		a, b := circle("a"), circle("b")
		out, err := arc.TangentLines(a, b)
		require.NoError(t, err)
		d := r2.Norm(r2.Sub(a.Center(), b.Center()))
		switch gap := 1e-3; {
		case d > a.Radius()+b.Radius()+gap:
			require.Len(t, out, 4)
		case d < a.Radius()+b.Radius()-gap && d > math.Abs(a.Radius()-b.Radius())+gap:
			require.Len(t, out, 2)
		case d < math.Abs(a.Radius()-b.Radius())-gap:
			require.Empty(t, out)
		}
		for i, s := range out {
			u := r2.Unit(r2.Sub(s.B, s.A))
			if s.Chord() < 1e-3 {
				continue
			}
			for j, c := range [2]arc.Segment{a, b} {
				p := [2]r2.Vec{s.A, s.B}[j]
				require.InDelta(t, c.Radius(), r2.Norm(r2.Sub(p, c.Center())), 1e-9)
				side := r2.Cross(u, r2.Sub(c.Center(), p))
				require.InDelta(t, c.Radius(), math.Abs(side), 1e-7)
				if len(out) == 4 {
					require.Equal(t, [4][2]bool{{true, true}, {false, false}, {true, false}, {false, true}}[i][j], side > 0)
				}
			}
		}
	})
	p := arc.Segment{A: r2.Vec{X: 50}, B: r2.Vec{X: 50}}
	out, err := arc.TangentLines(p, arc.Circle(r2.Vec{}, 30).Segment(0))
	require.NoError(t, err)
	require.Len(t, out, 2)
	assert.InDelta(t, 40, out[0].Chord(), 1e-12) // 30, 40, 50
	_, err = arc.TangentLines(p, arc.Segment{B: r2.Vec{X: 1}})
	assert.ErrorIs(t, err, arc.ErrRange)
}

// TestExtendMeets: both still run on their lines and circles and meet.
func TestExtendMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawnSegment(t, "a"), drawnSegment(t, "b")
		x, y, err := arc.Extend(a, b)
		if err != nil {
			require.ErrorIs(t, err, arc.ErrEmpty)
			return
		}
		require.Equal(t, x.B, y.A)
		require.Equal(t, a.A, x.A)
		require.Equal(t, b.B, y.B)
		for _, s := range [2][2]arc.Segment{{a, x}, {b, y}} {
			if r2.Norm(x.B) > 1e5 || s[1].Chord() < 1e-3 {
				continue
			}
			require.Equal(t, s[0].K == 0, s[1].K == 0)
			for i := range 9 {
				p, u := s[1].At(s[1].Length() * float64(i) / 8)
				if s[0].K != 0 && math.Abs(math.Abs(s[1].K)) > 50 {
					continue
				}
				require.Less(t, offRim(s[0], p), 1e-6)
				_ = u
			}
		}
	})
	a, b, err := arc.Extend(arc.Segment{B: r2.Vec{X: 10}}, arc.Segment{A: r2.Vec{X: 20, Y: 5}, B: r2.Vec{X: 20, Y: 30}})
	require.NoError(t, err)
	assert.Equal(t, r2.Vec{X: 20}, a.B)
	assert.Equal(t, r2.Vec{X: 20}, b.A)
	_, _, err = arc.Extend(arc.Segment{B: r2.Vec{X: 10}}, arc.Segment{A: r2.Vec{Y: 5}, B: r2.Vec{X: 10, Y: 5}})
	assert.ErrorIs(t, err, arc.ErrEmpty)
}

// offRim is how far p is from the whole line or circle of s.
func offRim(s arc.Segment, p r2.Vec) float64 {
	if s.K == 0 {
		return math.Abs(r2.Cross(r2.Unit(r2.Sub(s.B, s.A)), r2.Sub(p, s.A)))
	}
	return math.Abs(r2.Norm(r2.Sub(p, s.Center())) - s.Radius())
}

func TestRimsTakeSpecialValues(t *testing.T) {
	ok := arc.Segment{B: r2.Vec{X: 10}, K: 0.5}
	for _, x := range special {
		for _, y := range special {
			for _, s := range []arc.Segment{{B: r2.Vec{X: x, Y: y}}, {A: r2.Vec{X: x}, B: r2.Vec{Y: y}, K: 0.3}, {B: r2.Vec{X: x}, K: y}} {
				for _, pair := range [][2]arc.Segment{{s, ok}, {ok, s}, {s, s}} {
					out, err := arc.Fillets(pair[0], pair[1], 3)
					sound(t, err, out)
					out, err = arc.TangentLines(pair[0], pair[1])
					sound(t, err, out)
					a, b, err := arc.Extend(pair[0], pair[1])
					if err == nil {
						sound(t, err, []arc.Segment{a, b})
					} else {
						isParamError(t, err)
					}
				}
			}
		}
		out, err := arc.Fillets(ok, arc.Segment{B: r2.Vec{Y: 5}}, x)
		sound(t, err, out)
	}
}

// sound: an error of the right type, or segments of finite numbers.
func sound(t *testing.T, err error, out []arc.Segment) {
	isParamError(t, err)
	for _, s := range out {
		assert.NoError(t, s.Path().Usable())
	}
}

// A cover plate around two pins of 20 and 12 mm, 60 mm apart, as a belt lies.
func ExampleTangentLines() {
	big, small := arc.Circle(r2.Vec{}, 20), arc.Circle(r2.Vec{X: 60}, 12)
	lines, err := arc.TangentLines(big.Segment(0), small.Segment(0))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range lines {
		fmt.Printf("(%.2f, %.2f) to (%.2f, %.2f), %.2f mm\n", s.A.X, s.A.Y, s.B.X, s.B.Y, s.Length())
	}
	// Output:
	// (2.67, -19.82) to (61.60, -11.89), 59.46 mm
	// (2.67, 19.82) to (61.60, 11.89), 59.46 mm
	// (10.67, -16.92) to (53.60, 10.15), 50.75 mm
	// (10.67, 16.92) to (53.60, -10.15), 50.75 mm
}

// A rail that runs into a round post: an arc of 25 mm leads from one onto the
// other, the post gone round clockwise.
func ExampleFillets() {
	rail := arc.Segment{B: r2.Vec{X: 200}}
	post := arc.Circle(r2.Vec{X: 120, Y: 30}, 40).Reverse().Segment(0)
	arcs, err := arc.Fillets(rail, post, 25)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range arcs {
		if s.K < 0 || s.K > 1 {
			continue // on the other side of the rail, or the long way round
		}
		fmt.Printf("(%.2f, %.2f) to (%.2f, %.2f), turning %v\n", s.A.X, s.A.Y, s.B.X, s.B.Y, s.Angle())
	}
	// Output:
	// (55.19, 0.00) to (80.12, 26.92), turning 94.4117°
}

// Two rails of a frame drawn too short, run on to their corner.
func ExampleExtend() {
	a, b, err := arc.Extend(arc.Segment{B: r2.Vec{X: 80}}, arc.Segment{A: r2.Vec{X: 110, Y: 30}, B: r2.Vec{X: 130, Y: 90}})
	fmt.Printf("%.1f and %.1f mm, meeting at (%.1f, %.1f), %v\n", a.Length(), b.Length(), a.B.X, a.B.Y, err)
	// Output:
	// 100.0 and 94.9 mm, meeting at (100.0, 0.0), <nil>
}
