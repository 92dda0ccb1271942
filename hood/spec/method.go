package spec

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
)

// The methods of bending a panel, beside kerfs.
const (
	Laminate = "laminate"
	AsIs     = "as-is"
)

// wholeTol is how far plies may be off the board they make, mm: what a caliper
// does not tell, and what is rounded where their thickness is said.
const wholeTol = 0.02

// MaxPlies bounds the parts a spec can ask for.
const MaxPlies = 64

// Method returns how a panel is bent: laminate, as-is, or "" where it is kerfed or
// straight.
func (s Sizes) Method(w curve.Sweep) string {
	m := w.Method
	if m == "" {
		m = s.Bend.Method
	}
	if !w.Curved() || m == "kerf" {
		return ""
	}
	return m
}

// A panel is a sweep of the spec, and its JSON path.
type panel struct {
	curve.Sweep
	path string
}

// panels returns the front and the flared sides, each sweep once.
func (s Sizes) panels() []panel {
	out := []panel{{s.Sweep, "sweep"}}
	left, at := s.SweepOfLeft()
	right := s.RightEnds().Flared()
	if right {
		out = append(out, panel{s.SideSweep, "side_sweep"})
	}
	if s.LeftEnds().Flared() && !(right && at == "side_sweep") {
		out = append(out, panel{left, at})
	}
	return out
}

// Uses reports whether a panel is bent by a method.
func (s Sizes) Uses(method string) bool {
	for _, p := range s.panels() {
		if s.Method(p.Sweep) == method {
			return true
		}
	}
	return false
}

// kerfed reports whether a panel is kerfed.
func (s Sizes) kerfed() bool {
	for _, p := range s.panels() {
		if p.Curved() && s.Method(p.Sweep) == "" {
			return true
		}
	}
	return false
}

// PlyMaterial returns what plies, and a panel bent as it is, are made of.
func (s Sizes) PlyMaterial() (string, float64) {
	if p := s.Bend.Ply; p.Material != "" {
		return p.Material, Density(p.Material, p.Density)
	}
	rho := s.Bend.Ply.Density
	if rho == 0 {
		rho = s.Board.Density
	}
	return s.Board.Material, Density(s.Board.Material, rho)
}

// Plies returns how many plies make a panel, 0 where no whole number of two or
// more does.
func (s Sizes) Plies() int {
	n := math.Round(s.Board.Thickness / s.Bend.Ply.Thickness)
	if !(n >= 2 && n <= MaxPlies) || math.Abs(n*s.Bend.Ply.Thickness-s.Board.Thickness) > wholeTol {
		return 0
	}
	return int(n)
}

// MethodField names the key that sets the method of a panel.
func MethodField(w curve.Sweep, path string) string {
	if w.Method != "" {
		return path + ".method"
	}
	return "bend.method"
}

// checkMethods looks at what laminated panels and those bent as they are need.
func (s Sizes) checkMethods(c *Checker) {
	p := s.Bend.Ply
	if p.Material != "" {
		checkMaterial(c, "bend.ply", p.Material, p.Density)
	} else {
		c.notNegative("bend.ply.density", p.Density, "kg/m3")
	}
	thick := c.notNegative("bend.ply.thickness", p.Thickness, "mm") && s.Board.Thickness > 0
	checkSheets(c, "bend.ply.sheets", p.Sheets)
	c.notNegative("bend.trim", s.Bend.Trim, "mm")
	c.notNegative("bend.form.spacing", s.Bend.Form.Spacing, "mm")
	c.notNegative("bend.form.depth", s.Bend.Form.Depth, "mm")
	if s.Uses(Laminate) && thick && s.Plies() == 0 {
		c.Add("bend.ply.thickness", p.Thickness, "mm", s.nearestPly(), arc.ErrRange)
	}
	if s.Method(s.Sweep) == AsIs && s.Ribs.Spacing == 0 {
		c.Add("ribs.spacing", 0.0, "mm", "> 0, as a front bent as it is does not hold its curve without ribs", ErrPlace)
	}
	for _, p := range s.panels()[1:] {
		if s.Method(p.Sweep) == AsIs {
			c.Add(MethodField(p.Sweep, p.path), AsIs, "", "kerf or laminate for a flared side, as only the front has ribs to hold a panel bent as it is", ErrPlace)
		}
	}
	if s.LeftSweep.Shape == "" && s.LeftSweep.Method != "" {
		c.Add("left_sweep.method", s.LeftSweep.Method, "", "a left_sweep.shape, or to be left out", ErrPlace)
	}
	s.checkStrain(c)
}

// nearestPly says which ply thickness near the one asked makes the board's.
func (s Sizes) nearestPly() string {
	f, t := s.Format(), s.Board.Thickness
	n := 2.0
	if p := s.Bend.Ply.Thickness; p > 0 {
		n = max(2, min(math.Round(t/p), MaxPlies))
	}
	return fmt.Sprintf("%v %s, of which %.0f make the board's %s", f.Value(t/n), f.Unit, n, f.Length(t))
}

// checkStrain asks for a limit where none is known.
func (s Sizes) checkStrain(c *Checker) {
	if s.Bend.Strain != 0 || !s.Uses(Laminate) && !s.Uses(AsIs) {
		return
	}
	m, _ := s.PlyMaterial()
	for _, w := range []struct {
		method    string
		thickness float64
	}{{Laminate, s.Bend.Ply.Thickness}, {AsIs, s.Board.Thickness}} {
		if _, err := s.BendLimit(w.method, w.thickness); m != "" && s.Uses(w.method) && err != nil && w.thickness > 0 {
			c.Add("bend.strain", 0.0, "", fmt.Sprintf("the largest strain of %q at %s, for which no limit is known", m, c.In.Thin(w.thickness)), arc.ErrEmpty)
			return
		}
	}
}
