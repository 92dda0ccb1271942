package spec

import "strings"

// densities of panel products, kg/m³. MDF: 48 lb/ft³, within the 673 to 833
// that Cai, Muehl and Winandy made in the laboratory. The others are common
// practice, no source.
var densities = [...]struct {
	material string
	density  float64
}{
	{"mdf", 769},
	{"plywood", 600},
	{"birch plywood", 680},
	{"particleboard", 680},
	{"osb", 640},
	{"hardwood", 700},
	{"softwood", 500},
}

// densityOf returns the density of a material known by name.
func densityOf(material string) (float64, bool) {
	for _, d := range densities {
		if strings.EqualFold(d.material, material) {
			return d.density, true
		}
	}
	return 0, false
}

// Density returns the stated density, or that of the material.
func Density(material string, stated float64) float64 {
	if stated > 0 {
		return stated
	}
	d, _ := densityOf(material)
	return d
}

// Plywood reports whether a material is plywood by its name.
func Plywood(material string) bool { return strings.HasSuffix(strings.ToLower(material), "plywood") }
