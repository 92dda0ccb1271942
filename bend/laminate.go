package bend

import (
	"fmt"
	"math"

	"example.com/sagitta/arc"
)

// Pack says what is to be laminated.
type Pack struct {
	Thickness float64 // finished, mm, > 0
	Strain    float64 // largest of a ply at its faces, a ratio, > 0 and below 1
	ThinPly   float64 // thinnest ply that can be had, mm; zero sets no limit
	Width     float64 // of the part across the curve, mm; zero gives no glue area
	Length    float64 // of the part along the curve, mm; zero gives no glue area
	SawKerf   float64 // lost to every rip, mm; zero for plies that come as sheets
	Planing   float64 // taken off every ply after ripping, both faces together, mm
}

// A Lamination is a bent part glued up from equal plies.
type Lamination struct {
	Plies      int
	Ply        float64 // thickness of one, mm
	Strain     float64 // of the innermost ply, on the form
	FormRadius float64 // of the convex form that the inside of the pack is pressed to, mm
	Radius     float64 // of that inside after release, mm
	GlueArea   float64 // of all joints, mm²
	RipStock   float64 // thickness of solid stock the plies are ripped from one after another, mm
}

// maxPlies bounds the work a pack can ask for.
const maxPlies = 1000

// Laminate returns the fewest plies, at least two, that bend to a radius of
// the inside face, in mm, within the strain limit on the form.
//
// A ply of thickness t bent to R at its middle strains by t/(2R). When the
// clamps come off, a pack of n plies springs back: its curvature falls by 1/n²,
// so the middle of the pack is pressed to R(n² − 1)/n². Both follow from
// elastic bending of equal plies; creep and wet glue make less or more of it,
// and the form is to be tried before the part.
func Laminate(radius float64, p Pack) (Lamination, error) {
	const fn = "bend.Laminate"
	if err := first(needPositive(fn, "radius", radius, "mm"), p.check(fn)); err != nil {
		return Lamination{}, err
	}
	// The form is tighter than the part, so at least what the part needs.
	low := math.Max(2, math.Ceil(p.Thickness*(1-p.Strain)/(2*radius*p.Strain)*(1-slack)))
	for n := low; n <= maxPlies; n++ {
		l := p.plies(radius, int(n))
		if l.FormRadius <= 0 || l.Strain > p.Strain*(1+slack) {
			continue
		}
		if l.Ply < p.ThinPly {
			return Lamination{}, fault(fn, "Pack.ThinPly", p.ThinPly, "mm",
				fmt.Sprintf("at most %.4g mm: %d plies are needed", l.Ply*(1-1e-4), l.Plies), ErrTooTight)
		}
		return l, nil
	}
	return Lamination{}, fault(fn, "radius", radius, "mm",
		fmt.Sprintf("a larger one, a thinner pack or more strain: over %d plies are needed", maxPlies), ErrTooTight)
}

func (p Pack) check(fn string) error {
	err := first(
		needPositive(fn, "Pack.Thickness", p.Thickness, "mm"),
		needPositive(fn, "Pack.Strain", p.Strain, ""),
		needNotNegative(fn, "Pack.ThinPly", p.ThinPly, "mm"),
		needNotNegative(fn, "Pack.Width", p.Width, "mm"),
		needNotNegative(fn, "Pack.Length", p.Length, "mm"),
		needNotNegative(fn, "Pack.SawKerf", p.SawKerf, "mm"),
		needNotNegative(fn, "Pack.Planing", p.Planing, "mm"),
	)
	if err == nil && p.Strain >= 1 {
		return fault(fn, "Pack.Strain", p.Strain, "", "below 1", ErrRange)
	}
	return err
}

// plies works out a pack of n plies.
func (p Pack) plies(radius float64, n int) Lamination {
	ply, m := p.Thickness/float64(n), float64(n)
	middle := (radius + p.Thickness/2) * (m*m - 1) / (m * m)
	form := middle - p.Thickness/2
	return Lamination{
		Plies: n, Ply: ply, Radius: radius, FormRadius: form,
		Strain:   ply / (2*form + ply),
		GlueArea: (m - 1) * p.Width * p.Length,
		RipStock: m*(ply+p.Planing) + (m-1)*p.SawKerf,
	}
}

// PlyStrain returns the strain at the faces of a ply bent to a radius at its
// middle, t/(2R), both in mm.
func PlyStrain(ply, radius float64) (float64, error) {
	const fn = "bend.PlyStrain"
	err := first(needPositive(fn, "ply", ply, "mm"), needPositive(fn, "radius", radius, "mm"))
	if err == nil && radius < ply/2 {
		err = fault(fn, "radius", radius, "mm", fmt.Sprintf("at least half the ply, %.6g mm", ply/2), ErrRange)
	}
	if err != nil {
		return 0, err
	}
	return ply / (2 * radius), nil
}

// Springback returns the radius, in mm at its middle, of a pack of n >= 2
// plies after release from a form on which its middle had the given radius:
// R·n²/(n² − 1).
func Springback(radius float64, n int) (float64, error) {
	m, err := springback("bend.Springback", radius, n)
	return radius * m, err
}

// FormRadius returns the radius a pack of n >= 2 plies must be pressed to for
// a wanted one, both in mm at its middle: [Springback] undone.
func FormRadius(wanted float64, n int) (float64, error) {
	m, err := springback("bend.FormRadius", wanted, n)
	if err != nil {
		return 0, err
	}
	return wanted / m, nil
}

func springback(fn string, radius float64, n int) (float64, error) {
	if err := needPositive(fn, "radius", radius, "mm"); err != nil {
		return 0, err
	}
	if n < 2 {
		return 0, fault(fn, "n", n, "plies", "at least 2: a single one springs back straight", ErrRange)
	}
	m := float64(n)
	return m * m / (m*m - 1), nil
}

// insideRadius returns the least radius of the inside (concave) face of a
// board bent to the profile, +Inf where it is straight, and the segment where
// that is.
func insideRadius(profile arc.Path, thickness float64) (float64, int) {
	least, at := math.Inf(1), -1
	for i := range profile.NumSegments() {
		s := profile.Segment(i)
		if s.A == s.B || math.Abs(float64(s.Angle())) <= straightTurn {
			continue
		}
		r := s.Radius()
		if s.K > 0 {
			r -= thickness // the inside of a bow is its back
		}
		if r < least {
			least, at = r, i
		}
	}
	return least, at
}
