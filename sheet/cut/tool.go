package cut

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
)

// A Tool is a cutter in the spindle: a flat end mill, or a pointed V cutter
// where Angle > 0.
type Tool struct {
	Number   int       // in the machine's magazine, 1 to 99999
	Name     string    // printed beside the number; "" names it by its size
	Diameter float64   // largest, mm
	Angle    arc.Angle // included, of a V cutter; 0 is a flat end mill
	MaxDepth float64   // deepest it may cut, mm; 0 means no limit for an end mill, to its diameter for a V cutter
	Step     float64   // deepest it may cut in one pass, mm; 0 means its diameter, for a V cutter an eighth
	Flutes   int       // 0 means 2
	Speed    float64   // rev/min; 0 means 18000
	Feed     float64   // mm/min; 0 means by [ChipLoad], and at most 12000
	Plunge   float64   // downward part of the feed, mm/min; 0 means a quarter of Feed

	Center  bool      // it cuts at its center, so that it may go straight down into wood, as a V cutter may; else it has to ramp
	Ramp    arc.Angle // steepest way down into wood; 0 means Options.Ramp
	Edge    float64   // length of its cutting edges, mm; 0 means no limit
	Shank   float64   // diameter above the edges, mm; 0 means as wide as the cutter. A thinner one may follow the edges into a cut
	Slowest float64   // rev/min; 0 means three quarters of Speed
	Fastest float64   // rev/min; 0 means five quarters of Speed
}

// V reports whether the cutter is pointed.
func (t Tool) V() bool { return t.Angle > 0 }

// Label returns the name of the cutter, or its size.
func (t Tool) Label(unit arc.Unit) string {
	in := say.Format{Unit: unit}
	switch {
	case t.Name != "":
		return t.Name
	case t.V():
		return fmt.Sprintf("V cutter %.4g deg %s", t.Angle.Degrees(), in.Thin(t.Diameter))
	}
	return "end mill " + in.Thin(t.Diameter)
}

// slope returns the tangent of half the included angle: the radius a
// millimeter above the tip.
func (t Tool) slope() float64 {
	if !t.V() {
		return 0
	}
	return math.Tan(float64(t.Angle) / 2)
}

// reach returns the deepest cut.
func (t Tool) reach() float64 {
	switch {
	case t.V() && t.MaxDepth > 0:
		return math.Min(t.MaxDepth, t.Diameter/2/t.slope())
	case t.V():
		return t.Diameter / 2 / t.slope()
	case t.MaxDepth > 0:
		return math.Min(t.MaxDepth, t.edged())
	}
	return t.edged()
}

// edged returns how deep the cutter may go for its shank.
func (t Tool) edged() float64 {
	if t.Edge == 0 || t.V() || t.Shank > 0 && t.Shank < t.Diameter {
		return math.Inf(1)
	}
	return t.Edge
}

// filled returns the tool with what was left 0 put in.
func (t Tool) filled() Tool {
	if t.Flutes == 0 {
		t.Flutes = 2
	}
	if t.Speed == 0 {
		t.Speed = 18000
	}
	if t.Step == 0 {
		t.Step = t.Diameter
		if t.V() {
			t.Step = t.Diameter / 8
		}
	}
	if t.Edge > 0 {
		t.Step = math.Min(t.Step, t.Edge)
	}
	if t.Feed == 0 {
		low, _ := ChipLoad(t.Diameter, t.Step)
		t.Feed = math.Min(12000, t.Speed*float64(t.Flutes)*low)
	}
	if t.Plunge == 0 {
		t.Plunge = t.Feed / 4
	}
	if t.Slowest == 0 {
		t.Slowest = 0.75 * t.Speed
	}
	if t.Fastest == 0 {
		t.Fastest = 1.25 * t.Speed
	}
	return t
}

// leastDiameter keeps the passes over a pocket within bounds, mm.
const leastDiameter = 0.5

func (t Tool) check(fn, name string) error {
	if t.Number < 1 || t.Number > 99999 {
		return &ParamError{Func: fn, Param: name + ".Number", Value: t.Number, Need: "1 to 99999", Err: arc.ErrRange}
	}
	if t.Flutes < 0 || t.Flutes > 100 {
		return &ParamError{Func: fn, Param: name + ".Flutes", Value: t.Flutes, Need: "0 to 100", Err: arc.ErrRange}
	}
	if !(t.Diameter >= leastDiameter && t.Diameter <= 1000) {
		return &ParamError{Func: fn, Param: name + ".Diameter", Value: t.Diameter, Unit: "mm", Need: fmt.Sprintf("%g to 1000", leastDiameter), Err: kind(t.Diameter)}
	}
	for _, f := range []struct {
		name, unit string
		v, most    float64
	}{
		{"Angle", "rad", float64(t.Angle), 3}, {"MaxDepth", "mm", t.MaxDepth, 1000}, {"Step", "mm", t.Step, 1000},
		{"Speed", "rev/min", t.Speed, 1e6}, {"Feed", "mm/min", t.Feed, 1e6}, {"Plunge", "mm/min", t.Plunge, 1e6},
		{"Ramp", "rad", float64(t.Ramp), 1.5}, {"Edge", "mm", t.Edge, 1000}, {"Shank", "mm", t.Shank, 1000},
		{"Slowest", "rev/min", t.Slowest, 1e6}, {"Fastest", "rev/min", t.Fastest, 1e6},
	} {
		if err := needNotNegative(fn, name+"."+f.name, f.v, f.most, f.unit); err != nil {
			return err
		}
	}
	return t.checkLimits(fn, name)
}

// checkLimits also bounds how flat a ramp may be, so that none is without end,
// and how short the edges.
func (t Tool) checkLimits(fn, name string) error {
	if t.Ramp != 0 && t.Ramp < leastRamp {
		return &ParamError{Func: fn, Param: name + ".Ramp", Value: t.Ramp, Need: fmt.Sprintf("0, or >= %g", leastRamp), Err: arc.ErrRange}
	}
	if t.Edge != 0 && t.Edge < leastDiameter {
		return &ParamError{Func: fn, Param: name + ".Edge", Value: t.Edge, Unit: "mm", Need: fmt.Sprintf("0, or >= %g", leastDiameter), Err: arc.ErrRange}
	}
	if f := t.filled(); f.Speed < f.Slowest || f.Speed > f.Fastest {
		return &ParamError{Func: fn, Param: name + ".Speed", Value: f.Speed, Unit: "rev/min", Need: fmt.Sprintf("%g to %g", f.Slowest, f.Fastest), Err: arc.ErrRange}
	}
	return nil
}

// chips is a cutter maker's chart for MDF, inches per tooth at a depth of one
// diameter: 1/4 in 0.012 to 0.015, 3/8 in 0.017 to 0.019, 1/2 in 0.020 to
// 0.025. The row of no diameter makes thinner cutters go in proportion, which
// is ours.
var chips = [...]struct{ diameter, low, high float64 }{
	{0, 0, 0}, {0.250, 0.012, 0.015}, {0.375, 0.017, 0.019}, {0.500, 0.020, 0.025},
}

// ChipLoad returns the range of thickness of chip, in mm per tooth, that a
// cutter maker's chart gives for MDF at a depth of cut: the range at a depth of one diameter,
// less a quarter at two and half at three and more. It runs straight between the
// rows; a cutter over 1/2 in takes that row. Feed is speed times flutes times
// chip. Zero or a value that is not finite gives zeros.
func ChipLoad(diameter, depth float64) (low, high float64) {
	if !(diameter > 0) || !(depth >= 0) {
		return 0, 0
	}
	d := math.Min(diameter/arc.Inch, 0.5)
	i := 1
	for i < len(chips)-1 && d > chips[i].diameter {
		i++
	}
	a, b := chips[i-1], chips[i]
	f := (d - a.diameter) / (b.diameter - a.diameter)
	less := 1 - math.Max(0, math.Min(0.5, (depth/diameter-1)/4))
	return (a.low + f*(b.low-a.low)) * less * arc.Inch, (a.high + f*(b.high-a.high)) * less * arc.Inch
}

// Tools returns a plain list of cutters: an end mill of a diameter for
// outlines, openings and pockets, one as wide as a kerf, where kerf > 0 and it
// is another, and V cutters of included angles, by default one of 90 degrees,
// each wide enough to bevel a board of a thickness in one depth.
func Tools(outline, kerf, thickness float64, angles ...arc.Angle) []Tool {
	t := []Tool{{Number: 1, Diameter: outline}}
	if kerf > 0 && kerf != outline {
		t = append(t, Tool{Number: 2, Diameter: kerf})
	}
	if len(angles) == 0 {
		angles = []arc.Angle{90 * arc.Degree}
	}
	for i, a := range angles {
		wide := math.Ceil(2*thickness*math.Tan(float64(a)/2) + 1)
		t = append(t, Tool{Number: 3 + i, Diameter: wide, Angle: a})
	}
	return t
}
