package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// A Mark tells how far a number can be trusted.
type Mark uint8

const (
	Unknown    Mark = iota // nobody said
	Published              // read in the source named
	FromMemory             // recalled from the source named, not read there
	Common                 // common practice, no source
	Measured               // by the caller
)

// String returns the mark in a word or two.
func (m Mark) String() string {
	switch m {
	case Published:
		return "published"
	case FromMemory:
		return "from memory"
	case Common:
		return "common practice"
	case Measured:
		return "measured"
	}
	return "unknown"
}

// A Grain is how the face grain of plywood lies in a bend.
type Grain uint8

const (
	GrainOnAxis  Grain = iota // along the axis of the bend: the sheet bends across its grain, the easy way
	GrainOnCurve              // around the curve: the sheet bends along its grain, the stiff way
)

// String returns where the face grain lies.
func (g Grain) String() string {
	if g == GrainOnAxis {
		return "face grain along the axis"
	}
	return "face grain around the curve"
}

// A RadiusTable is a published table of least radii for boards bent as they
// are. A table of one's own measurements can be made the same way.
type RadiusTable struct {
	Name   string
	Source string
	Mark   Mark
	Rows   []RadiusRow // by rising thickness
}

// A RadiusRow is a line of a [RadiusTable], in mm.
type RadiusRow struct {
	Thickness float64
	Plies     int     // zero where the source does not tell
	OnAxis    float64 // least radius with the face grain along the axis
	OnCurve   float64 // least radius with the face grain around the curve
}

// PlywoodTable returns the least radii of construction plywood bent dry,
// 1/4 to 3/4 in, published by APA, The Engineered Wood Association.
func PlywoodTable() RadiusTable {
	const in, ft = arc.Inch, arc.Foot
	return RadiusTable{
		Name: "APA plywood, bent dry", Source: "APA, The Engineered Wood Association: bending radii of plywood panels", Mark: Published,
		Rows: []RadiusRow{
			{1 * in / 4, 0, 2 * ft, 5 * ft},
			{5 * in / 16, 0, 2 * ft, 6 * ft},
			{3 * in / 8, 0, 3 * ft, 8 * ft},
			{1 * in / 2, 0, 6 * ft, 12 * ft},
			{5 * in / 8, 0, 8 * ft, 16 * ft},
			{3 * in / 4, 0, 12 * ft, 20 * ft},
		},
	}
}

// AircraftPlywoodTable returns the least radii of aircraft plywood at 10 %
// moisture on cold mandrels, .035 to .375 in, of FAA AC 43.13-1B. The source
// gives the larger radius for the mandrel at 90 degrees to the face grain,
// which is then around the curve, and the smaller for 0 to 45 degrees.
func AircraftPlywoodTable() RadiusTable {
	const in = arc.Inch
	return RadiusTable{
		Name: "FAA aircraft plywood, cold mandrels", Source: "FAA AC 43.13-1B, bend radii of aircraft plywood at 10 % moisture content", Mark: Published,
		Rows: []RadiusRow{
			{.035 * in, 3, 1.1 * in, 2.0 * in},
			{.070 * in, 3, 3.2 * in, 5.2 * in},
			{.125 * in, 3, 7.1 * in, 12.0 * in},
			{.160 * in, 5, 11 * in, 17 * in},
			{.250 * in, 5, 20 * in, 31 * in},
			{.375 * in, 5, 36 * in, 54 * in},
		},
	}
}

// LaminationTable returns the least inside radii of solid laminations bent
// dry, 1/4 to 1 1/2 in, as one glued-laminated timber plant publishes them.
// The grain of a lamination runs around the curve; the other column is empty.
func LaminationTable() RadiusTable {
	const in, ft = arc.Inch, arc.Foot
	nan := math.NaN()
	return RadiusTable{
		Name: "solid laminations, bent dry", Source: "glued-laminated timber practice of one plant, inside radii", Mark: Published,
		Rows: []RadiusRow{
			{1 * in / 4, 0, nan, 3 * ft},
			{1 * in / 2, 0, nan, 5 * ft},
			{3 * in / 4, 0, nan, 7 * ft},
			{3 * in / 2, 0, nan, 20 * ft},
		},
	}
}

// Radius returns the least radius in mm for a thickness: linear in the
// thickness between two neighbouring rows of the same number of plies, the
// thicker row's where the numbers differ. Outside the table, and where the
// source is silent, the error is ErrOutside: a table is never stretched.
func (t RadiusTable) Radius(thickness float64, g Grain) (float64, error) {
	const fn = "bend.RadiusTable.Radius"
	if err := needPositive(fn, "thickness", thickness, "mm"); err != nil {
		return 0, err
	}
	for i, row := range t.Rows {
		// Sheets are told in inches and fractions, so equal is to rounding.
		if thickness > row.Thickness*(1+slack) {
			continue
		}
		r := row.radius(g)
		if i > 0 && t.Rows[i-1].Plies == row.Plies {
			prev := t.Rows[i-1]
			u := math.Min(1, (thickness-prev.Thickness)/(row.Thickness-prev.Thickness))
			r = prev.radius(g) + u*(r-prev.radius(g))
		} else if i == 0 && thickness < row.Thickness*(1-slack) {
			break
		}
		if math.IsNaN(r) {
			return 0, fault(fn, "grain", g.String(), "", "the other way: "+t.Name+" is silent on it", ErrOutside)
		}
		return r, nil
	}
	if len(t.Rows) == 0 {
		return 0, fault(fn, "rows", 0, "", "at least 1", ErrOutside)
	}
	return 0, fault(fn, "thickness", thickness, "mm",
		fmt.Sprintf("%.6g to %.6g mm (%s)", t.Rows[0].Thickness, t.Rows[len(t.Rows)-1].Thickness, t.Name), ErrOutside)
}

func (r RadiusRow) radius(g Grain) float64 {
	if g == GrainOnAxis {
		return r.OnAxis
	}
	return r.OnCurve
}

// CurvatureFactor returns the factor on the bending strength of glued
// laminations of a thickness bent to a radius of the inside face, both in mm:
// 1 − 2000(t/R)² (National Design Specification for Wood Construction, from a
// secondary source). The error is ErrOutside where t/R exceeds 1/100, the
// limit of that specification for hardwoods and southern pine; for other
// softwoods it is 1/125 (both limits from memory).
func CurvatureFactor(thickness, radius float64) (float64, error) {
	const fn = "bend.CurvatureFactor"
	if err := first(needPositive(fn, "thickness", thickness, "mm"), needPositive(fn, "radius", radius, "mm")); err != nil {
		return 0, err
	}
	q := thickness / radius
	if q > 0.01*(1+slack) {
		return 0, fault(fn, "radius", radius, "mm", fmt.Sprintf("at least %.6g mm, 100 times the thickness", 100*thickness), ErrOutside)
	}
	return 1 - 2000*q*q, nil
}
