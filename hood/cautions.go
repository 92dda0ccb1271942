package hood

import (
	"example.com/sagitta/hood/internal/proof"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/say"
	"example.com/sagitta/hood/spec"
)

// premiumGap is a hollow that needs no word, mm.
const premiumGap = 0.3

const practice = "common practice, no source"

// cautions returns the warnings of a design with their sources. What a spec
// does not tell is not asserted.
func cautions(s spec.Sizes, d Design) []Caution {
	in := s.Format()
	out := append(clearance(s.Spec), weight(d)...)
	out = append(out, bendCautions(d)...)
	out = append(out, Caution{"The wood of this surround is combustible. Keep it at least as far above the cooking surface as the appliance maker's instructions say; where they say nothing, " +
		least(in, unprotected) + " to unprotected combustible material, and " + least(in, protected) +
		" only under insulating millboard covered with sheet metal or a metal hood. The distance to the wood and the distance to the lowest metal are two distances; the greatest minimum applies.",
		"Uniform Mechanical Code 1998, 906.1 (secondary); appliance maker's instructions; local code", true})
	if s.Liner.Length > 0 {
		out = append(out, Caution{"Under a broiler: a metal hood at least " + in.Thin(broilerMetal) + " thick, at least " + in.Length(broilerGap) + " from combustible material and at least " + least(in, protected) + " above the cooking surface.", "International Residential Code M1503.2.1", true})
	}
	return append(out, []Caution{
		{"Exhaust outdoors through a smooth, airtight, independent metal duct with a backdraft damper; in the United States a hood that exhausts more than " + airflow(s.Spec) + " needs make-up air.", "International Residential Code M1503.3 and M1503 (2015: M1503.4; later: M1503.6)", true},
		{"State the hung mass, with blower and whatever else hangs in it, to whoever fixes it to the wall. No code gives a count of anchors: fix into framing with a generous safety factor, and ask the builder's engineer where in doubt.", practice, false},
		{"Wood dust harms the lungs and can explode: collect it at the machine and wear a respirator. Limits over 8 hours: in the United States OSHA allows 15 mg/m³ of total and 5 mg/m³ of respirable dust, and NIOSH recommends 1 mg/m³; in the European Union 2 mg/m³ of hardwood dust.", "OSHA, 29 CFR 1910.1000; NIOSH; Directive 2004/37/EC, Annex III", false},
		{"Panels give off formaldehyde, more when cut and warmed. Ask the seller which limits a panel keeps (US: hardwood plywood 0.05 ppm, particleboard 0.09, MDF 0.11, thin MDF 0.13; EU from August 2026: 0.062 mg/m³), and seal every face and edge.", "Public Law 111-199; 40 CFR 770.10; Regulation (EU) 2023/1464", false},
		{"Run every program in air above the sheet first, with a hand on the stop, and check each zero, cutter and clamp.", practice, false},
		{"These figures are geometry. They do not replace local codes, the appliance maker's instructions, or the judgment of licensed practice, and claim no compliance with any.", practice, true},
	}...)
}

// What the International Residential Code asks of a metal hood under a broiler,
// mm: 0.0157 in thick, 1/4 in clear.
const (
	broilerMetal = 0.0157 * 25.4
	broilerGap   = 6.35
)

// airflow is 400 cfm, in what people read.
func airflow(s Spec) string {
	if s.Units == "in" {
		return "400 ft³/min"
	}
	return "0.19 m³/s"
}

// bendCautions returns what to mind where panels are kerfed, laminated, or bent
// as they are.
func bendCautions(d Design) []Caution {
	s := d.Spec.Sizes()
	in := s.Format()
	var out []Caution
	if slices.ContainsFunc(d.Parts, func(p Part) bool { return len(p.Kerfs) > 0 }) {
		out = append(out,
			Caution{"A kerfed panel holds by its web alone: it snaps in handling. Carry it flat and supported along its whole length, do not turn it over by its ends, and wear eye protection while it is bent.", practice, false},
			Caution{"Kerfs left open stay weak: fill them, or glue a backing over them, before the panel carries anything. Screws go into the lands between kerfs only, and nothing is hung from the web.", practice, false})
	}
	for _, c := range d.Checks {
		if strings.HasSuffix(c.Name, proof.OpenBehind) && c.Value > premiumGap {
			out = append(out, Caution{"The bevel runs into kerfs, which bend it: " + c.Name + " by up to " + in.Thin(c.Value) + ". Fill it with thickened epoxy as it is set, or glue a strip behind it; glue that does not fill gaps holds nothing there.", "worked out from the bent panel", false})
		}
	}
	if s.Bend.Strain == 0 && slices.ContainsFunc(d.Parts, func(p Part) bool { return len(p.Kerfs) > 0 }) {
		most := 0.0
		for _, c := range []Curve{d.Front, d.Left.Curve, d.Right.Curve} {
			most = max(most, c.Kerfs.Strain)
		}
		out = append(out, Caution{fmt.Sprintf("No limit is set for the strain of the webs under kerfs (bend.strain is 0). It comes to %.2f %%; wood panels break at about 1 %%, and half of that is a place to start. Bend a test strip first.", 100*most), "MDF: bending strength over stiffness, from memory; the share " + practice, false})
	}
	if b := s.Board; spec.Plywood(b.Material) && b.Grain != "" && b.Grain != "upright" && slices.ContainsFunc(d.Parts, func(p Part) bool { return len(p.Kerfs) > 0 }) {
		out = append(out, Caution{"board.grain turns the fibers of the face: kerfs along them split the web under them. Bend a test strip of this very sheet first.", practice, false})
	}
	if s.Uses(spec.Laminate) {
		out = append(out,
			Caution{"Adhesives for bent laminations: follow the maker's safety data sheet, wear gloves and eye protection, air the shop, and take no glue whose bond creeps under load.", practice, false},
			Caution{"Clamps, straps and presses hold a bent pack under force: set them with hands clear and let them go in turns. Springback is by elastic theory, R·n²/(n²−1); glue up one trial panel before the rest.", practice + "; springback derived from elastic bending of equal plies", false})
	}
	if s.Uses(spec.AsIs) {
		out = append(out, Caution{"A panel bent as it is stores force and can break or fly off: wear eye protection, hold it with a helper, and let no one stand before it until it is fixed to its ribs.", practice, false})
	}
	return out
}

// Distances to combustible material above a cooking top, mm: Uniform Mechanical
// Code 1998, 906.1 (secondary): 30 in to unprotected material, 24 in under
// protection.
const (
	unprotected = 30 * arc.Inch
	protected   = 24 * arc.Inch
)

// least writes a least distance of a code given in inches, to whole mm.
func least(in say.Format, mm float64) string {
	if in.Unit == arc.Inches {
		return in.Length(mm)
	}
	return in.Length(math.Ceil(mm))
}

// metalSays tells how near the metal comes, as far as that is known.
func metalSays(s Spec) string {
	if s.Liner.Length == 0 {
		return "No insert is in this design: measure to the lowest metal of what is put in."
	}
	at := s.Format().Length(s.Cooktop.Distance + s.LowestMetal())
	if s.Liner.Drop > 0 {
		return "The lowest metal of the insert stands " + at + " above the cooking surface."
	}
	return "The underside of the shelf for the metal insert stands " + at + " above the cooking surface: metal that hangs lower is nearer; measure to the lowest."
}

// clearance returns the warnings about the distance to the cooking surface.
func clearance(s Spec) []Caution {
	d, in := s.Cooktop.Distance, s.Format()
	if d == 0 {
		return []Caution{{"The distance from the cooking surface to this hood is not known. Measure it to the wood and to the lowest metal, and hold both against the appliance maker's instructions before anything is hung.", practice, true}}
	}
	const source = "Uniform Mechanical Code 1998, 906.1 (secondary); appliance maker's instructions and local code come first"
	stands := " of this surround, combustible wood, stands " + in.Length(d) + " above the cooking surface: "
	switch {
	case d < protected:
		return []Caution{{"The bottom edge" + stands + "less than " + least(in, protected) + ", nearer than even protected material may be. Do not hang it so. " + metalSays(s), source, true}}
	case d < unprotected:
		return []Caution{{"The bottom edge" + stands + "between " + least(in, protected) + " and " + least(in, unprotected) + ", where only material under insulating millboard and sheet metal, or a metal hood, may be. " + metalSays(s), source, true}}
	}
	return []Caution{{"The bottom edge of this surround stands " + in.Length(d) + " above the cooking surface. " + metalSays(s) + " Hold both against the appliance maker's instructions.", source, true}}
}

// weight returns the warnings about mass and size.
func weight(d Design) []Caution {
	s := d.Spec
	in, on := s.Format(), "blower and duct"
	if s.Liner.Length > 0 {
		on = "insert, blower and duct"
	}
	out := []Caution{{"The wood of this hood is " + in.Mass(d.Mass) + "; " + on + " come on top. Do not lift it alone.", practice, true}}
	if s.Doorway.Width > 0 && s.Doorway.Height > 0 {
		if h, err := d.Hang(); err == nil && !h.Passes {
			out = append(out, Caution{"Assembled, " + in.Size(h.Size.X, h.Size.Z, h.Size.Y) + ", it does not pass a doorway of " + in.Size(s.Doorway.Width, s.Doorway.Height) + " square on: glue it up on site or try it turned.", "worked out from the sizes", false})
		}
	}
	return out
}
