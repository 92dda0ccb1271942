package spec

import (
	"math"

	"example.com/sagitta/arc"
)

// Tabs let level boards and ribs find their places. A tab is as thick as its
// board; its slot in the back goes right through, and is open at the top for
// the deck and at the bottom for a liner shelf that lies there. Inside corners,
// of slots and beside tabs, are relieved by half circles a hair wider than the
// cutter, so that a square tab goes home: common practice, no source. Between a
// slot and any edge or opening stays half a board of wood; a slot that has less
// is moved by up to an eighth of the spacing, or else left out. Ribs get a tab,
// half a board long, where they stand on the liner shelf and foot and shelf
// have room.
type Tabs struct {
	Width     float64 `json:"width" unit:"mm" doc:"width of a tab, at least three times cut.tool; 0 means none"`
	Clearance float64 `json:"clearance" unit:"mm" doc:"play of a tab in its slot, both across and in thickness, and how much shorter it is than the slot is deep; 0 means none"`
	Spacing   float64 `json:"spacing" unit:"mm" doc:"largest distance from the middle of a tab to the next, at least four widths and 100 mm; where a board has room for two it has two at least"`
}

// Pins are dowels or pins in holes that are cut from above: blind in the faces
// that lie up on the machine, and through a corner block. Parts that meet with
// an edge, or with their show faces only, get none. Around a hole stays half a
// board of wood; a pair of holes that has less is left out.
type Pins struct {
	Diameter  float64 `json:"diameter" unit:"mm" doc:"diameter of a pin; 0 means none; with its clearance at least a hundredth over cut.tool, for the cutter to go round"`
	Depth     float64 `json:"depth" unit:"mm" doc:"depth of a blind hole; at least 2 mm stay under it"`
	Clearance float64 `json:"clearance" unit:"mm" doc:"how much wider than the pin a hole is; 0 means not at all"`
	Spacing   float64 `json:"spacing" unit:"mm" doc:"largest distance from the middle of a pin of the cleat to the next, at least 100 mm"`
}

// ease is how much wider than the cutter a relief or a hole for a pin is at
// least, as a factor, so that the cutter's axis runs round in it.
const ease = 1.01

// pinFloor is the least wood under a blind hole, mm: common practice, no
// source.
const pinFloor = 2

// leastApart keeps the count of tabs and pins within reason, mm.
const leastApart = 100

// Relief returns the radius of the reliefs of inside corners.
func (s Sizes) Relief() float64 { return s.Cut.Tool / 2 * ease }

// Wood returns the least wood between a slot or a hole and whatever else is
// cut: common practice, no source.
func (s Sizes) Wood() float64 { return s.Board.Thickness / 2 }

// checkTabs looks at the sizes of tabs against boards and cutter.
func (s Sizes) checkTabs(c *Checker) {
	g, t, tb := s.Tabs, s.Board.Thickness, s.Back.Thickness
	wide := c.notNegative("tabs.width", g.Width, "mm") && g.Width > 0
	tight := c.notNegative("tabs.clearance", g.Clearance, "mm")
	apart := c.notNegative("tabs.spacing", g.Spacing, "mm")
	if !wide {
		return
	}
	if least := math.Max(leastApart, 4*g.Width); apart && g.Spacing < least {
		c.Add("tabs.spacing", g.Spacing, "mm", "at least "+c.In.Up(least)+", four widths or more", arc.ErrRange)
	}
	if tight && t > 0 && tb > 0 && g.Clearance > 0 {
		c.below("tabs.clearance", g.Clearance, math.Min(t/4, tb/2), "a quarter of a board and half of the back")
	}
	switch tool := s.Cut.Tool; {
	case !(tool > 0): // a fault of its own where it is negative or no number
		if tool == 0 {
			c.Add("cut.tool", tool, "mm", "the cutter's diameter, by which the corners of slots are relieved", arc.ErrEmpty)
		}
	case g.Width < 3*tool:
		c.Add("tabs.width", g.Width, "mm", "at least "+c.In.Up(3*tool)+", three times cut.tool", arc.ErrRange)
	case t > 0 && tool*ease > t+g.Clearance:
		c.Add("tabs.width", g.Width, "mm", "0, or a cut.tool under the "+c.In.Down(t+g.Clearance)+" of a board, to get into a slot", ErrPlace)
	}
}

// Hole returns the diameter of a hole for a pin.
func (p Pins) Hole() float64 { return p.Diameter + p.Clearance }

// checkPins looks at the sizes of pins against boards and cutter.
func (s Sizes) checkPins(c *Checker) {
	g := s.Pins
	round := c.notNegative("pins.diameter", g.Diameter, "mm") && g.Diameter > 0
	tight := c.notNegative("pins.clearance", g.Clearance, "mm")
	apart := c.notNegative("pins.spacing", g.Spacing, "mm")
	deep := c.notNegative("pins.depth", g.Depth, "mm")
	if !round {
		return
	}
	if tight && g.Clearance > 0 {
		c.below("pins.clearance", g.Clearance, g.Diameter, "the diameter")
	}
	if apart && g.Spacing < leastApart {
		c.Add("pins.spacing", g.Spacing, "mm", "at least "+c.In.Up(leastApart), arc.ErrRange)
	}
	thin := math.Min(s.Board.Thickness, s.Back.Thickness)
	switch {
	case !deep:
	case g.Depth == 0:
		c.Add("pins.depth", g.Depth, "mm", "> 0", arc.ErrRange)
	case thin > 0 && g.Depth > thin-pinFloor:
		c.Add("pins.depth", g.Depth, "mm", "at most "+c.In.Down(thin-pinFloor)+", to leave "+c.In.Length(pinFloor)+" of the thinner panel", arc.ErrRange)
	}
	switch tool := s.Cut.Tool; {
	case tool == 0:
		c.Add("cut.tool", tool, "mm", "the cutter's diameter, which has to enter the holes", arc.ErrEmpty)
	case tool > 0 && tight && g.Hole() < tool*ease:
		c.Add("pins.diameter", g.Diameter, "mm", "at least "+c.In.Up(tool*ease-g.Clearance)+", for cut.tool to go round in the hole", arc.ErrRange)
	}
}
