package arc_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
)

// The reference: the formulas of the circular segment at 400 bits, its arc
// tangent summed from the Taylor series after halving the angle.
const prec = 400

func bf(x float64) *big.Float         { return new(big.Float).SetPrec(prec).SetFloat64(x) }
func bAdd(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(prec).Add(a, b) }
func bSub(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(prec).Sub(a, b) }
func bMul(a ...*big.Float) *big.Float {
	p := bf(1)
	for _, x := range a {
		p = new(big.Float).SetPrec(prec).Mul(p, x)
	}
	return p
}
func bDiv(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(prec).Quo(a, b) }

// bAtan: atan x = 2·atan(x/(1 + √(1+x²))), 24 times, then the series.
func bAtan(x *big.Float) *big.Float {
	const halvings = 24
	for range halvings {
		root := new(big.Float).SetPrec(prec).Sqrt(bAdd(bf(1), bMul(x, x)))
		x = bDiv(x, bAdd(bf(1), root))
	}
	sum, power, q := bf(0), x, bMul(x, x)
	for n := 1; n < 22; n += 2 {
		term := bDiv(power, bf(float64(n)))
		if n%4 == 3 {
			term.Neg(term)
		}
		sum, power = bAdd(sum, term), bMul(power, q)
	}
	return bMul(sum, bf(1<<halvings))
}

// onePlus returns 1+k².
func onePlus(k *big.Float) *big.Float { return bAdd(bf(1), bMul(k, k)) }

// ulps returns how many units in the last place of want got is away from it.
func ulps(got float64, want *big.Float) float64 {
	w, _ := want.Float64()
	d, _ := bSub(bf(got), want).Float64()
	w = math.Abs(w)
	return math.Abs(d) / (math.Nextafter(w, math.Inf(1)) - w)
}

func count(full, usual, short int) int {
	switch {
	case os.Getenv("SAGITTA_FULL") == "1":
		return full
	case testing.Short():
		return short
	}
	return usual
}

func logUniform(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Exp(r.Float64()*math.Log(hi/lo))
}

func TestArcWithinFourUlps(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	worst := map[string]float64{}
	for range count(50000, 1000, 100) {
		chord := logUniform(r, 1e-3, 1e5)
		sag := chord * logUniform(r, 1e-12, 1e6)
		a, err := arc.FromChordSag(chord, sag)
		require.NoError(t, err)
		c, s := bf(chord), bf(sag)
		k := bDiv(bMul(bf(2), s), c)
		kk, at := onePlus(k), bAtan(k)
		for name, v := range map[string]struct {
			got  float64
			want *big.Float
		}{
			"k": {a.K(), k}, "chord": {a.Chord(), c}, "sag": {a.Sag(), s},
			"radius":    {a.Radius(), bDiv(bMul(c, kk), bMul(bf(4), k))},
			"curvature": {a.Curvature(), bDiv(bMul(bf(4), k), bMul(c, kk))},
			"turn":      {float64(a.Turn()), bMul(bf(4), at)},
			"length":    {a.Length(), bDiv(bMul(c, kk, at), k)},
			"area":      {a.Area(), refArea(c, k)},
			"centroid":  {a.Centroid(), refCentroid(c, k)},
		} {
			worst[name] = math.Max(worst[name], ulps(v.got, v.want))
		}
	}
	t.Logf("largest errors in ulp: %v", worst)
	for name, w := range worst {
		limit := 4.0
		if name == "area" || name == "centroid" {
			limit = 16
		}
		assert.LessOrEqual(t, w, limit, name)
	}
}

// R²(α − sin α)/2 with α = 4 atan k: c²/(8k²)·((1+k²)²·atan k − k(1−k²)).
func refArea(c, k *big.Float) *big.Float {
	q := bMul(k, k)
	d := bSub(bMul(onePlus(k), onePlus(k), bAtan(k)), bMul(k, bSub(bf(1), q)))
	return bDiv(bMul(c, c, d), bMul(bf(8), q))
}

// The centroid of a segment lies c³/(12A) from the center, which lies
// c(1−k²)/(4k) below the chord (Machinery's Handbook, 31st ed., p. 78 ff.).
func refCentroid(c, k *big.Float) *big.Float {
	d := bDiv(bMul(c, bSub(bf(1), bMul(k, k))), bMul(bf(4), k))
	return bSub(bDiv(bMul(c, c, c), bMul(bf(12), refArea(c, k))), d)
}

// A solved case: an arc from two of its sizes, and the equation between k and
// their ratio that it must satisfy.
type solved struct {
	name  string
	solve func(a arc.Arc) (arc.Arc, float64, error) // the arc and the ratio given
	ratio func(k *big.Float) *big.Float             // the ratio that k gives
	chord func(a arc.Arc, k *big.Float) *big.Float  // the chord that k gives
}

func bTurn(k *big.Float) *big.Float { return bMul(bf(4), bAtan(k)) }

// cases lists every constructor. Inputs are the rounded sizes of an arc; the
// reference then solves for exactly those inputs.
func cases() []solved {
	sameChord := func(a arc.Arc, _ *big.Float) *big.Float { return bf(a.Chord()) }
	fromSag := func(a arc.Arc, k *big.Float) *big.Float { return bDiv(bMul(bf(2), bf(a.Sag())), k) }
	fromRadius := func(a arc.Arc, k *big.Float) *big.Float {
		return bDiv(bMul(bf(4), bf(a.Radius()), k), onePlus(k))
	}
	fromLength := func(a arc.Arc, k *big.Float) *big.Float {
		return bDiv(bMul(bf(a.Length()), k), bMul(onePlus(k), bAtan(k)))
	}
	radiusByChord := func(k *big.Float) *big.Float { return bDiv(onePlus(k), bMul(bf(4), k)) }
	out := []solved{
		{"chord, turn", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromChordTurn(a.Chord(), a.Turn())
			return b, float64(a.Turn()), err
		}, bTurn, sameChord},
		{"chord, length", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromChordLength(a.Chord(), a.Length())
			return b, math.NaN(), err
		}, func(k *big.Float) *big.Float { return bDiv(bMul(onePlus(k), bAtan(k)), k) }, sameChord},
		{"sag, radius", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromSagRadius(a.Sag(), a.Radius())
			return b, math.NaN(), err
		}, func(k *big.Float) *big.Float { return bDiv(onePlus(k), bMul(bf(2), k, k)) }, fromSag},
		{"sag, turn", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromSagTurn(a.Sag(), a.Turn())
			return b, float64(a.Turn()), err
		}, bTurn, fromSag},
		{"radius, turn", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromRadiusTurn(a.Radius(), a.Turn())
			return b, float64(a.Turn()), err
		}, bTurn, fromRadius},
		{"radius, length", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromRadiusLength(a.Radius(), a.Length())
			return b, math.NaN(), err
		}, bTurn, fromRadius},
		{"turn, length", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromLengthTurn(a.Length(), a.Turn())
			return b, float64(a.Turn()), err
		}, bTurn, fromLength},
		{"chord, radius", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromChordRadius(a.Chord(), a.Radius(), a.K() > 1)
			return b, math.NaN(), err
		}, radiusByChord, sameChord},
		{"sag, length", func(a arc.Arc) (arc.Arc, float64, error) {
			b, err := arc.FromSagLength(a.Sag(), a.Length(), math.Atan(a.K()) > 1.1655611852072113)
			return b, math.NaN(), err
		}, func(k *big.Float) *big.Float { return bDiv(bMul(k, k), bMul(bf(2), onePlus(k), bAtan(k))) }, fromSag},
	}
	return out
}

// given returns the exact ratio of the inputs of a case.
func given(name string, a arc.Arc, ratio float64) *big.Float {
	switch name {
	case "chord, length":
		return bDiv(bf(a.Length()), bf(a.Chord()))
	case "sag, radius":
		return bDiv(bf(a.Radius()), bf(a.Sag()))
	case "radius, length":
		return bDiv(bf(a.Length()), bf(a.Radius()))
	case "chord, radius":
		return bDiv(bf(a.Radius()), bf(a.Chord()))
	case "sag, length":
		return bDiv(bf(a.Sag()), bf(a.Length()))
	}
	return bf(ratio)
}

// Every pair of sizes gives back the arc within 16 ulp, or 16 times what a
// change of the inputs by one ulp makes, where that is more: the turn of an
// almost full circle, the length of an almost straight line and the radius of
// an almost half circle say little about k.
func TestSolvedArcsWithinSixteenUlps(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, c := range cases() {
		worst := 0.0
		for range count(4000, 60, 10) {
			chord := logUniform(r, 1e-3, 1e5)
			a, err := arc.FromChordSag(chord, chord*logUniform(r, 1e-12, 1e6))
			require.NoError(t, err)
			if a.Length() == a.Chord() && c.name == "chord, length" || float64(a.Turn()) >= 2*math.Pi {
				continue // straight, or full, to the last bit
			}
			b, ratio, err := c.solve(a)
			if err != nil && c.name == "sag, length" && math.Abs(math.Atan(a.K())-1.16556) < 1e-4 {
				continue // where the two arcs of a length meet
			}
			require.NoError(t, err, "%s %v %v", c.name, a.Chord(), a.Sag())
			want := given(c.name, a, ratio)
			k, cond := solve(c.ratio, want, b.K())
			limit := 16 * math.Max(1, cond)
			ek, ec := ulps(b.K(), k), ulps(b.Chord(), c.chord(a, k))
			require.LessOrEqual(t, ek, limit, "k from %s, chord %v sag %v", c.name, a.Chord(), a.Sag())
			require.LessOrEqual(t, ec, limit, "chord from %s, chord %v sag %v", c.name, a.Chord(), a.Sag())
			worst = math.Max(worst, math.Max(ek, ec)/math.Max(1, cond))
		}
		t.Logf("%s: largest error %.2f ulp", c.name, worst)
	}
}

// solve returns the k near k0 that gives the ratio, by Newton's method, and how
// much of a relative change of the ratio comes back in k.
func solve(f func(*big.Float) *big.Float, want *big.Float, k0 float64) (*big.Float, float64) {
	k, slope := bf(k0), bf(0)
	for range 8 {
		h := bMul(k, bf(0x1p-140))
		v := f(k)
		slope = bDiv(bSub(f(bAdd(k, h)), v), h)
		k = bAdd(k, bDiv(bSub(want, v), slope))
	}
	cond, _ := bDiv(want, bMul(k, slope)).Float64()
	return k, math.Abs(cond)
}
