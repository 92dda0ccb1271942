package cut

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// pocket clears a pocket by loops parallel to its edge, from the middle
// outward.
func (p *planner) pocket(q *piece, i int, k Pocket) error {
	what := fmt.Sprintf("Pockets[%d]", i)
	if p.mill.reach() < k.Depth {
		return p.fault(q, what, k.Depth, "mm", "an outline cutter that reaches as deep", ErrNoTool)
	}
	levels, err := p.levels(k.Area)
	if err != nil {
		return p.fault(q, what, p.mill.Diameter, "mm", "a cutter that gets round it: "+err.Error(), ErrNoWay)
	}
	if len(levels) == 0 {
		return p.fault(q, what, p.mill.Diameter, "mm", "a cutter narrower than it", ErrNoWay)
	}
	for _, l := range k.Area.Loops() {
		p.corners(q, PocketCut, l.Reverse(), p.mill.Diameter/2)
	}
	p.clear(q, PocketCut, levels, p.top-k.Depth, k.Depth)
	return nil
}

// clearOpening cuts all of an opening away, so that no piece comes loose in it.
func (p *planner) clearOpening(q *piece, i int, loop arc.Path) error {
	what := fmt.Sprintf("Outline.Holes[%d]", i)
	levels, err := p.levels(arc.Region{Outer: loop.Reverse()})
	if err != nil {
		return p.fault(q, what, p.mill.Diameter, "mm", "a cutter that gets round it: "+err.Error(), ErrNoWay)
	}
	p.corners(q, OpeningCut, loop, p.mill.Diameter/2)
	p.clear(q, OpeningCut, levels, -p.opt.Through, p.top+p.opt.Through)
	return nil
}

// maxLevels bounds the loops of a pocket.
const maxLevels = 500

// levels returns the ways of the axis around a pocket, level by level from its
// edge.
func (p *planner) levels(area arc.Region) ([][]track, error) {
	var out [][]track
	r, step := p.mill.Diameter/2, p.opt.Step*p.mill.Diameter
	for {
		if len(out) == maxLevels {
			return nil, fmt.Errorf("more than %d tracks", maxLevels)
		}
		in, err := area.Offset(-(r + step*float64(len(out))), arc.OffsetOptions{})
		if err != nil {
			return nil, err
		}
		if len(in) == 0 {
			break
		}
		var level []track
		for _, g := range in {
			for _, l := range g.Loops() {
				if p.opt.Climb {
					l = l.Reverse()
				}
				level = append(level, newTrack(l))
			}
		}
		out = append(out, level)
	}
	return out, nil
}

// clear cuts the loops of a pocket. From a loop it goes straight on to the
// next one where that is a step away; else it goes up and enters anew.
func (p *planner) clear(q *piece, kind Kind, levels [][]track, to, depth float64) {
	for _, c := range chains(levels, p.opt.Step*p.mill.Diameter) {
		w := p.pen(p.mill)
		w.tool.Feed *= Slowing(p.mill.Diameter, math.Min(depth, p.top))
		z := p.top
		for i, next := range steps(p.top, to, p.mill.Step) {
			first := c[0]
			if i == 0 {
				w.down(first.at(0), p.top)
			} else {
				w.hop(first, z)
			}
			l := first.length()
			ramp := math.Min((z-next)/w.slope(), 1000*l)
			w.follow(first, []knot{{0, z}, {ramp, next}})
			w.follow(first, []knot{{ramp, next}, {ramp + l, next}})
			// Home, so that the next loop is entered from a known place.
			w.follow(first, []knot{{ramp + l, next}, {math.Ceil((ramp+l)/l-1e-9) * l, next}})
			w.outward(c, p.opt.Step*p.mill.Diameter, next)
			z = next
		}
		p.keep(w, q, kind, depth, 0)
	}
}

// hop goes over the work to the start of a loop, and down to a height already
// cut there.
func (p *pen) hop(t track, z float64) {
	p.up()
	p.add(Move{To: lift(t.at(0), p.top+p.o.Safe), Rapid: true})
	p.down(t.at(0), z)
}

// outward cuts one loop after the other, the first being done. It leaves a
// loop where the next one is a step away.
func (p *pen) outward(loops []track, step, z float64) {
	at := 0.0
	for i := 1; i < len(loops); i++ {
		last, t := loops[i-1], loops[i]
		leave, enter, _ := bridge(last, at, t, step)
		if leave < at {
			leave += last.length()
		}
		p.follow(last, []knot{{at, z}, {leave, z}})
		p.feed(t.at(enter), 0, z)
		p.follow(t, []knot{{enter, z}, {enter + t.length(), z}})
		at = enter
	}
}

// bridge returns where to leave a loop, at best where one is, and where to
// enter the next, for the two places to be no more than a step apart.
func bridge(last track, at float64, t track, step float64) (leave, enter float64, ok bool) {
	tries := []float64{at}
	for i := range last.seg {
		tries = append(tries, last.start(i), (last.start(i)+last.end[i])/2)
	}
	for _, s := range tries {
		if e, d := t.nearest(last.at(s)); d <= step*1.001+1e-6 {
			return s, e, true
		}
	}
	return 0, 0, false
}

// chains sorts the loops of a pocket into runs from the inside out, in which
// each loop is a step away from the one before.
func chains(levels [][]track, step float64) [][]track {
	var out [][]track
	var open []int // chains that ended at the level before
	for i := len(levels) - 1; i >= 0; i-- {
		var now []int
		taken := map[int]bool{}
		for _, t := range levels[i] {
			c := -1
			for _, j := range open {
				last := out[j][len(out[j])-1]
				if _, _, ok := bridge(last, 0, t, step); ok && !taken[j] {
					c = j
					break
				}
			}
			if c < 0 {
				c = len(out)
				out = append(out, nil)
			}
			taken[c] = true
			out[c] = append(out[c], t)
			now = append(now, c)
		}
		open = now
	}
	return out
}
