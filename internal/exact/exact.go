// Package exact answers which side a point lies on without rounding.
//
// Each answer is first computed in float64 and taken if it is larger than a
// bound on its rounding error; only otherwise are the same few products formed
// again with enough bits to be exact. The plan, and the bound for [Orient],
// are those of J. R. Shewchuk, Adaptive Precision Floating-Point Arithmetic
// and Fast Robust Geometric Predicates, Discrete & Computational Geometry 18,
// 1997.
package exact

import (
	"math"
	"math/big"

	"gonum.org/v1/gonum/spatial/r2"
)

// epsilon is half a unit in the last place of 1, Shewchuk's ε.
const epsilon = 1.0 / (1 << 53)

// orientBound is Shewchuk's ccwerrboundA: the error of the difference of two
// products of rounded differences, relative to the sum of their magnitudes.
const orientBound = (3 + 16*epsilon) * epsilon

// sideBound does the same for [ArcSide]. Its two terms are sums of two products
// of rounded differences, three roundings a product and one for the sum, times
// a factor that carries at most two (2k has none, 1 − k² has two, relative to
// 1 + k²), times itself one, and the last difference one: eight in all, and a
// little for their products.
const sideBound = (8 + 64*epsilon) * epsilon

// tiny is far above what underflow can take from a product, and below any
// magnitude met in practice.
const tiny = 1e-280

// Orient returns the sign of the area of the triangle a, b, c: 1 where c is to
// the left of the line from a to b, -1 to the right, 0 on it. The coordinates
// must be finite.
func Orient(a, b, c r2.Vec) int {
	l := float64((a.X - c.X) * (b.Y - c.Y))
	r := float64((a.Y - c.Y) * (b.X - c.X))
	det := l - r
	sum := math.Abs(l) + math.Abs(r)
	if sum > tiny && math.Abs(det) > orientBound*sum {
		return sign(det)
	}
	if a == b || b == c || a == c {
		return 0
	}
	return orientExact(a, b, c)
}

// ArcSide returns on which side of an arc's circle p lies: -1 to the left of
// the arc from a to b, 1 to the right, 0 on the circle. The arc turns by
// 4·atan k; k = 0 stands for the line through a and b. By the inscribed angle
// theorem the circle is where, with u = p − a and v = p − b,
//
//	2k·(u·v) − (1 − k²)·(u×v) = 0
//
// and no center or radius is needed. The numbers must be finite.
func ArcSide(a, b r2.Vec, k float64, p r2.Vec) int {
	ux, uy, vx, vy := p.X-a.X, p.Y-a.Y, p.X-b.X, p.Y-b.Y
	xx, yy, xy, yx := float64(ux*vx), float64(uy*vy), float64(ux*vy), float64(uy*vx)
	k2 := float64(k * k)
	det := 2*k*(xx+yy) - (1-k2)*(xy-yx)
	sum := 2*math.Abs(k)*(math.Abs(xx)+math.Abs(yy)) + (1+k2)*(math.Abs(xy)+math.Abs(yx))
	if sum > tiny && math.Abs(det) > sideBound*sum {
		return sign(det)
	}
	if p == a || p == b {
		return 0
	}
	return arcSideExact(a, b, k, p)
}

func sign(x float64) int {
	if x > 0 {
		return 1
	}
	if x < 0 {
		return -1
	}
	return 0
}

// Float64 values are multiples of 2^-1074 below 2^1024. A difference of two
// fits in 2,100 bits, a product of two such in 4,200, and of those with k and
// 1 − k² in 8,500. A big.Float only keeps the words it needs, so that common
// coordinates stay cheap.
const exactBits = 8704

func exactly(x float64) *big.Float {
	return new(big.Float).SetPrec(exactBits).SetFloat64(x)
}

func diff(x, y float64) *big.Float { return exactly(0).Sub(exactly(x), exactly(y)) }

func mul(x, y *big.Float) *big.Float { return exactly(0).Mul(x, y) }

func orientExact(a, b, c r2.Vec) int {
	l := mul(diff(a.X, c.X), diff(b.Y, c.Y))
	r := mul(diff(a.Y, c.Y), diff(b.X, c.X))
	return l.Cmp(r)
}

func arcSideExact(a, b r2.Vec, k float64, p r2.Vec) int {
	ux, uy, vx, vy := diff(p.X, a.X), diff(p.Y, a.Y), diff(p.X, b.X), diff(p.Y, b.Y)
	dot := exactly(0).Add(mul(ux, vx), mul(uy, vy))
	cross := exactly(0).Sub(mul(ux, vy), mul(uy, vx))
	kk := exactly(k)
	q := exactly(0).Sub(exactly(1), mul(kk, kk))
	return mul(exactly(0).Add(kk, kk), dot).Cmp(mul(q, cross))
}
