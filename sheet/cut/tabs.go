package cut

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A round is a way around an outline or an opening that waits for its tabs.
type round struct {
	q    *piece
	kind Kind
	way  *way
	home int32 // root of the part in the ground
	can  []place
}

// A place is where a tab can stand: at a length of a round, leading from its
// part to a clump of the ground. Where a neighbor's cut lies in between, the
// two tabs meet in one bridge.
type place struct {
	at    float64
	to    int32
	cost  int // see planner.tabCost
	other int // 1 + index of the round of the neighbor's cut, 0 where none
	meets float64
}

// A holder picks the tabs of a sheet, so that a chain of parts leads from each
// to the frame.
type holder struct {
	*planner
	g        *ground
	rounds   []*round
	anchored map[int32]bool
}

// hold gives every round its tabs.
func (p *planner) hold(rounds []*round) error {
	if p.opt.Hold != ByTabs || len(rounds) == 0 {
		return nil
	}
	g := p.newGround(rounds)
	var err error
	for _, reach := range g.reaches(p.opt.TabWidth) {
		g.erode(reach)
		if err = p.holdOn(g, rounds); err == nil {
			return nil
		}
	}
	return err
}

// holdOn gives every round its tabs on a ground.
func (p *planner) holdOn(g *ground, rounds []*round) error {
	h := &holder{planner: p, g: g, rounds: rounds, anchored: map[int32]bool{}}
	if g.clump.frame < 0 {
		return &ParamError{Func: p.fn, Param: "job.Stock", Value: p.job.Stock.Thickness, Unit: "mm", Need: "a sheet that has anything left to hold parts by", Err: ErrNoHold}
	}
	h.anchored[g.clump.root(g.clump.frame)] = true
	for i, v := range rounds {
		v.home, v.way.tabs = -1, nil
		v.can = h.places(i, v)
	}
	// A tab on a bevel, or a single one, only once nothing else leads on.
	stages := [...]struct{ least, most int }{{2, 0}, {2, 1}, {1, 1}, {2, 2}, {1, 2}}
	for i := 0; i < len(stages); i++ {
		if h.parts(stages[i].least, stages[i].most) || h.islands(min(1, stages[i].most)) {
			i = -1
		}
	}
	if err := h.left(); err != nil {
		return err
	}
	h.moor()
	return nil
}

// parts anchors every part that has so many places, of a cost up to most, to
// lead to what is anchored. It reports whether there was one.
func (h *holder) parts(least, most int) bool {
	some := false
	for _, v := range h.rounds {
		if v.home < 0 || h.anchored[v.home] {
			continue
		}
		picked := h.pick(v, func(c place) bool { return c.cost <= most && h.anchored[c.to] })
		if len(picked) < least {
			continue
		}
		for _, c := range picked {
			h.put(v, c)
		}
		h.anchored[v.home], some = true, true
	}
	return some
}

// islands anchors waste that hangs on nothing to a part beside it, by places
// of a cost up to most.
func (h *holder) islands(most int) bool {
	some := false
	for _, v := range h.rounds {
		if !h.anchored[v.home] {
			continue
		}
		for _, c := range v.can {
			if !h.anchored[c.to] && c.cost <= most && c.other == 0 && h.island(c.to) && h.free(v, c.at) {
				h.put(v, c)
				h.anchored[c.to], some = true, true
			}
		}
	}
	return some
}

// island reports whether a clump is waste that may not come loose.
func (h *holder) island(root int32) bool {
	return h.g.clump.runs[root].who == 0 && float64(-h.g.clump.parent[root])*h.g.cell*h.g.cell >= h.opt.Scrap/2
}

// pick returns places of a round spread over it that leave each other and the
// tabs there are their room.
func (h *holder) pick(v *round, ok func(place) bool) []place {
	var can []place
	var at []float64
	for _, c := range v.can {
		if ok(c) && h.free(v, c.at) && (c.other == 0 || h.free(h.rounds[c.other-1], c.meets)) {
			can = append(can, c)
			at = append(at, c.at)
		}
	}
	want := max(2, int(math.Ceil(v.way.t.length()/h.opt.TabSpacing)))
	var out []place
	meets := map[int][]float64{}
	for _, s := range spread(at, want, 2*h.tabSpan()) {
		i, _ := slices.BinarySearch(at, s)
		c := can[i]
		if c.other > 0 {
			if !apart(meets[c.other], c.meets, 2*h.tabSpan()) {
				continue
			}
			meets[c.other] = append(meets[c.other], c.meets)
		}
		out = append(out, c)
	}
	return out
}

// free reports whether a tab has room at a length of a round.
func (h *holder) free(v *round, at float64) bool {
	half := h.tabSpan()
	return at >= h.freeFrom(v.way.t)+half && at <= v.way.t.length()-half && apart(v.way.tabs, at, 2*half)
}

func apart(tabs []float64, at, least float64) bool {
	for _, s := range tabs {
		if math.Abs(s-at) < least {
			return false
		}
	}
	return true
}

func (h *holder) put(v *round, c place) {
	add := func(w *way, at float64) {
		w.tabs = append(w.tabs, at)
		slices.Sort(w.tabs)
	}
	add(v.way, c.at)
	if c.other > 0 {
		add(h.rounds[c.other-1].way, c.meets)
	}
}

// tryEvery is how far apart places along a round are tried, mm; long rounds
// are tried at no more than a thousand.
const tryEvery = 4.0

// places returns where tabs of a round can stand, in the sequence of their
// lengths, and finds its home.
func (h *holder) places(i int, v *round) []place {
	t := v.way.t
	from, to := h.freeFrom(t)+h.tabSpan(), t.length()-h.tabSpan()
	every := math.Max(tryEvery, t.length()/1000)
	var out []place
	for s := from; s <= to; s += every {
		if h.atMouth(v.q, t.at(s)) {
			continue
		}
		if c, ok := h.place(i, v, s); ok {
			c.cost = h.tabCost(v.q, t, s)
			if c.other > 0 {
				n := h.rounds[c.other-1]
				c.cost = max(c.cost, h.tabCost(n.q, n.way.t, c.meets))
			}
			out = append(out, c)
		}
	}
	if v.home < 0 {
		v.home = h.home(v)
	}
	return out
}

// home finds the clump of a part from the middle of any of its cells.
func (h *holder) home(v *round) int32 {
	for i, u := range h.g.clump.runs {
		if u.who == int16(v.q.at+1) {
			return h.g.clump.root(int32(i))
		}
	}
	return -1
}

// place looks across the cut at a length: over all of a tab's width the same
// sound clump has to lie beyond, with nothing between but this cut, or this
// and one neighbor's.
func (h *holder) place(i int, v *round, s float64) (place, bool) {
	c := place{at: s, to: -1}
	w := h.opt.TabWidth
	var middle r2.Vec
	for k, a := range [...]float64{0, -w / 2, -w / 4, w / 4, w / 2} {
		x, ok := h.across(i, v, s+a, h.g.clumpOf)
		if !ok || k > 0 && (x.to != c.to || x.other != 0 && c.other != 0 && x.other != c.other) {
			return c, false
		}
		if k == 0 {
			middle = x.far
		}
		c.to, c.other = x.to, max(c.other, x.other)
		if v.home < 0 {
			v.home = x.home
		}
	}
	if c.other == 0 || c.to == v.home {
		return c, c.to != v.home
	}
	// The neighbor's tab stands where the bridge lands.
	n := h.rounds[c.other-1]
	if n.way.t.length() == 0 {
		return c, false
	}
	c.meets, _ = n.way.t.nearest(middle)
	return c, !h.atMouth(n.q, n.way.t.at(c.meets)) && h.corridor(v, n, c) >= wideBridge*h.opt.TabWidth/2
}

// wideBridge is the share of a tab's width that a bridge has to have where its
// two tabs stand askew: a replay's cells prove less.
const wideBridge = 0.92

// corridor returns half the width of what the two tabs of a bridge leave
// standing about the line through their middles: how far off it, on the
// nearer side, the cutter comes.
func (h *holder) corridor(v, n *round, c place) float64 {
	rad := h.mill.Diameter / 2
	from, out := h.outward(v, c.at)
	to, in := h.outward(n, c.meets)
	along := r2.Sub(to, from)
	if r2.Norm(along) < rad { // one cut for both
		along = r2.Sub(out, in)
	}
	if r2.Norm(along) < joint {
		return 0
	}
	across := left(r2.Unit(along))
	from = r2.Scale(0.5, r2.Add(from, to))
	flat := h.opt.TabWidth/2 + rad
	wide := math.Inf(1)
	for _, w := range [2]struct {
		r  *round
		at float64
	}{{v, c.at}, {n, c.meets}} {
		for a := 0.0; a <= 2*rad; a += rad / 4 {
			for _, s := range [2]float64{w.at - flat - a, w.at + flat + a} {
				p, _ := h.outward(w.r, s)
				wide = math.Min(wide, math.Abs(r2.Dot(across, r2.Sub(p, from)))-rad)
			}
		}
	}
	return wide
}

// An acrossCut is what is met on the way across a cut.
type acrossCut struct {
	home, to int32
	other    int
	far      r2.Vec
}

// outward returns the point of the axis of a round at a length, and which way
// leads away from its part.
func (h *holder) outward(v *round, s float64) (p, away r2.Vec) {
	t := v.way.t
	l := t.length()
	s = math.Mod(s+l, l)
	i := t.find(s)
	p, u := t.seg[i].At(s - t.start(i))
	if h.opt.Climb { // ways run with the part on their left, unless reversed
		return p, left(u)
	}
	return p, r2.Scale(-1, left(u))
}

// across goes over the cut of a round to the first cell kept that leads
// somewhere.
func (h *holder) across(i int, v *round, s float64, leads func(cell int) int32) (acrossCut, bool) {
	g, rad := h.g, h.mill.Diameter/2
	x := acrossCut{to: -1}
	axis, away := h.outward(v, s)
	in := g.cellOf(r2.Add(axis, r2.Scale(-rad-1.5*g.cell, away)))
	if in < 0 || g.who[in] != int16(v.q.at+1) {
		return x, false
	}
	if x.home = g.clumpOf(in); x.home < 0 {
		return x, false
	}
	for d := -rad + 1.5*g.cell; d <= 3*rad+2*h.opt.TabWidth; d += g.cell / 2 {
		x.far = r2.Add(axis, r2.Scale(d, away))
		c := g.cellOf(x.far)
		if c < 0 {
			return x, false
		}
		a, b := g.by[0][c], g.by[1][c]
		switch {
		case a == fixed:
			return x, false
		case a == kept:
			if x.to = leads(c); x.to >= 0 {
				return x, true
			}
		}
		for _, w := range [2]int32{a, b} {
			if w <= 0 || int(w) == i+1 {
				continue
			}
			if x.other != 0 && x.other != int(w) {
				return x, false
			}
			x.other = int(w)
		}
	}
	return x, false
}

// left reports the first part, or else waste, that no chain holds.
func (h *holder) left() error {
	gap := 2*h.mill.Diameter + h.opt.TabWidth
	for _, v := range h.rounds {
		if v.kind == OutlineCut && !h.anchored[v.home] {
			return h.fault(v.q, "hold", len(v.can), "", fmt.Sprintf("room for tabs that lead to the frame: %.4g mm between parts or %.4g mm to the sheet's edge are enough beside one straight side", gap, gap-h.mill.Diameter), ErrNoHold)
		}
	}
	return nil
}
