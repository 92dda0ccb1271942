package clear

import (
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// A carrier is a whole line or circle: the points p with
// k|p-m|² = 2 (p-m)·n, which runs through m square to the unit normal n and
// has its center, where k > 0, at m + n/k. Nothing in it grows without bound
// as an arc grows flat.
type carrier struct {
	m, n r2.Vec
	k    float64 // curvature, >= 0
}

// away returns the signed distance of p from the carrier, positive on the
// side that n points away from: |p-c| - R, written so that no radius enters.
func (c carrier) away(p r2.Vec) float64 {
	q := r2.Sub(p, c.m)
	f := c.k*r2.Norm2(q) - 2*r2.Dot(q, c.n)
	return f / (1 + math.Sqrt(math.Max(0, 1+c.k*f)))
}

// shifted returns the carrier moved by d along its normal, concentric; ok is
// false where a circle would shrink to nothing.
func (c carrier) shifted(d float64) (s carrier, ok bool) {
	left := 1 - c.k*d
	if left <= 0 {
		return carrier{}, false
	}
	return carrier{r2.Add(c.m, r2.Scale(d, c.n)), c.n, c.k / left}, true
}

// An element is a line, or an arc of at most a quarter turn, of an outline. It
// runs from a to b with the material on its left; carrier.m is its middle.
type element struct {
	carrier
	a, b   r2.Vec
	turn   float64 // half the angle it turns through, > 0 to the left
	corner r2.Vec  // where the tangents at the ends meet
	box    r2.Box
}

// elementsOf cuts a loop into elements; segments of no length are left out.
func elementsOf(l arc.Path) []element {
	var out []element
	for i := range l.NumSegments() {
		s := l.Segment(i)
		if s.Chord() == 0 {
			continue
		}
		n := math.Max(1, math.Ceil(math.Abs(float64(s.Angle()))/(math.Pi/2)-1e-9))
		k := math.Tan(float64(s.Angle()) / 4 / n)
		from := s.A
		for j := 1.0; j <= n; j++ {
			to := s.B
			if j < n {
				to, _ = s.At(s.Length() * j / n)
			}
			out = append(out, newElement(arc.Segment{A: from, B: to, K: k}))
			from = to
		}
	}
	return out
}

func newElement(s arc.Segment) element {
	u := r2.Scale(1/s.Chord(), r2.Sub(s.B, s.A))
	n := r2.Vec{X: -u.Y, Y: u.X}
	e := element{a: s.A, b: s.B, box: s.Bounds()}
	e.m, e.n, e.k = s.Mid(), n, math.Abs(s.Curvature())
	if s.K < 0 {
		e.n = r2.Scale(-1, n)
	}
	e.turn = float64(s.Angle()) / 2
	// The tangents meet chord/2·tan(half turn) from mid-chord, on the side
	// that the arc stands off to.
	mid := r2.Scale(0.5, r2.Add(s.A, s.B))
	e.corner = r2.Sub(mid, r2.Scale(s.Chord()/2*math.Tan(e.turn), n))
	return e
}

// distance returns how far p is from the element.
func (e element) distance(p r2.Vec) float64 {
	ends := math.Min(r2.Norm(r2.Sub(p, e.a)), r2.Norm(r2.Sub(p, e.b)))
	if e.facing(p) {
		return math.Min(ends, math.Abs(e.away(p)))
	}
	return ends
}

// facing reports whether the foot of p on the carrier lies on the element.
func (e element) facing(p r2.Vec) bool {
	q := r2.Sub(p, e.m)
	if e.k == 0 {
		u := r2.Sub(e.b, e.a)
		t := r2.Dot(r2.Sub(p, e.a), u)
		return t >= 0 && t <= r2.Norm2(u)
	}
	// From the center, p lies in the direction k·q − n and the middle in −n.
	x, y := 1-e.k*r2.Dot(q, e.n), e.k*r2.Cross(q, e.n)
	return math.Atan2(math.Abs(y), x) <= math.Abs(e.turn)
}

// at returns the point at u from 0 to 1: the rational quadratic Bézier curve
// of the arc, whose middle weight is the cosine of half the turn.
func (e element) at(u float64) r2.Vec {
	if e.k == 0 {
		return r2.Add(e.a, r2.Scale(u, r2.Sub(e.b, e.a)))
	}
	a, c, b := (1-u)*(1-u), 2*math.Cos(e.turn)*u*(1-u), u*u
	// About the middle, so that little is lost far from the origin.
	q := r2.Scale(a, r2.Sub(e.a, e.m))
	q = r2.Add(q, r2.Scale(c, r2.Sub(e.corner, e.m)))
	q = r2.Add(q, r2.Scale(b, r2.Sub(e.b, e.m)))
	return r2.Add(e.m, r2.Scale(1/(a+b+c), q))
}

// meets appends the parameters at which the element may cross the carrier.
func (e element) meets(c carrier, out []float64) []float64 {
	if e.k == 0 {
		return e.lineMeets(c, out)
	}
	// The difference k2·F1 − k1·F2 of the two circles' equations, taken about
	// e.m, is the line g·q + h = 0 through the points they share.
	v := r2.Sub(c.m, e.m)
	g := r2.Scale(e.k, r2.Add(r2.Scale(c.k, v), c.n))
	g = r2.Sub(g, r2.Scale(c.k, e.n))
	h := -e.k * (c.k*r2.Norm2(v)/2 + r2.Dot(v, c.n))
	f := func(p r2.Vec) float64 { return r2.Dot(g, r2.Sub(p, e.m)) + h }
	f0, f1, f2 := f(e.a), math.Cos(e.turn)*f(e.corner), f(e.b)
	return roots(f0-2*f1+f2, f1-f0, f0, out)
}

func (e element) lineMeets(c carrier, out []float64) []float64 {
	d, q := r2.Sub(e.b, e.a), r2.Sub(e.a, c.m)
	return roots(c.k*r2.Norm2(d), c.k*r2.Dot(q, d)-r2.Dot(d, c.n), c.k*r2.Norm2(q)-2*r2.Dot(q, c.n), out)
}

// meetsAround appends the parameters at which the element crosses the circle
// of radius r about p. They lie on both sides of the foot of p; the general
// formula would lose two crossings that are close together.
func (e element) meetsAround(p r2.Vec, r float64, out []float64) []float64 {
	d := e.away(p)
	h := r*r - d*d
	if !(h > 0) {
		return out
	}
	if e.k == 0 {
		u := r2.Sub(e.b, e.a)
		l := r2.Norm(u)
		foot := r2.Dot(r2.Sub(p, e.a), u) / (l * l)
		return inUnit(out, foot-math.Sqrt(h)/l, foot+math.Sqrt(h)/l)
	}
	// With ρ = R + d the law of cosines gives r² − d² = 4ρR·sin²(x/2) for the
	// angle x between the foot and the crossing, seen from the center.
	s := e.k / 2 * math.Sqrt(h/(1+e.k*d))
	if !(s < 1) {
		return out
	}
	q := r2.Sub(p, e.m)
	foot := math.Atan2(-e.k*r2.Cross(q, e.n), 1-e.k*r2.Dot(q, e.n))
	if e.turn < 0 {
		foot = -foot
	}
	x := 2 * math.Asin(s)
	return inUnit(out, e.parameter(foot-x), e.parameter(foot+x))
}

// parameter returns the u of the point of an arc at an angle from its middle,
// counted in the direction of travel: tan(x/2) = (2u−1)·tan(T/2), T being half
// the turn.
func (e element) parameter(x float64) float64 {
	return 0.5 + math.Tan(x/2)/(2*math.Tan(math.Abs(e.turn)/2))
}

func inUnit(out []float64, u ...float64) []float64 {
	for _, x := range u {
		if x > 0 && x < 1 {
			out = append(out, x)
		}
	}
	return out
}

// roots appends the zeros of a·x² + 2b·x + c within 0 < x < 1.
func roots(a, b, c float64, out []float64) []float64 {
	d := b*b - a*c
	if !(d >= 0) {
		return out
	}
	s := -(b + math.Copysign(math.Sqrt(d), b))
	return inUnit(out, s/a, c/s)
}
