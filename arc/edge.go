package arc

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// An edge is a segment made ready for meeting others: an arc of at most a half
// circle with the cosine and sine of half its turn.
//
// With z as a complex number and ω = e^(i·turn/2), the edge is
//
//	z(t) = a + (b−a)·t / (t + (1−t)·ω),  0 <= t <= 1,
//
// and a point p is on its circle where Im((p−a)·conj(p−b)·ω) = 0. Neither
// needs a center or a radius, so flat arcs and lines are the same case, and
// one edge put in the other's equation leaves a quadratic in t.
type edge struct {
	a, b  r2.Vec
	k     float64
	c, s  float64 // cosine and sine of half the turn
	chord float64
}

func newEdge(a, b r2.Vec, k float64) edge {
	q := 1 + k*k
	return edge{a, b, k, (1 - k) * (1 + k) / q, 2 * k / q, math.Hypot(b.X-a.X, b.Y-a.Y)}
}

// den returns t + (1−t)·ω.
func (e *edge) den(t float64) r2.Vec {
	return r2.Vec{X: t + (1-t)*e.c, Y: (1 - t) * e.s}
}

// at returns the point at the parameter t.
func (e *edge) at(t float64) r2.Vec {
	h := r2.Sub(e.b, e.a)
	if e.k == 0 {
		return r2.Add(e.a, r2.Scale(t, h))
	}
	d := e.den(t)
	return r2.Add(e.a, r2.Scale(t/r2.Norm2(d), conjMul(h, d)))
}

// part returns k of the piece from t0 to t1. The tangent turns by twice the
// change of the argument of den.
func (e *edge) part(t0, t1 float64) float64 {
	if e.k == 0 || t0 == 0 && t1 == 1 {
		return e.k
	}
	w := conjMul(e.den(t0), e.den(t1))
	return w.Y / (math.Hypot(w.X, w.Y) + w.X)
}

// off returns how far p stands to the right of the edge's circle or line, to
// first order; the sign is right where the size is above rounding.
func (e *edge) off(p r2.Vec) float64 {
	u, v := r2.Sub(p, e.a), r2.Sub(p, e.b)
	return (e.s*r2.Dot(u, v) - e.c*r2.Cross(u, v)) / e.chord
}

// dist returns the distance of p from the edge. With κ the curvature, off is
// x + κx²/2 of the true distance x from the circle.
func (e *edge) dist(p r2.Vec) float64 {
	u, v := e.tangents()
	if r2.Dot(r2.Sub(p, e.a), u) < 0 || r2.Dot(r2.Sub(p, e.b), v) > 0 {
		return math.Min(r2.Norm(r2.Sub(p, e.a)), r2.Norm(r2.Sub(p, e.b)))
	}
	x := e.off(p)
	return 2 * math.Abs(x) / (1 + math.Sqrt(math.Max(0, 1+4*e.s*x/e.chord)))
}

// param returns the parameter of a point on the edge's circle, and whether it
// lies between the ends.
func (e *edge) param(p r2.Vec) (t float64, on bool) {
	u, v := r2.Sub(p, e.a), r2.Sub(p, e.b)
	nu, nv := math.Hypot(u.X, u.Y), math.Hypot(v.X, v.Y)
	if nu+nv == 0 {
		return 0, true
	}
	return nu / (nu + nv), e.c*r2.Dot(u, v)+e.s*r2.Cross(u, v) <= 0
}

// tangents returns vectors along the edge at its ends, as long as its chord.
func (e *edge) tangents() (start, end r2.Vec) {
	h, w := r2.Sub(e.b, e.a), r2.Vec{X: e.c, Y: e.s}
	return conjMul(h, w), mulVec(h, w)
}

// box returns the exact extent.
func (e *edge) box() r2.Box { return Segment{e.a, e.b, e.k}.Bounds() }

// mulVec and conjMul return x·y and x·conj(y) as complex numbers.
func mulVec(x, y r2.Vec) r2.Vec {
	return r2.Vec{X: x.X*y.X - x.Y*y.Y, Y: x.X*y.Y + x.Y*y.X}
}

func conjMul(x, y r2.Vec) r2.Vec {
	return r2.Vec{X: x.X*y.X + x.Y*y.Y, Y: x.Y*y.X - x.X*y.Y}
}

// A hit is a common point of two edges at their parameters. An end that lies
// on the other edge has 0 or 1 for its own.
type hit struct {
	p      r2.Vec
	te, tf float64
}

// meet appends the common points of two edges: where one runs through the
// other, where they come within eps without crossing, and the ends of one
// within eps of the inside of the other. Two ends that meet are no hit.
func meet(hits []hit, e, f *edge, eps float64) []hit {
	if e.chord == 0 || f.chord == 0 {
		return hits
	}
	for _, t := range [2]float64{0, 1} {
		if u, ok := e.endOn(f, t, eps); ok {
			hits = append(hits, hit{f.end(t), u, t})
		}
		if u, ok := f.endOn(e, t, eps); ok {
			hits = append(hits, hit{e.end(t), t, u})
		}
	}
	return e.cross(hits, f, eps)
}

func (e *edge) end(t float64) r2.Vec {
	if t == 0 {
		return e.a
	}
	return e.b
}

// endOn tells whether the end of f lies inside e, and where.
func (e *edge) endOn(f *edge, end, eps float64) (t float64, ok bool) {
	return e.within(f.end(end), eps)
}

// within tells whether p lies within eps of the inside of e, and where.
func (e *edge) within(p r2.Vec, eps float64) (t float64, ok bool) {
	if e.chord == 0 || math.Abs(e.off(p)) > eps || near(p, e.a, eps) || near(p, e.b, eps) {
		return 0, false
	}
	return e.param(p)
}

func near(p, q r2.Vec, eps float64) bool { return r2.Norm2(r2.Sub(p, q)) <= eps*eps }

// cross appends the hits inside both edges.
func (e *edge) cross(hits []hit, f *edge, eps float64) []hit {
	// f's equation at e(t), times |den(t)|²: q0(1−t)² + q1·t(1−t) + q2·t².
	w, w2 := r2.Vec{X: e.c, Y: e.s}, r2.Vec{X: f.c, Y: f.s}
	a0, a1 := mulVec(r2.Sub(e.a, f.a), w), r2.Sub(e.b, f.a)
	b0, b1 := mulVec(r2.Sub(e.a, f.b), w), r2.Sub(e.b, f.b)
	im := func(x, y r2.Vec) float64 { z := conjMul(x, y); return z.X*w2.Y + z.Y*w2.X }
	q0, q2 := im(a0, b0), im(a1, b1)
	q1 := im(a0, b1) + im(a1, b0)
	if lim := eps * f.chord; math.Abs(q0) <= lim && math.Abs(q2) <= lim && math.Abs(q1) <= 2*lim {
		return hits // one runs along the other; their ends say where
	}
	disc := q1*q1 - 4*q0*q2
	if q0*q2 > 0 && q0*q1 < 0 {
		// Nearest to the other curve, or deepest through it, here. Two crossings
		// so shallow that they may be one touch off by rounding are taken as it.
		lim := eps
		if disc > 0 {
			lim = eps / 64
		}
		t := math.Sqrt(math.Abs(q0))
		t /= t + math.Sqrt(math.Abs(q2))
		if p := e.at(t); math.Abs(f.off(p)) <= lim {
			return e.addHit(hits, f, t, p)
		}
	}
	if disc <= 0 {
		return hits
	}
	m := -(q1 + math.Copysign(math.Sqrt(disc), q1)) / 2
	for _, x := range [2][2]float64{{m, q2}, {q0, m}} {
		if t := x[0] / (x[0] + x[1]); x[0]*x[1] >= 0 && t > 0 && t < 1 {
			hits = e.addHit(hits, f, t, e.at(t))
		}
	}
	return hits
}

func (e *edge) addHit(hits []hit, f *edge, t float64, p r2.Vec) []hit {
	if u, on := f.param(p); on {
		return append(hits, hit{p, t, u})
	}
	return hits
}
