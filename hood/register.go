package hood

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// ease is how much wider than the cutter a relief or a hole for a pin is at
// least, as a factor, so that the cutter's axis runs round in it.
const ease = 1.01

// pinFloor is the least wood under a blind hole, mm: common practice, no
// source.
const pinFloor = 2

// relief returns the radius of the reliefs of inside corners.
func (s Spec) relief() float64 { return s.Cut.Tool / 2 * ease }

// wood returns the least wood between a slot or a hole and whatever else is
// cut: common practice, no source.
func (s Spec) wood() float64 { return s.Board.Thickness / 2 }

// checkTabs looks at the sizes of tabs against boards and cutter.
func (s Spec) checkTabs(c *checker) {
	g, t, tb := s.Tabs, s.Board.Thickness, s.Back.Thickness
	wide := c.notNegative("tabs.width", g.Width, "mm") && g.Width > 0
	tight := c.notNegative("tabs.clearance", g.Clearance, "mm")
	apart := c.notNegative("tabs.spacing", g.Spacing, "mm")
	if !wide {
		return
	}
	if least := math.Max(minSpacing, 4*g.Width); apart && g.Spacing < least {
		c.add("tabs.spacing", g.Spacing, "mm", fmt.Sprintf("at least %.6g mm, four widths", least), arc.ErrRange)
	}
	if tight && t > 0 && tb > 0 && g.Clearance > 0 {
		c.below("tabs.clearance", g.Clearance, math.Min(t/4, tb/2), "a quarter of a board and half of the back")
	}
	switch tool := s.Cut.Tool; {
	case !(tool > 0): // a fault of its own where it is negative or no number
		if tool == 0 {
			c.add("cut.tool", tool, "mm", "the cutter's diameter, by which the corners of slots are relieved", arc.ErrEmpty)
		}
	case g.Width < 3*tool:
		c.add("tabs.width", g.Width, "mm", fmt.Sprintf("at least %.6g mm, three times cut.tool", 3*tool), arc.ErrRange)
	case t > 0 && tool*ease > t+g.Clearance:
		c.add("tabs.width", g.Width, "mm", fmt.Sprintf("0, or a cut.tool under the %.6g mm of a board, to get into a slot", t+g.Clearance), ErrPlace)
	}
}

// hole returns the diameter of a hole for a pin.
func (p Pins) hole() float64 { return p.Diameter + p.Clearance }

// checkPins looks at the sizes of pins against boards and cutter.
func (s Spec) checkPins(c *checker) {
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
	if apart && g.Spacing < minSpacing {
		c.add("pins.spacing", g.Spacing, "mm", fmt.Sprintf("at least %d mm", minSpacing), arc.ErrRange)
	}
	thin := math.Min(s.Board.Thickness, s.Back.Thickness)
	switch {
	case !deep:
	case g.Depth == 0:
		c.add("pins.depth", g.Depth, "mm", "> 0", arc.ErrRange)
	case thin > 0 && g.Depth > thin-pinFloor:
		c.add("pins.depth", g.Depth, "mm", fmt.Sprintf("at most %.6g mm, to leave %d mm of the thinner panel", thin-pinFloor, pinFloor), arc.ErrRange)
	}
	switch tool := s.Cut.Tool; {
	case tool == 0:
		c.add("cut.tool", tool, "mm", "the cutter's diameter, which has to enter the holes", arc.ErrEmpty)
	case tool > 0 && tight && g.hole() < tool*ease:
		c.add("pins.diameter", g.Diameter, "mm", fmt.Sprintf("at least %.6g mm, for cut.tool to go round in the hole", tool*ease-g.Clearance), arc.ErrRange)
	}
}
