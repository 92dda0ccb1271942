package cut

import (
	"math"

	"example.com/sagitta/arc"
)

// program puts the operations in sequence and sums them up.
func (p *planner) program() Program {
	out := Program{
		Title: p.job.Title, Sheet: p.job.Stock.Shape().Bounds(), Thickness: p.top, Material: p.job.Stock.Material,
		Safe: p.top + p.opt.Safe, Through: p.opt.Through, SpinUp: p.opt.SpinUp, Bevels: p.bevels, Saw: p.saw, Rest: p.rest,
	}
	switch out.Hold = p.opt.Hold; {
	case out.Hold.skin():
		out.Skin = p.opt.Skin
	case out.Hold == ByTabs:
		out.TabWidth, out.TabHeight = p.opt.TabWidth, p.opt.TabHeight
	}
	out.Operations = inSequence(p.ops)
	seen := map[int]bool{}
	changes := 0
	for i, o := range out.Operations {
		if i == 0 || o.Tool != out.Operations[i-1].Tool {
			changes++
		}
		for _, t := range p.opt.Tools {
			if t.Number == o.Tool && !seen[o.Tool] {
				seen[o.Tool] = true
				out.Tools = append(out.Tools, t)
			}
		}
	}
	out.Minutes = float64(changes) * p.opt.Change
	for _, m := range out.Moves() {
		l := m.Length()
		if m.Rapid {
			out.TravelLength += l
			out.Minutes += l / p.opt.Rapid
		} else {
			out.CutLength += l
			out.Minutes += l / m.Feed
		}
	}
	return out
}

// smallArea is the area below which a part is cut out before the large ones,
// while the sheet around it is still whole, mm².
const smallArea = 40000

// deepest bounds how many openings, one in another, are told apart.
const deepest = 64

// firstGroup returns the first of three groups in which a part is cut free:
// openings in which other parts lie, outlines of small parts, those of large
// ones. A part that lies in an opening is cut out before that opening is, while
// the waste it hangs on is whole.
func firstGroup(q *piece) int {
	return int(OutlineCut) + 3*(deepest-min(deepest, q.lodged))
}

// lodged returns in how many openings of other parts a part lies.
func (p *planner) lodged(q *piece) int {
	n := 0
	for i := range p.pieces {
		if i == q.at {
			continue
		}
		for _, h := range p.pieces[i].outline.Holes {
			if within(q, h) {
				n++
			}
		}
	}
	return n
}

// lodges reports whether any part lies in an opening.
func (p *planner) lodges(hole arc.Path) bool {
	for i := range p.pieces {
		if within(&p.pieces[i], hole) {
			return true
		}
	}
	return false
}

// within reports whether a part that does not cross a hole lies in it.
func within(q *piece, hole arc.Path) bool {
	b := hole.Bounds()
	return b.Min.X < q.box.Min.X && b.Min.Y < q.box.Min.Y && b.Max.X > q.box.Max.X && b.Max.Y > q.box.Max.Y &&
		hole.Contains(q.outline.Outer.V[0].P)
}

// regroup moves the last n operations to a group.
func (p *planner) regroup(n, group int) {
	for i := len(p.ops) - n; i < len(p.ops); i++ {
		p.ops[i].group = group
	}
}

// Clearance returns how far apart parts have to lie for what their work cuts
// beside them: the cutter's diameter around an
// outline and beside steps, and beside a bevel that a V cutter makes that cutter's radius at the sheet's top and as
// far as it runs on past the bevel's ends. Grooves that run out are up to the
// part.
func Clearance(job Job, opt Options) float64 {
	p := newPlanner("cut.Clearance", job, opt)
	out := p.mill.Diameter
	p.beveled(func(q *piece, b Bevel, m Made) {
		if m.Way == BySteps {
			out = math.Max(out, p.mill.Diameter+p.opt.Overrun)
		} else {
			out = math.Max(out, p.beyondBevel(q, b))
		}
	})
	return out
}

// Room returns how far apart parts and how far from the edge of the sheet they
// may lie for a tab to stand between them, with sound wood beyond: two cutters
// and a tab, and one and a tab. Nearer parts hold each other only where their
// sides run alike.
func Room(job Job, opt Options) (between, beside float64) {
	p := newPlanner("cut.Room", job, opt)
	return 2*p.mill.Diameter + p.opt.TabWidth, p.mill.Diameter + p.opt.TabWidth
}

// Overhang returns how far the axis of a cutter goes beyond a part, which is
// what a margin has to leave where the axis must not leave the sheet: the
// radius of the cutter for outlines, and at the ends of a bevel as far as the V
// cutter runs on, or at a corner sharper than square as far as its higher
// passes, which lie inward of the edge, stand past the neighbor.
func Overhang(job Job, opt Options) float64 {
	p := newPlanner("cut.Overhang", job, opt)
	out := p.mill.Diameter / 2
	p.beveled(func(q *piece, b Bevel, m Made) {
		if m.Way == BySteps {
			out = math.Max(out, p.mill.Diameter/2+p.opt.Overrun)
			return
		}
		wide := p.top * math.Tan(float64(b.Angle))
		for _, turn := range p.bevelEnds(q, b) {
			out = math.Max(out, math.Max(p.runOn(turn, wide, 0, wide), -wide*math.Cos(turn)))
		}
	})
	return out
}

// beveled calls f for every bevel of the parts as drawn that a cutter makes.
func (p *planner) beveled(f func(*piece, Bevel, Made)) {
	for i := range p.job.Parts {
		q := &piece{part: i, outline: p.job.Parts[i].Outline, work: p.job.work(i)}
		for k, b := range q.work.Bevels {
			if b.Edge.NumSegments() == 0 {
				continue
			}
			if m := p.made(i)[k]; m.cut() {
				f(q, b, m)
			}
		}
	}
}

// bevelEnds returns by how much the outline turns at the ends of a bevel.
func (p *planner) bevelEnds(q *piece, b Bevel) [2]float64 {
	_, u0 := b.Edge.Segment(0).At(0)
	last := b.Edge.Segment(b.Edge.NumSegments() - 1)
	_, u1 := last.At(last.Length())
	before, after := p.beside(q, last.B, u1, b.Edge.V[0].P, u0)
	return [2]float64{before, after}
}

// beyondBevel returns how far from a part the V cutter of a bevel reaches.
func (p *planner) beyondBevel(q *piece, b Bevel) float64 {
	wide := p.top * math.Tan(float64(b.Angle))
	run := 0.0
	for _, turn := range p.bevelEnds(q, b) {
		run = math.Max(run, p.runOn(turn, wide, 0, wide))
	}
	return wide + run
}
