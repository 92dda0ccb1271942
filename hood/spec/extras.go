package spec

import (
	"fmt"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
)

// checkExtras looks at ribs, cleat, blocks, scribe, cooktop and doorway.
func (s Sizes) checkExtras(c *Checker) {
	if c.notNegative("ribs.spacing", s.Ribs.Spacing, "mm") && s.Ribs.Spacing > 0 {
		if s.Ribs.Spacing < minSpacing {
			c.Add("ribs.spacing", s.Ribs.Spacing, "mm", "at least "+c.In.Up(minSpacing), arc.ErrRange)
		}
		c.positive("ribs.depth", s.Ribs.Depth, "mm")
	} else {
		c.notNegative("ribs.depth", s.Ribs.Depth, "mm")
	}
	c.notNegative("ribs.clearance", s.Ribs.Clearance, "mm")
	s.checkDado(c)
	s.checkTabs(c)
	s.checkPins(c)
	if a := s.Molding.Spring; !(a >= 0 && a < 90*arc.Degree) || s.Molding.Crown && a == 0 {
		c.Add("molding.spring", a.Degrees(), "deg", "over 0 and under 90", arc.ErrRange)
	}
	if c.notNegative("cleat.height", s.Cleat.Height, "mm") && s.Cleat.Height > 0 && s.Board.Thickness > 0 {
		if s.Cleat.Height <= 2*s.Board.Thickness {
			c.Add("cleat.height", s.Cleat.Height, "mm", "more than two boards, to leave wood behind the bevel", arc.ErrRange)
		}
		if s.Height > 0 && 2*s.Cleat.Height+s.Board.Thickness > s.Height/2 {
			c.Add("cleat.height", s.Cleat.Height, "mm", "strips that fit into the upper half", ErrPlace)
		}
	}
	c.notNegative("cleat.short", s.Cleat.Short, "mm")
	c.notNegative("blocks.leg", s.Blocks.Leg, "mm")
	s.Scribe.check(c)
	s.checkCooktop(c)
	c.notNegative("doorway.width", s.Doorway.Width, "mm")
	c.notNegative("doorway.height", s.Doorway.Height, "mm")
}

func (s Sizes) checkDado(c *Checker) {
	d := s.Dado
	deep := c.notNegative("dado.depth", d.Depth, "mm")
	if c.notNegative("dado.clearance", d.Clearance, "mm") && deep && d.Depth > 0 {
		c.below("dado.clearance", d.Clearance, d.Depth, "the depth of the grooves")
		if s.Board.Thickness > 0 {
			c.below("dado.depth", d.Depth, s.Board.Thickness, "the thickness of the sides")
		}
		if s.CornerJoint() == "cheek-covers" {
			c.Add("dado.depth", d.Depth, "mm", "0, as the grooves would show in the front edges of covering cheeks", ErrPlace)
		}
	}
}

// minSpacing keeps the count of ribs within reason, mm.
const minSpacing = 50

func (s Scribe) check(c *Checker) {
	allowed := c.notNegative("scribe.allowance", s.Allowance, "mm")
	if len(s.Wall) > curve.MaxPoints { // told with the bounds of lists
		return
	}
	for i, w := range s.Wall {
		at := fmt.Sprintf("scribe.wall[%d]", i)
		if !c.finite(at+"[0]", w[0], "mm") || !c.notNegative(at+"[1]", w[1], "mm") {
			continue
		}
		if allowed && w[1] > s.Allowance {
			c.Add(at+"[1]", w[1], "mm", "at most "+c.In.Down(s.Allowance)+", the allowance", arc.ErrRange)
		}
		if i > 0 && w[0] <= s.Wall[i-1][0] {
			c.Add(at+"[0]", w[0], "mm", "a height above the one before", arc.ErrRange)
		}
	}
}

// checkCooktop refuses a hood nearer to the fire than the appliance's maker
// allows.
func (s Sizes) checkCooktop(c *Checker) {
	k := s.Cooktop
	d := c.notNegative("cooktop.distance", k.Distance, "mm")
	w := c.notNegative("cooktop.wood", k.Wood, "mm")
	m := c.notNegative("cooktop.metal", k.Metal, "mm")
	if !d || !w || !m || k.Distance == 0 {
		return
	}
	if k.Distance < k.Wood {
		c.Add("cooktop.distance", k.Distance, "mm", "at least "+c.In.Up(k.Wood)+" to wood, by the appliance maker's instructions", arc.ErrRange)
	}
	if k.Distance+s.LowestMetal() < k.Metal {
		c.Add("cooktop.distance", k.Distance, "mm", "at least "+c.In.Up(k.Metal-s.LowestMetal())+", to keep "+c.In.Up(k.Metal)+" to the insert, by the appliance maker's instructions", arc.ErrRange)
	}
}
