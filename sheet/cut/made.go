package cut

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
)

// A Way is how an edge is made.
type Way int

// The ways.
const (
	BySquare Way = iota // the outline alone makes it: it is square but for rounding
	ByV                 // with a V cutter
	BySaw               // at saw or plane, after the sheet is cut
)

// String returns "outline", "V cutter" or "saw".
func (w Way) String() string {
	if w < 0 || w > BySaw {
		return "unknown"
	}
	return [...]string{"outline", "V cutter", "saw"}[w]
}

// A Made is how one bevel of a part is made.
type Made struct {
	Way     Way
	Tool    int     // number of the cutter, of ByV
	Minutes float64 // at the machine, for one copy, without travel
	Why     string  // it is left to the saw
}

// Ways returns how each bevel of a part is made, in the sequence of
// work.Bevels, from the part and the cutters alone: wherever the part comes to
// lie, [Plan] makes its bevels so. It is an error if part, work or options
// cannot be used.
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
	p := &planner{fn: fn, job: job, top: part.Thickness, opt: opt.filled(part.Thickness)}
	p.mill, _ = p.opt.mill()
	q := &piece{outline: part.Outline, work: work, box: part.Outline.Bounds()}
	out := make([]Made, len(work.Bevels))
	for i, b := range work.Bevels {
		out[i] = p.made(q, b)
	}
	return out, nil
}

func (p *planner) made(q *piece, b Bevel) Made {
	if b.Square(p.top) {
		return Made{Way: BySquare}
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
	m := Made{Way: ByV, Tool: tool.Number}
	for _, v := range w.moves {
		if !v.Rapid && v.Feed > 0 {
			m.Minutes += v.Length() / v.Feed
		}
	}
	return m
}

// Sense says in words which way a bevel leans.
func Sense(angle arc.Angle) string {
	if angle < 0 {
		return "leaning out, the back face beyond the show face"
	}
	return "leaning in, the back face short of the show face"
}

// SawLine names an edge left to the saw, its bevel and its sense, in the words
// that everything printed uses.
func SawLine(edge string, angle arc.Angle) string {
	return fmt.Sprintf("%s edge, bevel %.2f deg off square, %s", edge, max(angle, -angle).Degrees(), Sense(angle))
}
