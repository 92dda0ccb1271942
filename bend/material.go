package bend

import (
	"fmt"
	"math"
)

// A Property is a range of values of a material, with where it is from.
// The zero Property is not known.
type Property struct {
	Low, High float64
	Unit      string
	Mark      Mark
	Source    string
}

// Given returns the property with one measured value.
func Given(v float64, unit string) Property {
	return Property{v, v, unit, Measured, "given by the caller"}
}

// Known reports whether there is a value.
func (p Property) Known() bool { return p.Mark != Unknown }

// A Material is a board or a wood.
type Material struct {
	Name     string
	Density  Property // kg/m³
	Modulus  Property // of elasticity in bending, N/mm²
	Strength Property // modulus of rupture, N/mm²
	Bond     Property // internal bond of a panel, N/mm²
}

// StrainLimit returns the strain a web or ply may take: a factor times the
// lowest strength over the highest modulus. The factor, above 0 and at most 1,
// is the caller's choice of safety; 0.8 gives 0.008 for MDF. Where strength or
// modulus is not known the error says so; measure them and set them.
//
// The ratio is the strain at failure of an elastic material. Boards creep and
// webs cut near a face are not the board's middle: a test strip decides.
func (m Material) StrainLimit(factor float64) (float64, error) {
	const fn = "bend.Material.StrainLimit"
	if err := needPositive(fn, "factor", factor, ""); err != nil {
		return 0, err
	}
	if factor > 1 {
		return 0, fault(fn, "factor", factor, "", "at most 1", ErrRange)
	}
	for _, p := range []struct {
		name string
		v    Property
	}{{"Material.Strength", m.Strength}, {"Material.Modulus", m.Modulus}} {
		if !(p.v.Low >= smallest && p.v.High >= p.v.Low && p.v.High <= largest) {
			return 0, fault(fn, p.name, fmt.Sprintf("%g to %g", p.v.Low, p.v.High), "N/mm²",
				"a measured range above 0 for "+m.Name, ErrRange)
		}
	}
	return factor * m.Strength.Low / m.Modulus.High, nil
}

// Materials returns the table of materials, in a fixed order. A property that
// no source gives is left unknown.
func Materials() []Material {
	const (
		ansi   = "ANSI A208.2-2009, Table 2"
		forest = "Wood Handbook, FPL-GTR-190, Table 12-3"
	)
	// Made at three densities in a laboratory: 673, 769 and 833 kg/m³.
	mdf := Property{673, 833, "kg/m³", Published, "Cai, Muehl and Winandy, properties of MDF panels made in a laboratory"}
	ms := []Material{
		{
			Name: "mdf", Density: mdf,
			Modulus:  Property{2400, 2400, "N/mm²", Published, "ANSI A208.2, grade 130, from a secondary source"},
			Strength: Property{24, 24, "N/mm²", FromMemory, "ANSI A208.2, grade 130"},
		},
		thinMDF("mdf-210", 18.9, 0.32, mdf, ansi),
		thinMDF("mdf-220", 28.9, 0.54, mdf, ansi),
		thinMDF("mdf-230", 28.9, 0.90, mdf, ansi),
		{
			Name:     "osb",
			Density:  Property{510, 800, "kg/m³", Published, forest + " (specific gravity 0.51 to 0.80)"},
			Modulus:  Property{4410, 6310, "N/mm²", Published, forest},
			Strength: Property{21.8, 34.7, "N/mm²", Published, forest},
		},
	}
	return append(ms, woods()...)
}

func thinMDF(name string, rupture, bond float64, density Property, source string) Material {
	return Material{
		Name: name, Density: density,
		Strength: Property{rupture, rupture, "N/mm²", Published, source},
		Bond:     Property{bond, bond, "N/mm²", Published, source},
	}
}

// woods returns clear, straight-grained wood at 12 % moisture. The averages
// are recalled; a piece may be a quarter weaker.
func woods() []Material {
	const source = "Wood Handbook, FPL-GTR-190, Table 5-3a, averages at 12 % moisture"
	prop := func(v float64, unit string) Property { return Property{v, v, unit, FromMemory, source} }
	wood := func(name string, gravity, modulus, rupture float64) Material {
		return Material{
			Name: name,
			// Specific gravity is on oven-dry mass; at 12 % moisture there is 12 % more.
			Density:  prop(math.Round(gravity*1120), "kg/m³"),
			Modulus:  prop(modulus, "N/mm²"),
			Strength: prop(rupture, "N/mm²"),
		}
	}
	return []Material{
		wood("ash-white", 0.60, 12000, 103),
		wood("maple-sugar", 0.63, 12600, 109),
		wood("oak-red", 0.63, 12500, 99),
		wood("oak-white", 0.68, 12300, 105),
		wood("walnut-black", 0.55, 11600, 101),
		wood("yellow-poplar", 0.42, 10900, 70),
		wood("pine-eastern-white", 0.35, 8500, 59),
	}
}

// LookUp returns the material of a name in [Materials].
func LookUp(name string) (Material, error) {
	for _, m := range Materials() {
		if m.Name == name {
			return m, nil
		}
	}
	return Material{}, fault("bend.LookUp", "name", name, "", "the name of a material in the table", ErrOutside)
}
