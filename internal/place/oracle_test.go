package place

import (
	"fmt"
	"math/big"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// The oracle is written apart from the search, in rational numbers: it cuts
// the plane into horizontal slabs at every vertex and every crossing of two
// edges, and compares the stretches covered by the two polygons in the middle
// of each slab. Polygons overlap exactly if some stretches share a length.

type ratPoint struct{ x, y *big.Rat }

type ratPoly [][]ratPoint

func rat(v float64) *big.Rat { r := new(big.Rat); r.SetFloat64(v); return r }

func ratLoops(loops [][]r2.Vec) ratPoly {
	var out ratPoly
	for _, l := range loops {
		var q []ratPoint
		for _, v := range l {
			q = append(q, ratPoint{rat(v.X), rat(v.Y)})
		}
		out = append(out, q)
	}
	return out
}

func (p ratPoly) edges() [][2]ratPoint {
	var es [][2]ratPoint
	for _, l := range p {
		for i := range l {
			es = append(es, [2]ratPoint{l[i], l[(i+1)%len(l)]})
		}
	}
	return es
}

func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

// ratOverlap reports whether the interiors of p and q meet, by more than slack
// both along and across the slabs.
func ratOverlap(p, q ratPoly, slack float64) bool {
	thin := rat(slack)
	ep, eq := p.edges(), q.edges()
	var ys []*big.Rat
	for _, e := range append(append([][2]ratPoint(nil), ep...), eq...) {
		ys = append(ys, e[0].y)
	}
	for _, a := range ep {
		for _, b := range eq {
			if y := crossingY(a, b); y != nil {
				ys = append(ys, y)
			}
		}
	}
	sort.Slice(ys, func(i, j int) bool { return ys[i].Cmp(ys[j]) < 0 })
	for i := 1; i < len(ys); i++ {
		if sub(ys[i], ys[i-1]).Cmp(thin) <= 0 {
			continue
		}
		y := mul(new(big.Rat).Add(ys[i], ys[i-1]), big.NewRat(1, 2))
		if shareLength(stretches(ep, y), stretches(eq, y), thin) {
			return true
		}
	}
	return false
}

// crossingY returns the height where the lines of two edges cross, if that is
// on both.
func crossingY(a, b [2]ratPoint) *big.Rat {
	dx, dy := sub(a[1].x, a[0].x), sub(a[1].y, a[0].y)
	ex, ey := sub(b[1].x, b[0].x), sub(b[1].y, b[0].y)
	den := sub(mul(dx, ey), mul(dy, ex))
	if den.Sign() == 0 {
		return nil
	}
	fx, fy := sub(b[0].x, a[0].x), sub(b[0].y, a[0].y)
	t := new(big.Rat).Quo(sub(mul(fx, ey), mul(fy, ex)), den)
	u := new(big.Rat).Quo(sub(mul(fx, dy), mul(fy, dx)), den)
	one := big.NewRat(1, 1)
	if t.Sign() < 0 || u.Sign() < 0 || t.Cmp(one) > 0 || u.Cmp(one) > 0 {
		return nil
	}
	return new(big.Rat).Add(a[0].y, mul(t, dy))
}

func stretches(es [][2]ratPoint, y *big.Rat) []*big.Rat {
	var xs []*big.Rat
	for _, e := range es {
		if (e[0].y.Cmp(y) > 0) == (e[1].y.Cmp(y) > 0) {
			continue
		}
		t := new(big.Rat).Quo(sub(y, e[0].y), sub(e[1].y, e[0].y))
		xs = append(xs, new(big.Rat).Add(e[0].x, mul(t, sub(e[1].x, e[0].x))))
	}
	sort.Slice(xs, func(i, j int) bool { return xs[i].Cmp(xs[j]) < 0 })
	return xs
}

func shareLength(a, b []*big.Rat, thin *big.Rat) bool {
	for i := 0; i+1 < len(a); i += 2 {
		for j := 0; j+1 < len(b); j += 2 {
			lo, hi := a[i], a[i+1]
			if b[j].Cmp(lo) > 0 {
				lo = b[j]
			}
			if b[j+1].Cmp(hi) < 0 {
				hi = b[j+1]
			}
			if sub(hi, lo).Cmp(thin) > 0 {
				return true
			}
		}
	}
	return false
}

// placedLoops applies a placement to the true outline of its item.
func placedLoops(items []Item, p Placement) [][]r2.Vec {
	var out [][]r2.Vec
	for _, l := range append([][]r2.Vec{items[p.Item].Outer}, items[p.Item].Holes...) {
		var q []r2.Vec
		for _, v := range l {
			q = append(q, p.Apply(v))
		}
		out = append(out, q)
	}
	return out
}

// requireLegal checks a layout in a rectangle against the oracle: all within,
// no overlap, no copy twice. Slack is for coordinates that floats do not hold
// exactly: 0 for whole numbers.
func requireLegal(t testing.TB, items []Item, placed []Placement, length, height, slack float64) {
	t.Helper()
	seen := map[[2]int]bool{}
	var polys []ratPoly
	var boxes [][2]r2.Vec
	for _, p := range placed {
		key := [2]int{p.Item, p.Copy}
		require.False(t, seen[key], "copy %v placed twice", key)
		require.Less(t, p.Copy, items[p.Item].demand())
		seen[key] = true
		loops := placedLoops(items, p)
		lo, hi := bounds(loops[0])
		name := fmt.Sprintf("item %d copy %d", p.Item, p.Copy)
		require.GreaterOrEqual(t, lo.X, -slack, name)
		require.GreaterOrEqual(t, lo.Y, -slack, name)
		require.LessOrEqual(t, hi.X, length+slack, name)
		require.LessOrEqual(t, hi.Y, height+slack, name)
		for k, q := range polys {
			b := boxes[k]
			if b[0].X < hi.X && lo.X < b[1].X && b[0].Y < hi.Y && lo.Y < b[1].Y {
				require.False(t, ratOverlap(ratLoops(loops), q, slack), "%s overlaps placement %d", name, k)
			}
		}
		polys = append(polys, ratLoops(loops))
		boxes = append(boxes, [2]r2.Vec{lo, hi})
	}
}
