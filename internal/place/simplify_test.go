package place

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// exactSide is the sign of the turn a, b, c in rational arithmetic.
func exactSide(a, b, c r2.Vec) int {
	f := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(f(x), f(y)) }
	l := new(big.Rat).Mul(sub(b.X, a.X), sub(c.Y, a.Y))
	return l.Cmp(new(big.Rat).Mul(sub(b.Y, a.Y), sub(c.X, a.X)))
}

// properCrossings counts the pairs of edges of two loops that cross properly.
func properCrossings(p, q []r2.Vec) int {
	n := 0
	for i := range p {
		a, b := p[i], p[(i+1)%len(p)]
		for j := range q {
			c, d := q[j], q[(j+1)%len(q)]
			if max(c.X, d.X) < min(a.X, b.X) || min(c.X, d.X) > max(a.X, b.X) || max(c.Y, d.Y) < min(a.Y, b.Y) || min(c.Y, d.Y) > max(a.Y, b.Y) {
				continue
			}
			if exactSide(a, b, c)*exactSide(a, b, d) < 0 && exactSide(c, d, a)*exactSide(c, d, b) < 0 {
				n++
			}
		}
	}
	return n
}

// outsideBy returns how far a point lies outside a loop: by the sum of the
// angles under which the edges are seen, and the distance from the edges.
func outsideBy(loop []r2.Vec, p r2.Vec) float64 {
	turn, least := 0.0, math.Inf(1)
	for i := range loop {
		a, b := r2.Sub(loop[i], p), r2.Sub(loop[(i+1)%len(loop)], p)
		turn += math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)
		ab := r2.Sub(b, a)
		t := 0.0
		if l := r2.Norm2(ab); l > 0 {
			t = min(1, max(0, -r2.Dot(a, ab)/l))
		}
		least = min(least, r2.Norm(r2.Add(a, r2.Scale(t, ab))))
	}
	if math.Abs(turn) > math.Pi {
		return 0
	}
	return least
}

// holdFault says in which way s is no good simplification of p.
func holdFault(p, s []r2.Vec, limit int, share float64) string {
	lo, hi := bounds(p)
	eps := 1e-9 * r2.Norm(r2.Sub(hi, lo))
	if n := properCrossings(s, s); n > 0 && properCrossings(p, p) == 0 {
		return fmt.Sprintf("%d crossings", n)
	}
	if r := area(s) / area(p); !(r >= 1-1e-9 && r <= 1+share+1e-9) {
		return fmt.Sprintf("area x %.5f", r)
	}
	for i := range p {
		for k := range 4 {
			v := r2.Add(p[i], r2.Scale(float64(k)/4, r2.Sub(p[(i+1)%len(p)], p[i])))
			if d := outsideBy(s, v); d > eps {
				return fmt.Sprintf("vertex %d + %d/4 is %g outside", i, k, d)
			}
		}
	}
	if len(s) > len(p) || len(s) < min(len(p), limit) {
		return fmt.Sprintf("%d vertices", len(s))
	}
	return ""
}

func wildStar(rng *rand.Rand, n int, deep float64) []r2.Vec {
	var p []r2.Vec
	for i := range n {
		a, r := 2*math.Pi*(float64(i)+0.9*rng.Float64())/float64(n), 100*(1-deep*rng.Float64())
		p = append(p, r2.Vec{X: r * math.Cos(a), Y: r * math.Sin(a)})
	}
	return p
}

// comb is a loop that winds to and fro, with narrow slots that a careless
// step would close across.
func comb(rng *rand.Rand, teeth int) []r2.Vec {
	var p []r2.Vec
	x := 0.0
	for range teeth {
		w, g := 0.2+rng.Float64(), 0.02+0.1*rng.Float64()
		lean := 3 * (rng.Float64() - 0.5)
		p = append(p, r2.Vec{X: x + lean, Y: 20 + 5*rng.Float64()}, r2.Vec{X: x + w + lean, Y: 20 + 5*rng.Float64()}, r2.Vec{X: x + w + g/2, Y: 5 + rng.Float64()}, r2.Vec{X: x + w + g, Y: 5 + rng.Float64()})
		x += w + g
	}
	if p = append(p, r2.Vec{X: x + 9, Y: 0}, r2.Vec{X: -9, Y: 0}); area(p) < 0 {
		for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
			p[i], p[j] = p[j], p[i]
		}
	}
	return p
}

func TestSimplifyHoldsRandomLoops(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	fewer := 0
	for k := range 150 {
		p := wildStar(rng, 20+rng.IntN(180), rng.Float64())
		if k%3 == 0 {
			if p = comb(rng, 8+rng.IntN(30)); properCrossings(p, p) > 0 {
				continue
			}
		}
		share := []float64{0.001, 0.02, 0.3}[rng.IntN(3)]
		limit := 4 + rng.IntN(len(p))
		s := simplify(p, limit, share)
		require.Empty(t, holdFault(p, s, limit, share), "loop %d of %d vertices, limit %d, share %g", k, len(p), limit, share)
		fewer += len(p) - len(s)
	}
	require.Greater(t, fewer, 2000)
}

func TestSimplifyHoldsOpenSets(t *testing.T) {
	for _, name := range []string{"albano", "dagli", "fu", "gardeyn0", "gardeyn3", "gardeyn4", "gardeyn7", "gardeyn9", "jakobs1", "shapes0", "shirts", "swim"} {
		for i, it := range loadInstance(t, name).items() {
			p := append([]r2.Vec(nil), it.Outer...)
			if area(p) < 0 {
				for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
					p[i], p[j] = p[j], p[i]
				}
			}
			for _, limit := range []int{maxLoop, 20} {
				s := simplify(p, limit, simplifyGain)
				require.Empty(t, holdFault(p, s, limit, simplifyGain), "%s item %d, %d vertices to %d", name, i, len(p), len(s))
			}
		}
	}
}

// A planted fault of each kind is seen.
func TestHoldFaultSees(t *testing.T) {
	p := wildStar(rand.New(rand.NewPCG(1, 1)), 40, 0.2)
	require.Empty(t, holdFault(p, p, 40, 0.001))
	require.Contains(t, holdFault(p, p[1:], 30, 0.001), "area")
	big := append([]r2.Vec(nil), p...)
	for i := range big {
		big[i] = r2.Scale(1.002, big[i])
	}
	require.Contains(t, holdFault(p, big, 40, 0.001), "area")
	shift := append([]r2.Vec(nil), p...)
	for i := range shift {
		shift[i].X++
	}
	require.Contains(t, holdFault(p, shift, 40, 0.001), "outside")
	swap := append([]r2.Vec(nil), p...)
	swap[3], swap[20] = swap[20], swap[3]
	require.Contains(t, holdFault(p, swap, 40, 0.5), "crossings")
}
