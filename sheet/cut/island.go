package cut

import "math"

// An island is waste that hangs on nothing where all tabs of the parts stand.
type island struct {
	root  int32 // in the ground's wood
	cells int
	hooks []hook
}

// A hook is where a tab of a part that is held can reach an island.
type hook struct {
	round  int
	at     float64
	cost   int
	narrow bool // half of a tab reaches it
}

// slackOfScrap is the share of [Options.Scrap] from which an island is looked
// after: a replay's finer cells may make more of it.
const slackOfScrap = 0.75

// adrift returns the islands of more than scrap that no tab leads to, in the
// sequence of their cells.
func (h *holder) adrift() []*island {
	g := h.g
	held, found := map[int32]bool{}, map[int32]*island{}
	for i, v := range g.clump.runs {
		if h.anchored[g.clump.root(int32(i))] {
			held[g.wood.root(g.wood.of(int(v.from)))] = true
		}
	}
	var out []*island
	for i, v := range g.wood.runs {
		r := g.wood.root(int32(i))
		switch c := found[r]; {
		case held[r]:
		case v.who > 0:
			held[r] = true // it is a part's to be told of
		case c == nil && float64(-g.wood.parent[r])*g.cell*g.cell >= slackOfScrap*h.opt.Scrap:
			found[r] = &island{root: r, cells: -int(g.wood.parent[r])}
			out = append(out, found[r])
		}
	}
	n := 0
	for _, c := range out {
		if !held[c.root] {
			out[n] = c
			n++
		}
	}
	return out[:n]
}

// moor gives islands tabs of the parts beside them, and clears those that no
// tab reaches.
func (h *holder) moor() {
	islands := h.adrift()
	if len(islands) == 0 {
		return
	}
	by := map[int32]*island{}
	for _, c := range islands {
		by[c.root] = c
	}
	for i, v := range h.rounds {
		if v.home >= 0 && h.anchored[v.home] {
			h.hooks(i, v, by)
		}
	}
	for _, c := range islands {
		if !h.hooked(c) {
			h.clear(c)
		}
	}
}

// hooks finds where along a round a tab would reach islands.
func (h *holder) hooks(i int, v *round, by map[int32]*island) {
	t := v.way.t
	from, to := h.freeFrom(t)+h.tabSpan(), t.length()-h.tabSpan()
	every := math.Max(tryEvery/2, t.length()/2000)
	for s := from; s <= to; s += every {
		if !h.free(v, s) || h.atMouth(v.q, t.at(s)) {
			continue
		}
		c := by[h.woodAcross(i, v, s)]
		if c == nil {
			continue
		}
		reached := func(off float64) bool {
			return h.woodAcross(i, v, s-off) == c.root && h.woodAcross(i, v, s+off) == c.root
		}
		if q := h.opt.TabWidth / 4; reached(q) {
			c.hooks = append(c.hooks, hook{round: i, at: s, cost: h.tabCost(v.q, t, s), narrow: !reached(2 * q)})
		}
	}
}

// woodAcross returns what is met first across the cut of a round, the root of
// standing waste, or -1.
func (h *holder) woodAcross(i int, v *round, s float64) int32 {
	x, ok := h.across(i, v, s, func(c int) int32 { return h.g.wood.root(h.g.wood.of(c)) })
	if !ok || x.other != 0 {
		return -1
	}
	return x.to
}

// hooked puts up tabs at the best hooks of an island, spread over it.
func (h *holder) hooked(c *island) bool {
	some := false
	for rank := 0; rank < 6 && !some; rank++ {
		by := map[int][]float64{}
		var rounds []int
		for _, k := range c.hooks {
			if k.rank() > rank {
				continue
			}
			if by[k.round] == nil {
				rounds = append(rounds, k.round)
			}
			by[k.round] = append(by[k.round], k.at)
		}
		for _, i := range rounds {
			v, at := h.rounds[i], by[i]
			want := max(1, int(math.Ceil((at[len(at)-1]-at[0])/h.opt.TabSpacing)))
			for _, s := range spread(at, want, 2*h.tabSpan()) {
				h.put(v, place{at: s})
				some = true
			}
		}
	}
	return some
}

// rank tells better hooks from worse ones: away from corners, then over all of
// a tab, and on a bevel only where nothing else is.
func (k hook) rank() int {
	r := 2 * k.cost
	if k.narrow {
		r++
	}
	return r
}
