package cut

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/sheet"
	"gonum.org/v1/gonum/spatial/r2"
)

// A Job is one sheet with the parts that lie on it.
type Job struct {
	Title      string
	Stock      sheet.Stock
	Placements []sheet.Placement
	Parts      []sheet.Part // what the placements index
	Works      []Work       // of each part; shorter where the rest have none
}

// A piece is a part in its place, in the sheet's coordinates.
type piece struct {
	at      int // index of its placement
	part    int
	name    string
	outline arc.Region
	work    Work
	box     r2.Box
	lodged  int // in how many openings of others it lies
}

// check reports the first fault of the job.
func (j Job) check(fn string) error {
	if err := needPositive(fn, "job.Stock.Thickness", j.Stock.Thickness, maxDepth, "mm"); err != nil {
		return err
	}
	if err := checkRegion(fn, "job.Stock", j.Stock.Shape()); err != nil {
		return err
	}
	for i, r := range j.Stock.Forbidden {
		if err := checkRegion(fn, fmt.Sprintf("job.Stock.Forbidden[%d]", i), r); err != nil {
			return err
		}
	}
	if len(j.Placements) > maxItems || len(j.Parts) > maxItems {
		return &ParamError{Func: fn, Param: "job.Placements", Value: len(j.Placements), Need: fmt.Sprintf("<= %d", maxItems), Err: sheet.ErrTooMany}
	}
	used := map[int]bool{}
	for i, p := range j.Placements {
		if p.Part < 0 || p.Part >= len(j.Parts) {
			return &ParamError{Func: fn, Param: fmt.Sprintf("job.Placements[%d].Part", i), Value: p.Part, Need: fmt.Sprintf("an index of the %d parts", len(j.Parts)), Err: arc.ErrRange}
		}
		for _, v := range [3]float64{p.At.X, p.At.Y, float64(p.Rotate)} {
			if !(v >= -maxSize && v <= maxSize) {
				return &ParamError{Func: fn, Param: fmt.Sprintf("job.Placements[%d]", i), Value: v, Need: "coordinates of a sheet", Err: kind(v)}
			}
		}
		used[p.Part] = true
	}
	for i := range j.Parts {
		if used[i] {
			if err := j.checkPart(fn, i); err != nil {
				return err
			}
		}
	}
	return nil
}

func (j Job) checkPart(fn string, i int) error {
	name := fmt.Sprintf("job.Parts[%d]", i)
	if err := checkRegion(fn, name+".Outline", j.Parts[i].Outline); err != nil {
		return err
	}
	if t := j.Parts[i].Thickness; t != j.Stock.Thickness {
		return &ParamError{Func: fn, Param: name + ".Thickness", Value: t, Unit: "mm", Need: fmt.Sprintf("the sheet's %g mm", j.Stock.Thickness), Err: arc.ErrRange}
	}
	return j.work(i).check(fn, fmt.Sprintf("job.Works[%d]", i), j.Stock.Thickness)
}

func (j Job) work(part int) Work {
	if part < len(j.Works) {
		return j.Works[part]
	}
	return Work{}
}

// pieces returns the parts in their places.
func (j Job) pieces() []piece {
	out := make([]piece, len(j.Placements))
	for i, p := range j.Placements {
		m := p.Motion()
		o := j.Parts[p.Part].Outline.Transform(m)
		out[i] = piece{
			at: i, part: p.Part, name: CopyName(j.Parts[p.Part].Name, p.Copy),
			outline: o, work: j.work(p.Part).moved(m), box: o.Bounds(),
		}
	}
	return out
}

// CopyName names a copy of a part, counted from 0, as faults and comments do:
// from 1.
func CopyName(part string, number int) string { return fmt.Sprintf("%s.%d", part, number+1) }
