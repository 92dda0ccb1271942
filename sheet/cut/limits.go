package cut

import (
	"math"

	"example.com/sagitta/arc"
)

// leastRamp keeps ramps within bounds, rad.
const leastRamp = 0.001

// Bounds of a feed, in shares. A cutter may be fed a quarter faster than it is
// listed, and half as fast. What it is listed with may be twice the chart's
// thickest chip and an eighth of its thinnest: light machines are fed slowly.
// Ours; the charts give no bounds.
const (
	mostFeed   = 1.25
	leastFeed  = 0.5
	mostChip   = 2.0
	leastChip  = 0.125
	mostPlunge = 1.1
)

// Slowing returns by what share of its feed a cutter is fed in a cut of a
// depth: all of it to three diameters, and beyond as much less as the cutter
// has to reach farther, 3·diameter/depth. The rule is ours: a chart's
// chip is for one diameter in one pass, while a cutter that stands out of its
// chuck as far as the cut is deep bends more at every pass.
func Slowing(diameter, depth float64) float64 {
	if !(diameter > 0) || !(depth > 3*diameter) {
		return 1
	}
	return 3 * diameter / depth
}

// limits is what the replay follows to hold the program to what the cutters
// and the machine can do.
type limits struct {
	moves  []Move
	now    int             // index of the move
	waited float64         // since the spindle started, s
	reach  map[int]float64 // deepest place of each cutter below the sheet's top
	took   float64         // most that the move took off a place
	rim    []int           // of each part, places of its outline not cut through yet
	whole  []int           // of each part, places of its outline
	listed map[int]bool    // cutters whose list was looked at
}

func newLimits(f *field, moves []Move) limits {
	l := limits{moves: moves, reach: map[int]float64{}, listed: map[int]bool{}, rim: make([]int, len(f.pieces)), whole: make([]int, len(f.pieces))}
	for i := range moves {
		if m := &moves[i]; finiteMove(m) {
			l.reach[m.Tool] = math.Max(l.reach[m.Tool], math.Min(f.top, f.top-low(m)))
		}
	}
	for _, g := range f.rings {
		if g.feature == loopOf {
			l.rim[g.piece] += len(g.s)
			l.whole[g.piece] += len(g.s)
		}
	}
	return l
}

// spindle checks that the spindle is up before anything moves.
func (r *replayer) spindle(last, m *Move) {
	if last == nil || last.Speed <= 0 || last.Tool != m.Tool {
		r.waited = 0
	}
	r.waited += math.Max(0, m.Dwell)
	if m.Speed > 0 && r.waited < r.opt.SpinUp-1e-6 {
		r.fault(NotUpToSpeed, m, xy(m.To), r.waited, r.opt.SpinUp)
	}
}

// near keeps travel at rapid as far over the sheet as the feed is used from;
// up it may go from anywhere.
func (r *replayer) near(m *Move) {
	z := low(m)
	if !m.Rapid || z < r.top || z >= r.top+r.opt.Approach-slack || xy(m.From) == xy(m.To) && m.To.Z >= m.From.Z {
		return
	}
	r.fault(NearTravel, m, xy(m.To), z, r.top+r.opt.Approach)
}

// entry checks how steeply a move into wood goes down. Beside a tab it may be as
// steep as the tab's sides.
func (r *replayer) entry(m *Move) {
	drop, l := m.From.Z-m.To.Z, m.plan().Length()
	if m.Rapid || drop <= 5*slack {
		return
	}
	if l < 10*slack {
		if !r.tool.Center && !r.tool.V() && r.inWood(m) {
			r.fault(Plunged, m, xy(m.To), m.To.Z, m.From.Z)
		}
		return
	}
	most := r.opt.Ramp
	if r.tool.Ramp > 0 {
		most = min(most, r.tool.Ramp)
	}
	if m.From.Z <= r.opt.TabHeight+slack && r.opt.Hold == ByTabs {
		most = max(most, tabRise)
	}
	// Places are rounded when printed, which tilts a short move.
	if tan := math.Tan(float64(most)); drop > tan*l*1.01+5*slack && r.inWood(m) {
		r.fault(SteepEntry, m, xy(m.To), arc.Angle(math.Atan2(drop, l)).Degrees(), most.Degrees())
	}
}

// inWood reports whether a move took wood off: off a place probed, or, as none
// is out in the waste, where the axis had not been as low before.
func (r *replayer) inWood(m *Move) bool {
	if r.took > r.opt.Tolerance {
		return true
	}
	at := xy(m.To)
	for i := r.now - 1; i >= 0; i-- {
		o := &r.moves[i]
		if o.Rapid || math.Max(o.From.Z, o.To.Z) > m.To.Z+r.opt.Tolerance || o.Tool != m.Tool || !finiteMove(o) {
			continue
		}
		if _, d, _ := foot(o.plan(), at); d < r.opt.Tolerance {
			return false
		}
	}
	return low(m) < r.top-5*slack
}

// rates checks feed and speed against what the cutter is listed with, and that
// against the chart.
func (r *replayer) rates(m *Move) {
	t := r.tool
	if m.Speed > 0 && (m.Speed < t.Slowest-0.5 || m.Speed > t.Fastest+0.5) {
		need := t.Slowest
		if m.Speed > t.Fastest {
			need = t.Fastest
		}
		r.fault(WrongSpeed, m, xy(m.To), m.Speed, need)
	}
	if m.Rapid {
		return
	}
	r.chip(m)
	drop, l := m.From.Z-m.To.Z, m.Length()
	most, least := t.Feed, t.Feed
	if !t.V() {
		most *= Slowing(t.Diameter, r.top-low(m))
		least *= Slowing(t.Diameter, r.reach[t.Number])
	}
	if down := m.Feed * math.Max(0, drop-2*slack) / l; drop > 0 && l > 0 {
		// Heights are rounded when printed, which tilts a short move.
		if down > t.Plunge*mostPlunge+1 {
			r.fault(FastPlunge, m, xy(m.To), down, t.Plunge)
		}
		least = math.Min(least, t.Plunge*l/drop)
	}
	switch {
	case m.Feed > most*mostFeed+1:
		r.fault(WrongFeed, m, xy(m.To), m.Feed, most)
	case m.Feed < least*leastFeed-1:
		r.fault(WrongFeed, m, xy(m.To), m.Feed, least)
	}
}

// chip looks once at what a cutter is listed with.
func (r *replayer) chip(m *Move) {
	t := r.tool
	if t.V() || r.listed[t.Number] {
		return
	}
	r.listed[t.Number] = true
	low, high := ChipLoad(t.Diameter, t.Step)
	per := t.Speed * float64(t.Flutes)
	switch {
	case t.Feed > per*high*mostChip:
		r.fault(WrongFeed, m, xy(m.To), t.Feed, per*high)
	case t.Feed < per*low*leastChip:
		r.fault(WrongFeed, m, xy(m.To), t.Feed, per*low)
	}
}

// note follows what a move takes off a place: how much, whether that cuts an
// outline through, and whether the part was free already.
func (r *replayer) note(p *probe, z float32, took float64, line int32) {
	tol := r.opt.Tolerance
	r.took = math.Max(r.took, took)
	if r.parted && p.station > 0 && float64(p.z) > r.opt.Skin+tol {
		q := &r.pieces[p.piece]
		r.book.add(Fault{Kind: AfterFree, Placement: q.at, Name: q.name, Feature: featureName(p.feature), At: p.at(), Z: float64(z), Need: r.opt.Skin, Line: int(line)})
	}
	if p.station > 0 && p.feature == loopOf {
		if float64(p.z) > tol && float64(z) <= tol && !r.tool.V() {
			r.rim[p.piece]--
		}
		return
	}
	if took <= tol || p.grow != 0 || p.feature <= loopOf || 2*r.rim[p.piece] > r.whole[p.piece] || r.whole[p.piece] == 0 {
		return
	}
	if p.station == 0 && depth(r.surface[p.piece].loops, p.at(), 1) < 0.5 {
		return // at the edge, which the outline cuts
	}
	q := &r.pieces[p.piece]
	r.book.add(Fault{Kind: AfterFree, Placement: q.at, Name: q.name, Feature: featureName(p.feature), At: p.at(), Z: float64(z), Need: float64(p.z), Line: int(line)})
}

// A Reach is how far a cutter has to stand out of its chuck for a program.
type Reach struct {
	Tool      Tool
	Depth     float64 // deepest it cuts below the sheet's top, mm
	Diameters float64 // the same in its diameters; 0 of a V cutter
	Caution   string  // where that is much
}

// farReach is beyond how many diameters a cutter is a risk of its own. Common
// practice, no source.
const farReach = 5

// Reaches returns the reach of every cutter, in the sequence of their use.
func (p Program) Reaches() []Reach {
	out := make([]Reach, len(p.Tools))
	for i, t := range p.Tools {
		out[i].Tool = t
		for _, o := range p.Operations {
			if o.Tool == t.Number {
				out[i].Depth = math.Max(out[i].Depth, o.Depth)
			}
		}
		if t.V() {
			continue
		}
		if out[i].Diameters = out[i].Depth / t.Diameter; out[i].Diameters > farReach {
			out[i].Caution = "reaches more than five diameters: it bends, wanders and breaks easily; take a sharp cutter, short in the chuck, and watch the first cut from aside"
		}
	}
	return out
}
