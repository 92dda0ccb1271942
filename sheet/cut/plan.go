package cut

import (
	"context"
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Plan returns the program that cuts the parts of one sheet. The same input
// gives the same program.
//
// It is an error if an option or the job cannot be used, if no cutter can make
// a slot, a pocket or an opening (ErrNoTool), or if the cutter is too wide to
// get round an outline or into an opening or a pocket (ErrNoWay). Bevels no
// cutter matches are no error: they are listed in Program.Saw. A part
// that no chain of sound wood would hold by tabs is ErrNoHold; waste that none
// holds is left to [Replay] to find. Whether cuts reach into neighbors is not
// looked at here: [Clearance] says how far apart they have to lie, and Replay
// finds where they do not.
func Plan(ctx context.Context, job Job, opt Options) (Program, error) {
	const fn = "cut.Plan"
	if err := job.check(fn); err != nil {
		return Program{}, err
	}
	if err := opt.check(fn); err != nil {
		return Program{}, err
	}
	p := newPlanner(fn, job, opt)
	if p.mill.reach() < p.top+p.opt.Through {
		return Program{}, &ParamError{Func: fn, Param: "opt.Tools", Value: p.mill.MaxDepth, Unit: "mm", Need: fmt.Sprintf("an outline cutter that reaches %g mm", p.top+p.opt.Through), Err: ErrNoTool}
	}
	p.pieces = job.pieces()
	for i := range p.pieces {
		p.pieces[i].lodged = p.lodged(&p.pieces[i])
	}
	var contours []contour
	var rounds []*round
	for i := range p.pieces {
		if err := ctx.Err(); err != nil {
			return Program{}, err
		}
		c, err := p.piece(&p.pieces[i])
		if err != nil {
			return Program{}, err
		}
		contours = append(contours, c)
		rounds = append(rounds, c.rounds...)
	}
	if err := p.hold(rounds); err != nil {
		return Program{}, err
	}
	for i, c := range contours {
		p.free(&p.pieces[i], c)
	}
	if err := p.skinHolds(); err != nil {
		return Program{}, err
	}
	return p.program(), nil
}

type planner struct {
	fn     string
	job    Job
	opt    Options
	top    float64
	mill   Tool
	pieces []piece
	ops    []Operation
	saw    []Saw
	bevels []Beveled
	rest   []Rest

	decided map[int][]Made // of the parts looked at
}

// piece cuts what is cut into a part, and returns what is cut through.
func (p *planner) piece(q *piece) (contour, error) {
	var c contour
	for i, s := range q.work.Slots {
		if err := p.slot(q, i, s); err != nil {
			return c, err
		}
	}
	for i, k := range q.work.Pockets {
		if err := p.pocket(q, i, k); err != nil {
			return c, err
		}
	}
	for i, h := range q.outline.Holes {
		ways, err := p.ways(q, fmt.Sprintf("Outline.Holes[%d]", i), h)
		if err != nil {
			return c, err
		}
		if p.loose(h, ways) {
			if err := p.clearOpening(q, i, h); err != nil {
				return c, err
			}
			continue
		}
		for k := range ways {
			if p.lodges(h) {
				ways[k].tabs = nil // until it is known where the waste around the lodgers is held
				c.rounds = append(c.rounds, &round{q: q, kind: OpeningCut, way: &ways[k]})
			}
		}
		c.holes = append(c.holes, hole{h, ways})
	}
	ways, err := p.ways(q, "Outline.Outer", q.outline.Outer)
	if err != nil {
		return c, err
	}
	c.outer = ways
	for k := range ways {
		ways[k].tabs = nil
		c.rounds = append(c.rounds, &round{q: q, kind: OutlineCut, way: &ways[k]})
	}
	return c, nil
}

// A contour is what of a part is cut through, once it is known where it is
// held.
type contour struct {
	holes  []hole
	outer  []way
	rounds []*round
}

type hole struct {
	loop arc.Path
	ways []way
}

// free cuts a part free.
func (p *planner) free(q *piece, c contour) {
	for _, h := range c.holes {
		p.profile(q, OpeningCut, h.loop, h.ways)
		if p.lodges(h.loop) {
			p.regroup(len(h.ways), firstGroup(q))
		}
	}
	for i, b := range q.work.Bevels {
		p.bevel(q, i, b, c.outer)
	}
	p.profile(q, OutlineCut, q.outline.Outer, c.outer)
	group := firstGroup(q) + 2
	if q.outline.Area() < smallArea {
		group--
	}
	p.regroup(len(c.outer), group)
	for _, h := range c.holes {
		p.parted(q, OpeningCut, h.ways)
	}
	p.parted(q, OutlineCut, c.outer)
}

func (p *planner) pen(t Tool) *pen { return &pen{o: p.opt, tool: t, top: p.top} }

// keep ends an operation and keeps it.
func (p *planner) keep(w *pen, q *piece, k Kind, depth float64, tabs int) {
	w.up()
	p.ops = append(p.ops, Operation{
		Kind: k, Placement: q.at, Name: q.name, Tool: w.tool.Number, Depth: depth, Tabs: tabs, Moves: w.moves,
		group: int(k),
	})
}

func (p *planner) fault(q *piece, what string, value any, unit, need string, err error) error {
	return &ParamError{Func: p.fn, Param: fmt.Sprintf("job.Parts[%d] %s %s", q.part, q.name, what), Value: value, Unit: unit, Need: need, Err: err}
}

// slot cuts a slot back and forth, deeper by a pass each time.
func (p *planner) slot(q *piece, i int, s Slot) error {
	tool, ok := p.opt.slotTool(s)
	if !ok {
		return p.fault(q, fmt.Sprintf("Slots[%d]", i), s.Width, "mm", fmt.Sprintf("an end mill no wider that reaches %g mm", s.Depth), ErrNoTool)
	}
	w := p.pen(tool)
	w.tool.Feed *= Slowing(tool.Diameter, s.Depth)
	w.backAndForth(newTrack(lanes(s, tool.Diameter, p.opt.Step, p.opt.Tolerance)), p.top-s.Depth)
	p.keep(w, q, SlotCut, s.Depth, 0)
	return nil
}

// lanes returns the way of the axis that covers a slot once: along its middle
// where the cutter fills it but for a tolerance, else to and fro.
func lanes(s Slot, diameter, step, tolerance float64) arc.Path {
	u := r2.Unit(r2.Sub(s.To, s.From))
	n := r2.Vec{X: -u.Y, Y: u.X}
	spare := s.Width - diameter
	if spare < max(2*widthSlack, tolerance) {
		return arc.Polyline(s.From, s.To)
	}
	count := int(math.Ceil(spare/(step*diameter))) + 1
	var pts []r2.Vec
	for i := range count {
		off := r2.Scale(spare*(float64(i)/float64(count-1)-0.5), n)
		a, b := r2.Add(s.From, off), r2.Add(s.To, off)
		if i%2 == 1 {
			a, b = b, a
		}
		pts = append(pts, a, b)
	}
	return arc.Polyline(pts...)
}

// backAndForth cuts along an open track down to a height.
func (p *pen) backAndForth(t track, to float64) {
	z := p.top
	p.down(t.at(0), z)
	for _, next := range steps(p.top, to, p.tool.Step) {
		p.pass(t, z, next)
		z, t = next, t.reversed()
	}
}

// pass cuts once along an open track. It goes down by a ramp, comes back to
// take away the wedge that leaves, lest the next pass meet more than one step, and
// goes on.
func (p *pen) pass(t track, z, next float64) {
	l := t.length()
	ramp := p.ramp(t, z, next, l)
	back := t.reversed()
	p.follow(back, p.rise(back, l-ramp, l, next))
	p.follow(t, p.rise(t, 0, l, next))
}
