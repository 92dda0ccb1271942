package cut

import "gonum.org/v1/gonum/spatial/r2"

// stepped cuts the face of a bevel in steps.
func (p *planner) stepped(q *piece, b Bevel, outline []way) {
	f, passes, _ := p.stairs(q, b)
	w := p.stepPen()
	w.over = p.inReach(passes, outline)
	w.climbDown(passes, p.opt.Climb, p.opt.ToAndFro)
	p.keep(w, q, BevelCut, p.top-passes[len(passes)-1].z, len(w.over))
	for _, c := range f.shortOf() {
		p.rest = append(p.rest, Rest{Placement: q.at, Name: q.name, Kind: BevelCut, At: c.at, Left: c.left})
	}
}

func (p *planner) stepPen() *pen {
	w := p.pen(p.mill)
	w.tool.Feed *= Slowing(p.mill.Diameter, p.top)
	return w
}

// inReach returns the middles of the tabs that passes below their height would
// cut into.
func (p *planner) inReach(passes []stair, outline []way) []r2.Vec {
	low := passes[len(passes)-1]
	if low.z >= p.opt.TabHeight {
		return nil
	}
	var out []r2.Vec
	half := p.opt.TabWidth / 2
	for _, v := range outline {
		for _, s := range v.tabs {
			for _, at := range [3]float64{s - half, s, s + half} {
				if _, d := low.t.nearest(v.t.at(at)); d < p.mill.Diameter {
					out = append(out, v.t.at(s))
					break
				}
			}
		}
	}
	return out
}

// climbDown cuts passes from the top down, each run as the outline is or, to
// climb, against it; or else one this way and the next that.
func (p *pen) climbDown(passes []stair, climb, both bool) {
	z := p.top
	for i, s := range passes {
		t := s.t
		if t.closed {
			p.turnDown(s, i == 0, climb, z)
			z = s.z
			continue
		}
		if climb {
			t = t.reversed()
		}
		switch {
		case i == 0:
			p.down(t.at(0), p.top)
		case s.z > z: // another set begins
			p.hop(t, p.top)
			z = p.top
		}
		p.feed(t.at(0), 0, p.heightOn(t, 0, z))
		p.pass(t, z, s.z)
		switch {
		case s.clear != nil:
			p.beside(s, climb)
		case both:
			climb = !climb
		case i+1 < len(passes) && passes[i+1].z < s.z:
			p.back(t, s.z)
		}
		z = s.z
	}
}

// heightOn returns the height at a length of a pass, over the tabs.
func (p *pen) heightOn(t track, s, z float64) float64 {
	return heightAt(p.rise(t, 0, t.length(), z), s)
}

// back goes back to the start of a pass: over the sheet, or along it, whichever is
// sooner.
func (p *pen) back(t track, z float64) {
	start, high := t.at(0), p.top+p.o.Approach
	end := p.moves[len(p.moves)-1].To
	air := (high-end.Z)/p.o.Rapid + r2.Norm(r2.Sub(xy(end), start))/p.o.Rapid + (high-z)/p.tool.Plunge
	if air > t.length()/p.tool.Feed || p.heightOn(t, 0, z) > z { // a start on a tab is not come down on
		b := t.reversed()
		p.follow(b, p.rise(b, 0, b.length(), z))
		return
	}
	p.add(Move{To: lift(xy(end), high), Rapid: true})
	p.add(Move{To: lift(start, high), Rapid: true})
	p.feed(start, 0, z)
}

// beside takes off what stands beside a pass.
func (p *pen) beside(s stair, climb bool) {
	for i, t := range s.clear {
		if climb {
			t = s.clear[len(s.clear)-1-i].reversed()
		}
		if t.length() > joint {
			p.follow(t, []knot{{0, s.z}, {t.length(), s.z}})
		}
	}
}

// turnDown cuts once around a closed pass, begun where the last one ended, and
// takes off what stands beside it from there outward.
func (p *pen) turnDown(s stair, first, climb bool, z float64) {
	begin := func(t track) track {
		if climb {
			t = t.reversedRound()
		}
		if first {
			return t.from(t.longest())
		}
		l, _ := t.nearest(xy(p.moves[len(p.moves)-1].To))
		return t.from(l)
	}
	t := begin(s.t)
	switch {
	case first:
		p.down(t.at(0), p.top)
		first = false
	case s.z > z:
		p.hop(t, p.top)
		z = p.top
	}
	p.feed(t.at(0), 0, p.heightOn(t, 0, z))
	ramp := p.ramp(t, z, s.z, t.length()/4)
	p.follow(t, p.rise(t, ramp, t.length(), s.z))
	p.follow(t, p.rise(t, 0, ramp, s.z))
	for i := len(s.clear) - 1; i >= 0; i-- {
		c := begin(s.clear[i])
		p.feed(c.at(0), 0, s.z)
		p.follow(c, []knot{{0, s.z}, {c.length(), s.z}})
	}
}

// reversedRound returns the closed track run the other way.
func (t track) reversedRound() track {
	out := t.reversed()
	out.closed = t.closed
	return out
}
