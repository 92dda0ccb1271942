package hood

import "fmt"

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
