package cut

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// randomOps are operations of two groups and two cutters, some that end where they
// begin and some that end a way off.
func randomOps(rng *rand.Rand, n int) []Operation {
	out := make([]Operation, n)
	for i := range out {
		a := r3.Vec{X: 2440 * rng.Float64(), Y: 1220 * rng.Float64()}
		b := a
		if rng.IntN(2) == 0 {
			b.X += 300 * rng.Float64()
		}
		out[i] = Operation{Placement: i, Tool: 1 + rng.IntN(2), group: rng.IntN(2), Moves: []Move{{To: a}, {To: b}}}
	}
	return out
}

func travelOf(ops []Operation) float64 {
	at, sum := r3.Vec{}, 0.0
	for _, o := range ops {
		a, b := o.Moves[0].To, o.Moves[len(o.Moves)-1].To
		sum += math.Hypot(a.X-at.X, a.Y-at.Y)
		at = b
	}
	return sum
}

// anneal is another way to a good tour: it swaps and moves operations of the same
// block at random, and takes worse ones less and less.
func anneal(rng *rand.Rand, ops []Operation, steps int) float64 {
	now := append([]Operation(nil), ops...)
	length := travelOf(now)
	best := length
	for i := range steps {
		heat := 400 * math.Pow(1e-3, float64(i)/float64(steps))
		a, b := rng.IntN(len(now)), rng.IntN(len(now))
		if now[a].Tool != now[b].Tool || now[a].group != now[b].group {
			continue
		}
		try := append([]Operation(nil), now...)
		switch a, b = min(a, b), max(a, b); rng.IntN(3) {
		case 0:
			try[a], try[b] = try[b], try[a]
		case 1:
			for x, y := a, b; x < y; x, y = x+1, y-1 {
				try[x], try[y] = try[y], try[x]
			}
		default:
			o := try[a]
			copy(try[a:b], try[a+1:b+1])
			try[b] = o
		}
		if l := travelOf(try); l < length || rng.Float64() < math.Exp((length-l)/heat) {
			now, length = try, l
			best = math.Min(best, l)
		}
	}
	return best
}

// Travel is within a tenth of a good tour of the same blocks.
func TestTravelIsShort(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	worst, sum, n := 0.0, 0.0, 0
	for _, size := range []int{5, 12, 25, 40, 60} {
		for range 2 {
			ops := randomOps(rng, size)
			got := inSequence(ops)
			seen := map[int]bool{}
			for i, o := range got {
				seen[o.Placement] = true
				require.False(t, i > 0 && got[i-1].group > o.group)
			}
			require.Len(t, seen, size)
			ratio := travelOf(got) / anneal(rng, got, 60000)
			// The start of the walk is what is tested: also begin from scratch.
			scratch := blocksOf(got)
			rng.Shuffle(len(scratch), func(i, j int) {
				if scratch[i].Tool == scratch[j].Tool && scratch[i].group == scratch[j].group {
					scratch[i], scratch[j] = scratch[j], scratch[i]
				}
			})
			ratio = math.Max(ratio, travelOf(got)/anneal(rng, scratch, 60000))
			require.Less(t, ratio, 1.1, "%d operations", size)
			worst, sum, n = math.Max(worst, ratio), sum+ratio, n+1
		}
	}
	t.Logf("travel over a good tour: mean %.3f, worst %.3f", sum/float64(n), worst)
}

func blocksOf(ops []Operation) []Operation { return append([]Operation(nil), ops...) }

// No sequence of the cutters of the groups takes fewer changes.
func TestFewestChanges(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	for range 300 {
		sets := make([][]int, 1+rng.IntN(5))
		for i := range sets {
			sets[i] = rng.Perm(4)[:1+rng.IntN(3)]
			for k := range sets[i] {
				sets[i][k]++
			}
		}
		got := 0
		last := 0
		for i, tools := range changes(sets) {
			require.ElementsMatch(t, sets[i], tools)
			for _, tool := range tools {
				if tool != last {
					got, last = got+1, tool
				}
			}
		}
		require.Equal(t, fewest(sets, 0), got, "%v", sets)
	}
}

// fewest tries all sequences.
func fewest(sets [][]int, last int) int {
	if len(sets) == 0 {
		return 0
	}
	best := math.MaxInt
	permute(sets[0], func(p []int) {
		n, at := 0, last
		for _, tool := range p {
			if tool != at {
				n, at = n+1, tool
			}
		}
		best = min(best, n+fewest(sets[1:], at))
	})
	return best
}

func permute(p []int, do func([]int)) {
	if len(p) < 2 {
		do(append([]int(nil), p...))
		return
	}
	for i := range p {
		rest := append(append([]int(nil), p[:i]...), p[i+1:]...)
		permute(rest, func(q []int) { do(append([]int{p[i]}, q...)) })
	}
}
