package cut

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Report is what a replay measured.
type Report struct {
	Moves       int
	CutLength   float64 // mm
	Travel      float64 // mm
	Lowest      float64 // z of the deepest point of a tip
	DeepestPass float64 // most that was taken off a place probed at once, mm
	Tabs        int
	Probes      int
	Slender     Faults // waste larger than opt.Scrap that hangs by less than a tab: no fault, but to be looked at
	Bevels      []Face // that the program cut, as they were found
	Faults      Faults
}

// Replay cuts the sheet with nothing but the moves, and compares what is left
// with the parts of the job. The error is Report.Faults where there are any,
// which wrap ErrFaulty, or else says what cannot be used, or that ctx ended.
//
// The height of the sheet is followed at probes: in a grid over all parts, and
// along the edges of every outline, opening, slot, pocket and bevel, a
// tolerance off on both sides. Away from edges a cell of the grid is held
// whole by the cutter grown by half its diagonal, and cut out by the cutter
// shrunk as much. Of opt it reads what the shop's cutters and habits are; what
// Plan made of them it does not know. A rest in an inside corner that the
// cutter cannot reach is no fault, nor is a tab no larger than agreed. What is
// left of the sheet, in cells a twelfth of a tab's width, has to hang together:
// at the end and whenever the cutter goes up, every part hangs together with
// the frame, the piece with most of the waste, through wood as high as a tab
// and as wide, proved to within a cell and a half on either side; all waste
// larger than opt.Scrap through wood as high as a tab, of any width.
// Edges that were to be
// finished by saw are to be left square.
func Replay(ctx context.Context, job Job, moves []Move, opt Options) (Report, error) {
	const fn = "cut.Replay"
	if err := job.check(fn); err != nil {
		return Report{}, err
	}
	if err := opt.check(fn); err != nil {
		return Report{}, err
	}
	opt = opt.filled(job.Stock.Thickness)
	f, err := newField(ctx, job, opt)
	if err != nil {
		return Report{}, err
	}
	r := &replayer{field: f, sheet: newStanding(f, opt.TabWidth/cellsOfTab), rep: Report{Moves: len(moves), Lowest: f.top, Probes: len(f.probe)}, book: book{}, limits: newLimits(f, moves)}
	for i := range moves {
		if i%256 == 0 {
			if err := ctx.Err(); err != nil {
				return Report{}, err
			}
		}
		r.now = i
		var last *Move
		if i > 0 {
			last = &moves[i-1]
		}
		r.move(last, &moves[i])
	}
	r.end(moves)
	if err := r.holds(ctx); err != nil {
		return Report{}, err
	}
	r.rep.Faults = r.book.sorted()
	if len(r.rep.Faults) > 0 {
		return r.rep, r.rep.Faults
	}
	return r.rep, nil
}

type replayer struct {
	*field
	sheet *standing
	rep   Report
	book  book
	tool  Tool
	limits
	tabs   [][]r2.Vec // of each piece, where they were found
	parted bool       // the passes that cut the skin have begun, and vacuum holds
}

// move checks a move and cuts with it.
func (r *replayer) move(last, m *Move) {
	if !finiteMove(m) {
		r.book.add(Fault{Kind: OffTravel, Placement: -1, At: xy(m.From), Z: m.To.Z, Need: r.top, Line: m.Line})
		return
	}
	if last != nil && last.Tool != m.Tool && last.To.Z < r.top+r.opt.Approach {
		r.fault(LowChange, last, xy(last.To), last.To.Z, r.top+r.opt.Approach)
	}
	if m.Rapid {
		r.sheet.event(m.Line)
		r.rep.Travel += m.Length()
	} else {
		r.rep.CutLength += m.Length()
	}
	r.travel(m)
	tool, known := r.find(m.Tool)
	if !known && low(m) < r.top+r.opt.Safe {
		r.fault(UnknownTool, m, xy(m.To), float64(m.Tool), 0)
		return
	}
	r.tool = tool
	r.spindle(last, m)
	r.near(m)
	r.clamps(m)
	if low(m) >= r.top {
		return
	}
	r.inWork(m)
	r.took = 0
	r.cut(m)
	r.entry(m)
	r.rates(m)
	if tool.V() {
		r.tip(m)
	}
}

func finiteMove(m *Move) bool {
	for _, v := range [7]float64{m.From.X, m.From.Y, m.From.Z, m.To.X, m.To.Y, m.To.Z, m.K} {
		if !(math.Abs(v) <= 10*maxSize) {
			return false
		}
	}
	return true
}

func low(m *Move) float64 { return math.Min(m.From.Z, m.To.Z) }

func (r *replayer) find(number int) (Tool, bool) {
	if r.tool.Number == number && number > 0 {
		return r.tool, true
	}
	for _, t := range r.opt.Tools {
		if t.Number == number {
			return t, true
		}
	}
	return Tool{}, false
}

func (r *replayer) fault(k FaultKind, m *Move, at r2.Vec, z, need float64) {
	r.book.add(Fault{Kind: k, Placement: -1, At: at, Z: z, Need: need, Line: m.Line})
}

// slack is what rounding to the last digit printed may move a number by, mm.
const slack = 1e-3

// travel holds the axis within the machine's travel; without one stated it has
// to stay over the sheet.
func (r *replayer) travel(m *Move) {
	box := r.opt.Travel
	if box == (r2.Box{}) {
		box = r.job.Stock.Shape().Bounds()
	}
	b := m.plan().Bounds()
	if b.Min.X < box.Min.X-slack || b.Min.Y < box.Min.Y-slack || b.Max.X > box.Max.X+slack || b.Max.Y > box.Max.Y+slack {
		r.fault(OffTravel, m, xy(m.To), m.To.Z, r.top)
	}
}

// inWork checks a move that goes below the top of the sheet.
func (r *replayer) inWork(m *Move) {
	z := low(m)
	r.rep.Lowest = math.Min(r.rep.Lowest, z)
	r.parted = r.parted || r.opt.Hold == BySkinAtLast && z < -slack && !m.Rapid
	if m.Rapid && (xy(m.From) != xy(m.To) || m.To.Z < m.From.Z) {
		r.fault(LowTravel, m, xy(m.To), z, r.top)
	}
	if m.Speed <= 0 {
		r.fault(SpindleOff, m, xy(m.To), 0, 1)
	}
	if z < -r.opt.Through-slack {
		r.fault(Spoilboard, m, xy(m.To), z, -r.opt.Through)
	}
	if d := r.tool.edged(); r.top-z > d+slack {
		r.fault(BeyondEdge, m, xy(m.To), z, r.top-d)
	} else if d := r.tool.reach(); r.top-z > d+slack {
		r.fault(BeyondReach, m, xy(m.To), z, r.top-d)
	}
	r.onSheet(m)
}

// onSheet holds the axis over the sheet while it cuts.
func (r *replayer) onSheet(m *Move) {
	shape := r.job.Stock.Shape()
	b, s := m.plan().Bounds(), shape.Bounds()
	out := b.Min.X < s.Min.X-slack || b.Min.Y < s.Min.Y-slack || b.Max.X > s.Max.X+slack || b.Max.Y > s.Max.Y+slack
	if !out && len(r.job.Stock.Outline.Outer.V) > 0 {
		loops := loopsOf(shape)
		r.samples(m, 2, func(p r2.Vec, _ float64) bool {
			out = depth(loops, p, 1) < -slack
			return !out
		})
	}
	if out {
		r.fault(OffSheet, m, xy(m.To), low(m), r.top)
	}
}

// samples calls do at points along a move until it says no.
func (r *replayer) samples(m *Move, step float64, do func(p r2.Vec, z float64) bool) {
	s := m.plan()
	l := s.Length()
	n := int(math.Min(1e6, math.Ceil(l/step)))
	for i := range n + 1 {
		f := 1.0
		if n > 0 {
			f = float64(i) / float64(n)
		}
		p, _ := s.At(l * f)
		if !do(p, m.From.Z+f*(m.To.Z-m.From.Z)) {
			return
		}
	}
}

// clamps keeps the cutter off the forbidden regions, unless it travels over
// them at the safe height.
func (r *replayer) clamps(m *Move) {
	if len(r.job.Stock.Forbidden) == 0 || low(m) >= r.top+r.opt.Safe-slack {
		return
	}
	rad := r.tool.Diameter / 2
	for _, g := range r.job.Stock.Forbidden {
		b, c := m.plan().Bounds(), g.Bounds()
		if b.Min.X > c.Max.X+rad || b.Max.X < c.Min.X-rad || b.Min.Y > c.Max.Y+rad || b.Max.Y < c.Min.Y-rad {
			continue
		}
		loops := loopsOf(g)
		r.samples(m, 0.5, func(p r2.Vec, z float64) bool {
			if depth(loops, p, rad+1) <= -rad {
				return true
			}
			r.fault(Clamped, m, p, z, r.top+r.opt.Safe)
			return false
		})
	}
}

// tip follows the point of a V cutter, which may be finer than the grid.
func (r *replayer) tip(m *Move) {
	b := m.plan().Bounds()
	for i := range r.pieces {
		q := &r.pieces[i]
		if b.Min.X > q.box.Max.X || b.Max.X < q.box.Min.X || b.Min.Y > q.box.Max.Y || b.Max.Y < q.box.Min.Y {
			continue
		}
		s := &r.surface[i]
		r.samples(m, 1, func(p r2.Vec, z float64) bool {
			in := depth(s.loops, p, 1)
			if in < s.side {
				return true
			}
			if d := s.at(p, in); z < d.low-r.opt.Tolerance {
				r.book.add(Fault{Kind: Gouge, Placement: q.at, Name: q.name, Feature: featureName(d.feature), At: p, Z: z, Need: d.low, Line: m.Line})
			}
			return true
		})
	}
}

// end checks where the program leaves the machine, and what it left of the
// sheet.
func (r *replayer) end(moves []Move) {
	if n := len(moves); n > 0 && moves[n-1].To.Z < r.top+r.opt.Approach {
		r.fault(LowChange, &moves[n-1], xy(moves[n-1].To), moves[n-1].To.Z, r.top+r.opt.Approach)
	}
	left := make([]float64, r.marks+1)
	for i := range left {
		left[i] = math.Inf(-1)
	}
	for i := range r.probe {
		p := &r.probe[i]
		if p.station > 0 {
			left[p.station] = float64(p.z)
		}
	}
	r.tabs = make([][]r2.Vec, len(r.pieces))
	for _, g := range r.rings {
		r.ring(g, left[g.first+1:g.first+1+len(g.s)])
	}
	for i := range r.probe {
		r.compare(&r.probe[i])
	}
	r.measure()
}

// compare reports a probe that was cut too deep or not deep enough. Stations
// of rings are looked at together, for their tabs.
func (r *replayer) compare(p *probe) {
	tol := r.opt.Tolerance
	z := float64(p.z)
	f := Fault{At: p.at(), Z: z, Line: int(p.line)}
	switch {
	case z < float64(p.low)-tol:
		f.Kind, f.Need = Gouge, float64(p.low)
	case p.station == 0 && z > float64(p.high)+tol && !r.onTab(p):
		f.Kind, f.Need = Uncut, float64(p.high)
	default:
		return
	}
	q := &r.pieces[p.piece]
	f.Placement, f.Name, f.Feature = q.at, q.name, featureName(p.feature)
	r.book.add(f)
}

// onTab reports whether a probe of a bevel is on a tab that had to sit there.
func (r *replayer) onTab(p *probe) bool {
	if p.feature < bevelOf || float64(p.z) > float64(p.high)+r.opt.TabHeight+r.opt.Tolerance {
		return false
	}
	b := r.pieces[p.piece].work.Bevels[p.feature-bevelOf]
	near := r.tabLength()/2 + r.top*math.Tan(float64(b.Angle))
	for _, at := range r.tabs[p.piece] {
		if r2.Norm(r2.Sub(at, p.at())) < near {
			return true
		}
	}
	return false
}
