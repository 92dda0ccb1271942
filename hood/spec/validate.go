package spec

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
)

// Validate returns every fault of the spec that can be seen without building
// it, as Faults, or nil. Faults of a field alone come first; how the fields
// fit together is looked at where they can be used at all.
func (spec Spec) Validate() error {
	c := &Checker{Func: "hood.Spec", In: spec.Format()}
	checkSag(spec.Sweep, c, "sweep") // as given: a curve too flat to show is taken to be straight
	checkSag(spec.SideSweep, c, "side_sweep")
	checkSag(spec.LeftSweep, c, "left_sweep")
	s := spec.Sizes()
	s.checkFields(c)
	switch {
	case c.Count() == 0:
		s.checkTogether(c)
	case c.clean("width", "height", "depth", "skirt", "neck", "sweep", "side_sweep", "left_sweep"):
		checkCurve(s.Sweep, c, "sweep", s.FrontEnds()) // needs these alone, so its faults are told beside others
		s.checkCurves(c)
	}
	return c.Err()
}

func (s Sizes) checkFields(c *Checker) {
	if need := NeedVersion(s.Version); s.Version != 0 && need != "" {
		c.Add("version", s.Version, "", need, arc.ErrRange)
	}
	s.checkBounds(c)
	s.checkFormat(c)
	s.checkSizes(c)
	checkSweep(s.Sweep, c, "sweep")
	checkSweep(s.SideSweep, c, "side_sweep")
	checkSweep(s.LeftSweep, c, "left_sweep")
	c.notNegative("chimney.height", s.Chimney.Height, "mm")
	c.notNegative("chimney.depth", s.Chimney.Depth, "mm")
	c.notNegative("chimney.width", s.Chimney.Width, "mm")
	if c.word("corner", s.Corner, "miter", "front-covers", "cheek-covers") && s.CornerJoint() != "miter" && !s.Plumb() {
		c.Add("corner", s.Corner, "", "miter, as a side is flared", ErrPlace)
	}
	s.checkBoard(c)
	s.Back.check(c)
	s.Liner.check(c)
	s.checkDuct(c)
	s.Bend.check(c, s.kerfed())
	s.checkMethods(c)
	s.checkCut(c)
	s.checkExtras(c)
}

// checkSizes looks at the sizes of the case, each alone and then together, so
// that a neck deeper than the hood is told beside any other fault.
func (s Sizes) checkSizes(c *Checker) {
	c.positive("width", s.Width, "mm")
	h := c.positive("height", s.Height, "mm")
	d := c.positive("depth", s.Depth, "mm")
	if c.notNegative("skirt", s.Skirt, "mm") && h {
		c.below("skirt", s.Skirt, s.Height, "the height")
	}
	if c.positive("neck.depth", s.Neck.Depth, "mm") && d {
		c.atMost("neck.depth", s.Neck.Depth, s.Depth, "the depth of the hood")
	}
	if c.notNegative("neck.width", s.Neck.Width, "mm") && s.Width > 0 {
		c.atMost("neck.width", s.Neck.Width, s.Width, "the width of the hood")
	}
	if c.finite("neck.offset", s.Neck.Offset, "mm") {
		most := math.Max(0, (s.Width-s.NeckWidth())/2)
		c.atMost("neck.offset", math.Abs(s.Neck.Offset), most, "half of what the neck is narrower than the hood")
	}
}

// checkSag asks a shape that has a sag for one.
func checkSag(w curve.Sweep, c *Checker, at string) {
	if w.TakesSag() && w.Sag == 0 {
		c.Add(at+".sag", w.Sag, "mm", "> 0, as a "+w.Name()+" has a sag; straight has none", arc.ErrRange)
	}
}

// mostStrain is what wood stands along the grain that is steamed and held by a
// strap (from memory); no panel comes near it.
const mostStrain = 0.3

func checkSweep(w curve.Sweep, c *Checker, at string) {
	shape := c.word(at+".shape", w.Shape, "straight", "cove", "bow", "ogee", "reverse-ogee", "ellipse", "points")
	c.word(at+".method", w.Method, "kerf", Laminate, AsIs)
	if c.notNegative(at+".sag", w.Sag, "mm") && shape && w.Sag != 0 && !w.TakesSag() {
		need := "0 or left out, as a " + w.Name() + " sweep has none"
		if w.Shape == "" {
			need = "0 or left out, as no shape is given"
		}
		c.Add(at+".sag", w.Sag, "mm", need, arc.ErrRange)
	}
	if shape && (w.Shape == "points") != (len(w.Points) > 0) {
		c.Add(at+".points", len(w.Points), "", "points where the shape is points, none else", arc.ErrRange)
	}
	for i, p := range w.Points {
		c.finite(fmt.Sprintf("%s.points[%d][0]", at, i), p[0], "mm")
		c.finite(fmt.Sprintf("%s.points[%d][1]", at, i), p[1], "mm")
	}
}

func (s Sizes) checkBoard(c *Checker) {
	checkMaterial(c, "board", s.Board.Material, s.Board.Density)
	c.word("board.grain", s.Board.Grain, "upright", "level", "any")
	if c.positive("board.thickness", s.Board.Thickness, "mm") {
		if s.Width > 0 {
			c.below("board.thickness", s.Board.Thickness, s.Width/4, "a quarter of the width")
		}
		if s.Neck.Depth > 0 {
			c.below("board.thickness", s.Board.Thickness, s.Neck.Depth, "the depth of the neck")
		}
	}
	checkSheets(c, "board.sheets", s.Board.Sheets)
	if s.Board.Thickness > 0 && s.Back.Rabbet > 0 {
		c.below("back.rabbet", s.Back.Rabbet, s.Board.Thickness, "the thickness of the sides")
	}
}

func checkMaterial(c *Checker, at, material string, density float64) {
	if material == "" {
		c.Add(at+".material", material, "", "a name", arc.ErrEmpty)
	} else if _, ok := densityOf(material); !ok && density == 0 {
		c.Add(at+".density", density, "kg/m3", fmt.Sprintf("the density of %q, which is not known by name", material), arc.ErrEmpty)
	}
	c.notNegative(at+".density", density, "kg/m3")
}

func checkSheets(c *Checker, at string, sheets []Sheet) {
	for i, s := range sheets {
		at := fmt.Sprintf("%s[%d]", at, i)
		c.positive(at+".length", s.Length, "mm")
		c.positive(at+".width", s.Width, "mm")
		if s.Count < 0 {
			c.Add(at+".count", s.Count, "", ">= 0", arc.ErrRange)
		}
		if math.IsNaN(s.Price) || math.IsInf(s.Price, 0) {
			c.Add(at+".price", s.Price, "", "a finite number", arc.ErrNotFinite)
		} else if s.Price < 0 {
			c.Add(at+".price", s.Price, "", ">= 0", arc.ErrRange)
		}
	}
}

func (b Back) check(c *Checker) {
	checkMaterial(c, "back", b.Material, b.Density)
	c.positive("back.thickness", b.Thickness, "mm")
	c.notNegative("back.rabbet", b.Rabbet, "mm")
	if c.notNegative("back.clearance", b.Clearance, "mm") && b.Clearance > 0 && b.Rabbet > 0 {
		c.below("back.clearance", b.Clearance, b.Rabbet, "the depth of the rabbets")
	}
	checkSheets(c, "back.sheets", b.Sheets)
	for i, o := range b.Openings {
		o.check(c, fmt.Sprintf("back.openings[%d]", i))
	}
}

func (o Opening) check(c *Checker, at string) {
	c.finite(at+".x", o.X, "mm")
	c.finite(at+".y", o.Y, "mm")
	if o.Shape == "" {
		c.Add(at+".shape", o.Shape, "", "circle or rectangle", ErrWord)
		return
	}
	if !c.word(at+".shape", o.Shape, "circle", "rectangle") {
		return
	}
	round, square := c.notNegative, c.positive
	if o.Shape == "circle" {
		round, square = square, round
	}
	round(at+".diameter", o.Diameter, "mm")
	square(at+".width", o.Width, "mm")
	square(at+".height", o.Height, "mm")
}

func (l Liner) check(c *Checker) {
	c.notNegative("liner.length", l.Length, "mm")
	c.notNegative("liner.width", l.Width, "mm")
	c.finite("liner.x", l.X, "mm")
	c.notNegative("liner.y", l.Y, "mm")
	c.notNegative("liner.drop", l.Drop, "mm")
	c.notNegative("liner.z", l.Z, "mm")
	if (l.Length > 0) != (l.Width > 0) {
		c.Add("liner", c.In.Size(l.Length, l.Width), "", "both sizes of the opening, or neither", arc.ErrRange)
	}
}

func (s Sizes) checkDuct(c *Checker) {
	c.notNegative("duct.diameter", s.Duct.Diameter, "mm")
	c.finite("duct.x", s.Duct.X, "mm")
	c.notNegative("duct.z", s.Duct.Z, "mm")
}

func (b Bend) check(c *Checker, kerfed bool) {
	c.word("bend.method", b.Method, "kerf", Laminate, AsIs)
	need := c.notNegative
	if kerfed {
		need = c.positive
	}
	need("bend.kerf_width", b.KerfWidth, "mm")
	need("bend.web", b.Web, "mm")
	need("bend.facet", b.Facet, "mm")
	if c.notNegative("bend.strain", b.Strain, "") && b.Strain > mostStrain {
		c.Add("bend.strain", b.Strain, "", "at most 0.3, as a ratio: 0.008 is 0.8 %", arc.ErrRange)
	}
	c.notNegative("bend.turn", b.Turn.Degrees(), "deg")
}

func (s Sizes) checkCut(c *Checker) {
	c.notNegative("cut.gap", s.Cut.Gap, "mm")
	c.notNegative("cut.margin", s.Cut.Margin, "mm")
	c.notNegative("cut.tool", s.Cut.Tool, "mm")
	c.notNegative("joint", s.Joint, "mm")
	if s.Board.Thickness > 0 && s.Bend.Web > 0 {
		c.below("bend.web", s.Bend.Web, s.Board.Thickness, "the thickness of the board")
	}
}
