package cut

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"gonum.org/v1/gonum/spatial/r2"
)

// Options are the cutters and habits of a shop. The zero value of each field
// but Tools is usable.
type Options struct {
	// Tools are the cutters. The first end mill cuts outlines, openings and
	// pockets; a slot takes the widest end mill that enters it; a bevel takes
	// the V cutter of twice its angle.
	Tools []Tool

	Safe     float64 // height of the tip over the sheet's top where it travels, mm; 0 means 15
	Approach float64 // height over the sheet's top from which the feed is used, mm; 0 means 2
	Through  float64 // how far outlines and openings are cut below the sheet, into the spoilboard, mm; 0 means 0.2

	Hold       Hold    // what holds what is cut free; 0 is tabs
	Skin       float64 // thickness of a skin, mm; 0 means 0.5
	TabWidth   float64 // of a tab at its top, mm; 0 means 6, and less than 2 holds nothing
	TabHeight  float64 // mm; 0 means 3, but at most a third of the sheet; less than 1 holds nothing
	TabSpacing float64 // along the outline, mm; 0 means 500. No part has fewer than 2 tabs

	// Scrap is the area of the largest piece of waste that may come loose, mm²;
	// 0 means 400.
	Scrap float64

	Ramp  arc.Angle // slope of an entry; 0 means 5 degrees
	Climb bool      // run outlines so that the cutter climbs; else it cuts the conventional way
	Step  float64   // between the tracks in a pocket, as a share of the diameter; 0 means 0.4

	SpinUp float64 // time the spindle takes to come up to speed, in which nothing may move, s; 0 means none

	BevelMatch arc.Angle // how far the angle of a V cutter may be off; 0 means 0.05 degree
	Overrun    float64   // how far a cutter runs on past an open end of a bevel, mm; 0 means none

	// A bevel that leans in is cut with the V cutter of twice its angle or by the
	// outline cutter in steps, whichever takes less time: see [Ways].
	NoV      bool    // cut no bevel with a V cutter
	NoSteps  bool    // cut no bevel in steps
	Scallop  float64 // how far steps may stand out over the ground between them, square to the face, mm; 0 means 0.2
	Finish   float64 // what a first set of passes leaves on the face for a second one to take off, mm; 0 means one set
	Sanding  float64 // what the steps leave on the face to be sanded off, mm; 0 means their edges' ground lies on it
	Relief   float64 // how far behind the face the steps' ground is taken, so that a miter closes at the show edge, mm; 0 means none
	ToAndFro bool    // cut the passes of steps one this way and the next that; else all run as Climb says

	Travel    r2.Box  // where the axis may go; the zero Box means over the sheet
	Rapid     float64 // speed of travel for the estimate of time, mm/min; 0 means 15000
	Change    float64 // time of a change of cutter, min; 0 means 0.5
	Tolerance float64 // of [Replay], sideways and in depth, mm; 0 means 0.05
}

func orElse(v, otherwise float64) float64 {
	if v == 0 {
		return otherwise
	}
	return v
}

// filled returns the options with what was left 0 put in.
func (o Options) filled(thickness float64) Options {
	o.Safe = orElse(o.Safe, 15)
	o.Approach = math.Min(orElse(o.Approach, 2), o.Safe)
	o.Through = orElse(o.Through, 0.2)
	o.TabWidth = orElse(o.TabWidth, 6)
	o.TabHeight = math.Min(orElse(o.TabHeight, 3), thickness/3)
	o.Skin = math.Min(orElse(o.Skin, 0.5), thickness/3)
	o.TabSpacing = orElse(o.TabSpacing, 500)
	o.Scrap = orElse(o.Scrap, 400)
	o.Ramp = arc.Angle(orElse(float64(o.Ramp), float64(5*arc.Degree)))
	o.Step = orElse(o.Step, 0.4)
	o.BevelMatch = arc.Angle(orElse(float64(o.BevelMatch), float64(0.05*arc.Degree)))
	o.Rapid = orElse(o.Rapid, 15000)
	o.Change = orElse(o.Change, 0.5)
	o.Scallop = orElse(o.Scallop, 0.2)
	o.Tolerance = orElse(o.Tolerance, 0.05)
	tools := make([]Tool, len(o.Tools))
	for i, t := range o.Tools {
		tools[i] = t.filled()
	}
	o.Tools = tools
	return o
}

func (o Options) check(fn string) error {
	for _, f := range []struct {
		name, unit string
		v, most    float64
	}{
		{"Safe", "mm", o.Safe, 1000}, {"Approach", "mm", o.Approach, 1000}, {"Through", "mm", o.Through, 20},
		{"TabWidth", "mm", o.TabWidth, 1000}, {"TabHeight", "mm", o.TabHeight, 1000}, {"TabSpacing", "mm", o.TabSpacing, maxSize},
		{"Scrap", "mm2", o.Scrap, maxSize * maxSize}, {"Skin", "mm", o.Skin, 5}, {"Hold", "", float64(o.Hold), float64(ByVacuum)},
		{"Ramp", "rad", float64(o.Ramp), 1.5}, {"Step", "", o.Step, 0.5}, {"BevelMatch", "rad", float64(o.BevelMatch), 0.1},
		{"Overrun", "mm", o.Overrun, 1000}, {"Rapid", "mm/min", o.Rapid, 1e6}, {"Change", "min", o.Change, 1000}, {"Tolerance", "mm", o.Tolerance, 1},
		{"SpinUp", "s", o.SpinUp, 600},
		{"Scallop", "mm", o.Scallop, 5}, {"Finish", "mm", o.Finish, 5}, {"Sanding", "mm", o.Sanding, 5}, {"Relief", "mm", o.Relief, 5},
	} {
		if err := needNotNegative(fn, "opt."+f.name, f.v, f.most, f.unit); err != nil {
			return err
		}
	}
	for _, v := range [4]float64{o.Travel.Min.X, o.Travel.Min.Y, o.Travel.Max.X, o.Travel.Max.Y} {
		if !(math.Abs(v) <= 1e6) {
			return &ParamError{Func: fn, Param: "opt.Travel", Value: v, Unit: "mm", Need: "finite", Err: kind(v)}
		}
	}
	return o.checkTools(fn)
}

// Tabs and skins that are less are no hold. Common practice has tabs 3 to 10 mm
// wide and 2 to 4 high; the bounds are ours.
const (
	leastTabWidth  = 2   // mm
	leastTabHeight = 1   // mm
	leastSkin      = 0.2 // mm: twice what a spoilboard may be off
)

// checkTools also bounds how small an option may be, so that no ramp, step or
// spacing makes a program without end.
func (o Options) checkTools(fn string) error {
	if len(o.Tools) == 0 || len(o.Tools) > 1000 {
		return &ParamError{Func: fn, Param: "opt.Tools", Value: len(o.Tools), Need: "1 to 1000 cutters", Err: ErrNoTool}
	}
	seen := map[int]bool{}
	for i, t := range o.Tools {
		name := fmt.Sprintf("opt.Tools[%d]", i)
		if err := t.check(fn, name); err != nil {
			return err
		}
		if seen[t.Number] {
			return &ParamError{Func: fn, Param: name + ".Number", Value: t.Number, Need: "a number of its own", Err: arc.ErrRange}
		}
		seen[t.Number] = true
	}
	for _, f := range []struct {
		name     string
		v, least float64
	}{{"Ramp", float64(o.Ramp), leastRamp}, {"Step", o.Step, 0.02}, {"TabSpacing", o.TabSpacing, 10}, {"Tolerance", o.Tolerance, 0.001}, {"TabWidth", o.TabWidth, leastTabWidth}, {"TabHeight", o.TabHeight, leastTabHeight}, {"Skin", o.Skin, leastSkin}, {"Scallop", o.Scallop, 0.01}} {
		if f.v != 0 && f.v < f.least {
			return &ParamError{Func: fn, Param: "opt." + f.name, Value: f.v, Need: fmt.Sprintf("0, or >= %g", f.least), Err: arc.ErrRange}
		}
	}
	if _, ok := o.mill(); !ok {
		return &ParamError{Func: fn, Param: "opt.Tools", Value: len(o.Tools), Need: "an end mill for the outlines", Err: ErrNoTool}
	}
	return nil
}

// mill returns the end mill for outlines, openings and pockets.
func (o Options) mill() (Tool, bool) {
	for _, t := range o.Tools {
		if !t.V() {
			return t, true
		}
	}
	return Tool{}, false
}

// widthSlack is by how much a cutter may be wider than its slot, mm: what
// stands between a cutter's nominal size in inches and in mm.
const widthSlack = 0.01

// slotTool returns the widest end mill that enters a slot and reaches its
// floor.
func (o Options) slotTool(s Slot) (Tool, bool) {
	best := Tool{}
	for _, t := range o.Tools {
		if !t.V() && t.Diameter <= s.Width+widthSlack && t.reach() >= s.Depth && t.Diameter > best.Diameter {
			best = t
		}
	}
	return best, best.Number > 0
}

// bevelTool returns the V cutter for a bevel from above, or why there is none.
func (o Options) bevelTool(b Bevel, thickness float64) (Tool, string) {
	if b.Square(thickness) {
		return Tool{}, "square"
	}
	if b.Angle < 0 {
		return Tool{}, "undercuts"
	}
	if b.changes() {
		return Tool{}, "its bevel changes along it"
	}
	why := fmt.Sprintf("no V cutter of %.4g deg", 2*b.Angle.Degrees())
	for _, t := range o.Tools {
		if !t.V() || math.Abs(float64(t.Angle/2-b.Angle)) > float64(o.BevelMatch) {
			continue
		}
		if t.reach() >= thickness-1e-9 {
			return t, ""
		}
		why = fmt.Sprintf("the V cutter of %.4g deg does not reach through the sheet", t.Angle.Degrees())
	}
	return Tool{}, why
}
