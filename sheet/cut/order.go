package cut

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// inSequence sorts the operations by group, within it by cutter, with as few
// changes as that allows, and the operations of one cutter in one group, a
// block, so that travel is short. The same operations give the same sequence.
func inSequence(ops []Operation) []Operation {
	var groups []int
	by := map[int][]Operation{}
	for _, o := range ops {
		if by[o.group] == nil {
			groups = append(groups, o.group)
		}
		by[o.group] = append(by[o.group], o)
	}
	slices.Sort(groups)
	sets := make([][]int, len(groups))
	for i, g := range groups {
		sets[i] = toolsOf(by[g])
	}
	var t tour
	for i, tools := range changes(sets) {
		for _, tool := range tools {
			from := len(t.ops)
			for _, o := range by[groups[i]] {
				if o.Tool == tool {
					t.ops = append(t.ops, o)
				}
			}
			t.blocks = append(t.blocks, [2]int{from, len(t.ops)})
		}
	}
	t.nearest()
	t.improve()
	t.kick()
	return t.ops
}

// toolsOf returns the cutters of operations in the sequence of their first use.
func toolsOf(ops []Operation) []int {
	var out []int
	for _, o := range ops {
		if !slices.Contains(out, o.Tool) {
			out = append(out, o.Tool)
		}
	}
	return out
}

// changes puts the cutters of each group in the sequence that takes the fewest
// changes over all groups. What matters of a group is which cutter comes last:
// from the end backward, the changes that each choice leads to.
func changes(sets [][]int) [][]int {
	n := len(sets)
	cost := make([][]int, n+1) // of all that follows, by the last cutter of a group
	next := make([][]int, n)
	for i := n - 1; i >= 0; i-- {
		cost[i], next[i] = make([]int, len(sets[i])), make([]int, len(sets[i]))
		for k, last := range sets[i] {
			if i == n-1 {
				continue
			}
			cost[i][k] = math.MaxInt
			for j, end := range sets[i+1] {
				c := cost[i+1][j] + loads(sets[i+1], last, end)
				if c < cost[i][k] {
					cost[i][k], next[i][k] = c, j
				}
			}
		}
	}
	out := make([][]int, n)
	last, k := 0, 0
	for i, set := range sets {
		if i == 0 {
			k = slices.Index(cost[0], slices.Min(cost[0]))
		}
		end := set[k]
		out[i] = slices.DeleteFunc(slices.Clone(set), func(t int) bool { return t == end || t == last })
		if last != end && slices.Contains(set, last) {
			out[i] = append([]int{last}, out[i]...)
		}
		out[i] = append(out[i], end)
		last, k = end, next[i][k]
	}
	return out
}

// loads returns how often a cutter is put in for a set of them, one being in
// already and another to come last.
func loads(set []int, in, end int) int {
	if slices.Contains(set, in) && (in != end || len(set) == 1) {
		return len(set) - 1
	}
	return len(set)
}

// A tour is a sequence of operations in blocks, each of which keeps its place.
type tour struct {
	ops    []Operation
	blocks [][2]int // from, to
}

// hop returns the way from the end of operation i to the start of j. The tour
// begins at zero, as i = -1, and ends anywhere.
func (t *tour) hop(i, j int) float64 {
	if j >= len(t.ops) {
		return 0
	}
	at := r2.Vec{}
	if i >= 0 {
		at = t.ops[i].End()
	}
	return r2.Norm(r2.Sub(t.ops[j].Start(), at))
}

// nearest goes on to the nearest start each time. Equal ways go by the sequence
// given.
func (t *tour) nearest() {
	for _, b := range t.blocks {
		for i := b[0]; i < b[1]; i++ {
			best := i
			for j := i + 1; j < b[1]; j++ {
				if t.hop(i-1, j) < t.hop(i-1, best) {
					best = j
				}
			}
			o := t.ops[best]
			copy(t.ops[i+1:best+1], t.ops[i:best])
			t.ops[i] = o
		}
	}
}

// gain is the least by which a change of the tour has to shorten it, mm, so
// that rounding makes no endless round.
const gain = 1e-6

// maxRounds bounds the rounds of improvement, and maxBlock how many operations
// of a block are looked at in pairs.
const (
	maxRounds = 60
	maxBlock  = 1500
)

// improve shortens the tour by turning runs of operations round and by moving
// runs elsewhere in their block, until neither helps.
func (t *tour) improve() {
	for range maxRounds {
		better := false
		for _, b := range t.blocks {
			if b[1]-b[0] > maxBlock {
				continue
			}
			for i := b[0]; i < b[1]; i++ {
				better = t.turn(i, b[1]) || better
				better = t.shift(i, b) || better
			}
		}
		if !better {
			return
		}
	}
}

// kicks bounds the pairs looked at while tours are kicked, in pairs of
// operations times kicks, and maxKicks the kicks.
const (
	kicks    = 250000
	maxKicks = 60
)

// kick leaves a tour that improve cannot shorten by swapping two runs, and
// goes on from there if that led to a shorter one. Its dice are its own, so
// that the same operations give the same sequence.
func (t *tour) kick() {
	rng := rand.New(rand.NewPCG(1, 2))
	n := len(t.ops)
	if n < 4 {
		return
	}
	for range min(maxKicks, kicks/(n*n)) {
		b := t.blocks[rng.IntN(len(t.blocks))]
		if b[1]-b[0] < 4 {
			continue
		}
		was, length := slices.Clone(t.ops), t.length()
		c := [3]int{b[0] + rng.IntN(b[1]-b[0]+1), b[0] + rng.IntN(b[1]-b[0]+1), b[0] + rng.IntN(b[1]-b[0]+1)}
		slices.Sort(c[:])
		copy(t.ops[c[0]:], append(slices.Clone(t.ops[c[1]:c[2]]), t.ops[c[0]:c[1]]...))
		t.improve()
		if t.length() > length-gain {
			t.ops = was
		}
	}
}

func (t *tour) length() float64 {
	sum := 0.0
	for i := range t.ops {
		sum += t.hop(i-1, i)
	}
	return sum
}

// turn reverses the run from i to the end that shortens the tour most.
func (t *tour) turn(i, end int) bool {
	best, most := -1, gain
	inner := 0.0 // by how much the hops within the run grow
	for j := i + 1; j < end; j++ {
		inner += t.hop(j, j-1) - t.hop(j-1, j)
		was := t.hop(i-1, i) + t.hop(j, j+1)
		now := t.hop(i-1, j) + t.hop(i, j+1)
		if d := was - now - inner; d > most {
			best, most = j, d
		}
	}
	if best < 0 {
		return false
	}
	slices.Reverse(t.ops[i : best+1])
	return true
}

// maxRun is how many operations are moved at once.
const maxRun = 3

// shift moves a run that begins at i to where it shortens the tour most.
func (t *tour) shift(i int, b [2]int) bool {
	best, length, most := -1, 0, gain
	for n := 1; n <= maxRun && i+n <= b[1]; n++ {
		freed := t.hop(i-1, i) + t.hop(i+n-1, i+n) - t.hop(i-1, i+n)
		for k := b[0]; k <= b[1]; k++ { // before k
			if k >= i && k <= i+n {
				continue
			}
			if d := freed - t.hop(k-1, i) - t.hop(i+n-1, k) + t.hop(k-1, k); d > most {
				best, length, most = k, n, d
			}
		}
	}
	if best < 0 {
		return false
	}
	run := slices.Clone(t.ops[i : i+length])
	rest := slices.Delete(slices.Clone(t.ops), i, i+length)
	if best > i {
		best -= length
	}
	copy(t.ops, slices.Insert(rest, best, run...))
	return true
}
