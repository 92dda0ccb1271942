package cut

import (
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/sheet"
)

// A Way is how an edge is made.
type Way int

// The ways.
const (
	BySquare Way = iota // the outline alone makes it: it is square but for rounding
	ByV                 // with a V cutter
	BySteps             // in steps, by the cutter of the outlines
	BySaw               // at saw or plane, after the sheet is cut
)

// String returns "outline", "V cutter", "steps" or "saw".
func (w Way) String() string {
	if w < 0 || w > BySaw {
		return "unknown"
	}
	return [...]string{"outline", "V cutter", "steps", "saw"}[w]
}

// A Made is how one bevel of a part is made.
type Made struct {
	Way     Way
	Tool    int     // number of the cutter, of ByV and BySteps
	Minutes float64 // at the machine, for one copy, without travel
	Scallop float64 // how far a step stands out over the ground beside it, of BySteps, mm
	Stands  float64 // how far a step may stand off the true face, of BySteps, mm
	Behind  float64 // how far its ground may lie behind the true face, of BySteps, mm
	Why     string  // it is left to the saw
}

// cut reports whether the program makes the bevel by cuts of its own.
func (m Made) cut() bool { return m.Way == ByV || m.Way == BySteps }

// Ways returns how each bevel of a part is made, in the sequence of
// work.Bevels, from the part and the cutters alone: wherever the part comes to
// lie, [Plan] makes its bevels so. Of the ways that the options allow and that
// make the bevel within what they ask, it is the one that takes the least time;
// a V cutter where two take the same; the saw where there is none. It is an
// error if part, work or options cannot be used.
func Ways(part sheet.Part, work Work, opt Options) ([]Made, error) {
	const fn = "cut.Ways"
	job := Job{Stock: sheet.Stock{Thickness: part.Thickness, Length: 1, Width: 1}, Parts: []sheet.Part{part}, Works: []Work{work}}
	if err := needPositive(fn, "part.Thickness", part.Thickness, maxDepth, "mm"); err != nil {
		return nil, err
	}
	if err := job.checkPart(fn, 0); err != nil {
		return nil, err
	}
	if err := opt.check(fn); err != nil {
		return nil, err
	}
	return newPlanner(fn, job, opt).made(0), nil
}

func newPlanner(fn string, job Job, opt Options) *planner {
	p := &planner{fn: fn, job: job, top: job.Stock.Thickness, opt: opt.filled(job.Stock.Thickness), decided: map[int][]Made{}}
	p.mill, _ = p.opt.mill()
	return p
}

// made returns how the bevels of a part of the job are made.
func (p *planner) made(part int) []Made {
	if m, ok := p.decided[part]; ok {
		return m
	}
	q := &piece{part: part, outline: p.job.Parts[part].Outline, work: p.job.work(part)}
	out := make([]Made, len(q.work.Bevels))
	for i, b := range q.work.Bevels {
		out[i] = p.choose(q, b)
	}
	p.decided[part] = out
	return out
}

// choose compares the ways to make a bevel.
func (p *planner) choose(q *piece, b Bevel) Made {
	if b.Square(p.top) {
		return Made{Way: BySquare}
	}
	best := Made{Way: BySaw}
	for _, way := range [...]func(*piece, Bevel) Made{p.byV, p.bySteps} {
		m := way(q, b)
		switch {
		case m.Way != BySaw && (best.Way == BySaw || m.Minutes < best.Minutes):
			best = m
		case best.Way == BySaw && best.Why == "":
			best.Why = m.Why
		case best.Way == BySaw && m.Why != best.Why:
			best.Why += "; in steps: " + m.Why
		}
	}
	return best
}

func (p *planner) byV(q *piece, b Bevel) Made {
	if p.opt.NoV {
		return Made{Way: BySaw, Why: "no V cutter is to be used"}
	}
	tool, heights, tracks, why := p.flanks(q, b)
	if why != "" {
		return Made{Way: BySaw, Why: why}
	}
	w := p.pen(tool)
	if b.Edge.Closed {
		w.sinkRounds(tracks, heights)
	} else {
		w.sink(tracks, heights)
	}
	return Made{Way: ByV, Tool: tool.Number, Minutes: w.minutes()}
}

func (p *planner) bySteps(q *piece, b Bevel) Made {
	if p.opt.NoSteps {
		return Made{Way: BySaw, Why: "no steps are to be cut"}
	}
	f, passes, why := p.stairs(q, b)
	if why != "" {
		return Made{Way: BySaw, Why: why}
	}
	w := p.stepPen()
	w.climbDown(passes, p.opt.Climb, p.opt.ToAndFro)
	step := f.step * f.sin
	return Made{
		Way: BySteps, Tool: p.mill.Number, Minutes: w.minutes(), Scallop: step,
		Stands: math.Max(0, step+p.opt.Sanding-p.opt.Relief), Behind: math.Max(0, p.opt.Relief-p.opt.Sanding),
	}
}

// minutes returns how long the moves take, without the travel to the first.
func (p *pen) minutes() float64 {
	sum := 0.0
	for i, v := range p.moves {
		switch {
		case v.Rapid && i > 0:
			sum += v.Length() / p.o.Rapid
		case !v.Rapid && v.Feed > 0:
			sum += v.Length() / v.Feed
		}
	}
	return sum
}

// Sense says in words which way a bevel leans.
func Sense(angle arc.Angle) string {
	if angle < 0 {
		return "leaning out, the back face beyond the show face"
	}
	return "leaning in, the back face short of the show face"
}

// StepsLine tells of so many edges cut in steps, how many minutes that takes and
// how far the steps stand off their faces, as it is printed, in the words of all
// that tells of it; "" is not at all.
func StepsLine(edges int, minutes float64, stands string) string {
	line := fmt.Sprintf("%d edges are beveled in steps, about %.1f minutes of it", edges, minutes)
	if stands != "" {
		line += "; steps stand up to " + stands + " off the true face: sand them off before glue"
	}
	return line
}

// SawLine names an edge left to the saw, its bevel and its sense, in the words
// that everything printed uses.
func SawLine(edge string, angle arc.Angle) string {
	return edge + " edge, bevel " + strings.TrimSuffix(say.Saw(max(angle, -angle)), "°") + " deg off square, " + Sense(angle)
}
