package hood

import (
	"fmt"
	"math"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/bend"
)

// Ways to bend a panel.
const (
	laminate = "laminate"
	asIs     = "as-is"
)

// maxPlies bounds the parts a spec can ask for.
const maxPlies = 64

// safety is the share of the strain at failure that a ply or a panel may be
// bent to: it gives 0.008 for MDF. Common practice, no source.
const safety = 0.8

// way returns how a panel is bent: laminate, as-is, or "" where it is kerfed or
// straight.
func (s Spec) way(w Sweep) string {
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
	Sweep
	path string
}

// panels returns the front and the flared sides, each sweep once.
func (s Spec) panels() []panel {
	out := []panel{{s.Sweep, "sweep"}}
	left, at := s.leftSweep()
	right := s.rightEnds().Flared()
	if right {
		out = append(out, panel{s.SideSweep, "side_sweep"})
	}
	if s.leftEnds().Flared() && !(right && at == "side_sweep") {
		out = append(out, panel{left, at})
	}
	return out
}

// uses reports whether a panel is bent in a way.
func (s Spec) uses(way string) bool {
	for _, p := range s.panels() {
		if s.way(p.Sweep) == way {
			return true
		}
	}
	return false
}

// kerfed reports whether a panel is kerfed.
func (s Spec) kerfed() bool {
	for _, p := range s.panels() {
		if p.Curved() && s.way(p.Sweep) == "" {
			return true
		}
	}
	return false
}

// plyMaterial returns what plies, and a panel bent as it is, are made of.
func (s Spec) plyMaterial() (string, float64) {
	if p := s.Bend.Ply; p.Material != "" {
		return p.Material, density(p.Material, p.Density)
	}
	rho := s.Bend.Ply.Density
	if rho == 0 {
		rho = s.Board.Density
	}
	return s.Board.Material, density(s.Board.Material, rho)
}

// plies returns how many plies make a panel, 0 where no whole number of two or
// more does.
func (s Spec) plies() int {
	n := math.Round(s.Board.Thickness / s.Bend.Ply.Thickness)
	if !(n >= 2 && n <= maxPlies) || math.Abs(n*s.Bend.Ply.Thickness-s.Board.Thickness) > rounding {
		return 0
	}
	return int(n)
}

// methodField names the key that sets the way of a panel.
func methodField(w Sweep, path string) string {
	if w.Method != "" {
		return path + ".method"
	}
	return "bend.method"
}

// checkWays looks at what laminated panels and those bent as they are need.
func (s Spec) checkWays(c *checker) {
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
	if s.uses(laminate) && thick && s.plies() == 0 {
		c.add("bend.ply.thickness", p.Thickness, "mm", s.nearestPly(), arc.ErrRange)
	}
	if s.way(s.Sweep) == asIs && s.Ribs.Spacing == 0 {
		c.add("ribs.spacing", 0.0, "mm", "> 0, as a front bent as it is does not hold its curve without ribs", ErrPlace)
	}
	for _, p := range s.panels()[1:] {
		if s.way(p.Sweep) == asIs {
			c.add(methodField(p.Sweep, p.path), asIs, "", "kerf or laminate for a flared side, as only the front has ribs to hold a panel bent as it is", ErrPlace)
		}
	}
	if s.LeftSweep.Shape == "" && s.LeftSweep.Method != "" {
		c.add("left_sweep.method", s.LeftSweep.Method, "", "a left_sweep.shape, or to be left out", ErrPlace)
	}
	s.checkStrain(c)
}

// nearestPly says which ply thickness near the one asked makes the board's.
func (s Spec) nearestPly() string {
	t := s.Board.Thickness
	n := 2.0
	if p := s.Bend.Ply.Thickness; p > 0 {
		n = max(2, min(math.Round(t/p), maxPlies))
	}
	return fmt.Sprintf("%.6g mm, of which %.0f make the board's %.6g mm", t/n, n, t)
}

// checkStrain asks for a limit where none is known.
func (s Spec) checkStrain(c *checker) {
	if s.Bend.Strain != 0 || !s.uses(laminate) && !s.uses(asIs) {
		return
	}
	m, _ := s.plyMaterial()
	for _, w := range []struct {
		way       string
		thickness float64
	}{{laminate, s.Bend.Ply.Thickness}, {asIs, s.Board.Thickness}} {
		if _, err := s.stands(w.way, w.thickness); m != "" && s.uses(w.way) && err != nil && w.thickness > 0 {
			c.add("bend.strain", 0.0, "", fmt.Sprintf("the largest strain of %q at %.6g mm, for which no limit is known", m, w.thickness), arc.ErrEmpty)
			return
		}
	}
}

// A stand is what a sheet stands in bending: a strain at its faces, or a least
// radius of its inside face where that is published.
type stand struct {
	strain, radius float64
	source         string
}

// stands returns what a sheet of a thickness stands. A published radius comes
// first for a panel bent as it is, a strain that the spec gives for plies.
func (s Spec) stands(way string, thickness float64) (stand, error) {
	m, _ := s.plyMaterial()
	table := bend.PlywoodTable()
	radius, err := table.Radius(thickness, bend.GrainOnAxis)
	published := err == nil && plywood(m)
	switch {
	case published && (way == asIs || s.Bend.Strain == 0):
		return stand{radius: radius, source: table.Source}, nil
	case s.Bend.Strain > 0:
		return stand{strain: s.Bend.Strain, source: "bend.strain"}, nil
	}
	known, err := bend.LookUp(strings.ToLower(m))
	if err != nil {
		return stand{}, err
	}
	limit, err := known.StrainLimit(safety)
	return stand{strain: limit, source: "strength over modulus of " + known.Name}, err
}

// plywood reports whether a material is plywood by its name.
func plywood(material string) bool { return strings.HasSuffix(strings.ToLower(material), "plywood") }

// use returns the share used of what a sheet stands where it is bent with an
// inside radius.
func (s stand) use(thickness, inside float64) float64 {
	switch {
	case inside <= 0:
		return math.Inf(1)
	case s.radius > 0:
		return s.radius / inside
	}
	return thickness / (2*inside + thickness) / s.strain
}

// least returns the least inside radius it stands.
func (s stand) least(thickness float64) float64 {
	if s.radius > 0 {
		return s.radius
	}
	return thickness / 2 * (1/s.strain - 1)
}
