package hood

import (
	"fmt"

	"example.com/sagitta/hood/spec"
)

// cautions returns the warnings of a design with their sources.
func cautions(s spec.Sizes, d Design) []Caution {
	out := append(clearance(s.Spec), weight(d)...)
	out = append(out, bendCautions(s)...)
	return append(out, []Caution{
		{"The wood of this surround is combustible. Keep it at least as far above the cooking surface as the appliance maker's instructions say; where they say nothing, 30 in (762 mm) to unprotected combustible material, and 24 in (610 mm) only under insulating millboard covered with sheet metal or a metal hood. The distance to the wood and the distance to the metal insert are two distances; the greatest minimum applies.", "Uniform Mechanical Code 1998, 906.1 (secondary); appliance maker's instructions; local code"},
		{"Under a broiler: a metal hood at least 0.0157 in thick, at least 1/4 in from combustible material and at least 24 in above the cooking surface.", "International Residential Code M1503.2.1"},
		{"Exhaust outdoors through a smooth, airtight, independent metal duct with a backdraft damper; a hood that exhausts more than 400 cfm (0.19 m³/s) needs make-up air.", "International Residential Code M1503.3 and M1503 (2015: M1503.4; later: M1503.6)"},
		{"State the hung mass, insert and blower included, to whoever fixes it to the wall. No code gives a count of anchors: fix into framing with a generous safety factor, and ask the builder's engineer where in doubt.", "common practice, no source"},
		{"Wood dust harms the lungs and can explode: collect it at the machine and wear a respirator. Limits: 15 mg/m³ total and 5 mg/m³ respirable over 8 hours; 1 mg/m³; hardwood 2 mg/m³.", "OSHA wood dust; NIOSH; Directive 2004/37/EC, Annex III"},
		{"Panels give off formaldehyde, more when cut and warmed. Buy panels that keep the limits (US: hardwood plywood 0.05 ppm, particleboard 0.09, MDF 0.11, thin MDF 0.13; EU from August 2026: 0.062 mg/m³) and seal every face and edge.", "Public Law 111-199; 40 CFR 770.10; Regulation (EU) 2023/1464"},
		{"Run every program in air above the sheet first, with a hand on the stop, and check each zero, cutter and clamp.", "common practice, no source"},
		{"These figures are geometry. They do not replace local codes, the appliance maker's instructions, or the judgment of licensed practice, and claim no compliance with any.", "common practice, no source"},
	}...)
}

// bendCautions returns what to mind where panels are laminated, or bent as they
// are.
func bendCautions(s spec.Sizes) []Caution {
	var out []Caution
	if s.Uses(spec.Laminate) {
		out = append(out,
			Caution{"Adhesives for bent laminations: follow the maker's safety data sheet, wear gloves and eye protection, air the shop, and take no glue whose bond creeps under load.", "common practice, no source"},
			Caution{"Clamps, straps and presses hold a bent pack under force: set them with hands clear and let them go in turns. Springback is by elastic theory, R·n²/(n²−1); glue up one trial panel before the rest.", "common practice, no source; springback derived from elastic bending of equal plies"})
	}
	if s.Uses(spec.AsIs) {
		out = append(out, Caution{"A panel bent as it is stores force and can break or fly off: wear eye protection, hold it with a helper, and let no one stand before it until it is fixed to its ribs.", "common practice, no source"})
	}
	return out
}

// Distances to combustible material above a cooking top, mm: Uniform Mechanical
// Code 1998, 906.1 (secondary): 30 in to unprotected material, 24 in under
// protection.
const (
	unprotected = 762.0
	protected   = 610.0
)

// clearance returns the warnings about the distance to the cooking surface.
func clearance(s Spec) []Caution {
	d := s.Cooktop.Distance
	if d == 0 {
		return []Caution{{"The distance from the cooking surface to this hood is not known. Measure it to the wood and to the metal insert, and hold both against the appliance maker's instructions before anything is hung.", "common practice, no source"}}
	}
	const source = "Uniform Mechanical Code 1998, 906.1 (secondary); appliance maker's instructions and local code come first"
	metal := fmt.Sprintf("The metal insert stands %.0f mm above the cooking surface.", d+s.Liner.Y)
	switch {
	case d < protected:
		return []Caution{{fmt.Sprintf("The bottom edge of this surround, combustible wood, stands %.0f mm above the cooking surface: less than 24 in (610 mm), nearer than even protected material may be. Do not hang it so. %s", d, metal), source}}
	case d < unprotected:
		return []Caution{{fmt.Sprintf("The bottom edge of this surround, combustible wood, stands %.0f mm above the cooking surface: between 24 in (610 mm) and 30 in (762 mm), where only material under insulating millboard and sheet metal, or a metal hood, may be. %s", d, metal), source}}
	}
	return []Caution{{fmt.Sprintf("The bottom edge of this surround stands %.0f mm above the cooking surface. %s Hold both against the appliance maker's instructions.", d, metal), source}}
}

// weight returns the warnings about mass and size.
func weight(d Design) []Caution {
	out := []Caution{{fmt.Sprintf("The wood of this hood is %.1f kg; insert, blower and duct come on top. Do not lift it alone.", d.Mass), "common practice, no source"}}
	if w := d.Spec.Doorway; w.Width > 0 && w.Height > 0 {
		if h, err := d.Hang(); err == nil && !h.Passes {
			out = append(out, Caution{fmt.Sprintf("Assembled, %.0f by %.0f by %.0f mm, it does not pass a doorway of %.0f by %.0f mm square on: glue it up on site or try it turned.", h.Size.X, h.Size.Z, h.Size.Y, w.Width, w.Height), "worked out from the sizes"})
		}
	}
	return out
}
