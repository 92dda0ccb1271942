// Package say writes lengths, angles, masses and forces as people read them, so
// that everything a program prints speaks in one way: all metric or all inch,
// to the digits that a hand can work to, and without the noise of arithmetic.
package say

import (
	"example.com/sagitta/internal/num"
	"math"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
)

// A Format says in which units people read. The zero Format writes millimetres
// to 0.1 mm, kilograms and newtons.
type Format struct {
	Unit arc.Unit
	// Fraction is the finest part of an inch that is written, a power of two up
	// to 64: 32 means 1/32 in. 0 means 32.
	Fraction int
}

// The steps that lengths are written in, mm: what a rule shows, and what takes a
// gauge. Common practice, no source.
const (
	ruled  = 0.1
	gauged = 0.01
	mils   = 0.001 * arc.Inch
	// small is where limits are written in the finer step, mm.
	small = 10
)

func (f Format) inches() bool { return f.Unit == arc.Inches }

// Length writes a length in mm to 0.1 mm, or to the finest fraction of an inch:
// "1050.9 mm", "41 3/8 in".
func (f Format) Length(mm float64) string { return f.Bare(mm) + " " + f.Unit.String() }

// Bare is Length without the unit, for drawings that say it once.
func (f Format) Bare(mm float64) string {
	if !f.inches() || !finite(mm) {
		return digits(mm/f.millimeters(), 1)
	}
	parts := f.fraction()
	n := num.Round(math.Abs(mm)/arc.Inch*float64(parts), 1)
	if n > 1<<52 { // beyond what has fractions
		return digits(mm/arc.Inch, 0)
	}
	return mixed(mm < 0, int64(n), parts)
}

// Size writes the sides of something with the unit once: "820 × 290 mm".
func (f Format) Size(mm ...float64) string {
	out := make([]string, len(mm))
	for i, x := range mm {
		out[i] = f.Bare(x)
	}
	return strings.Join(out, " × ") + " " + f.Unit.String()
}

// Thin writes a small measure, which takes a gauge or a readout: a web, a facet,
// a kerf. It goes to 0.01 mm or 0.001 in.
func (f Format) Thin(mm float64) string {
	if f.inches() {
		return digits(mm/arc.Inch, 3) + " in"
	}
	return digits(mm, 2) + " mm"
}

// Gap is Thin for what stands open: "closed" where it would read as zero.
func (f Format) Gap(mm float64) string {
	if text := f.Thin(mm); !zero(text) {
		return text
	}
	return "closed"
}

// Place writes a place to be set on a readout or a stop and not to be stepped
// off: to 0.1 mm or 0.001 in.
func (f Format) Place(mm float64) string {
	if f.inches() {
		return strconv.FormatFloat(round(mm/arc.Inch, 3), 'f', 3, 64)
	}
	return strconv.FormatFloat(round(mm, 1), 'f', 1, 64)
}

// Value returns a length as the number it was given as in a file: in the unit,
// to four decimals, or to four digits where it is so small that these say little.
func (f Format) Value(mm float64) float64 {
	x := mm / f.millimeters()
	y := round(x, 4)
	if math.Abs(y-x) <= 1e-3*math.Abs(x) {
		return y
	}
	if z, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 4, 64), 64); err == nil {
		return z + 0 // no -0
	}
	return x
}

// Down writes a length that is at most mm, and not by more than a step: 0.1 mm
// or the finest fraction of an inch, below 10 mm 0.01 mm or 0.001 in.
func (f Format) Down(mm float64) string { return f.stepped(mm, math.Floor, 1e-9) }

// Up writes a length that is at least mm, as Down does.
func (f Format) Up(mm float64) string { return f.stepped(mm, math.Ceil, -1e-9) }

// stepped writes mm in whole steps; slack keeps what is a whole step but for
// rounding.
func (f Format) stepped(mm float64, whole func(float64) float64, slack float64) string {
	switch fine := math.Abs(mm) < small; {
	case fine && f.inches():
		return f.Thin(whole(mm/mils+slack) * mils)
	case fine:
		return f.Thin(whole(mm/gauged+slack) * gauged)
	case f.inches():
		step := arc.Inch / float64(f.fraction())
		return f.Length(whole(mm/step+slack) * step)
	}
	return f.Length(whole(mm/ruled+slack) * ruled)
}

// Mass writes a mass in kg to 0.1 kg, with pounds beside it where people read
// inches.
func (f Format) Mass(kg float64) string {
	if f.inches() {
		return digits(kg/pound, 1) + " lb (" + digits(kg, 1) + " kg)"
	}
	return digits(kg, 1) + " kg"
}

// The international pound, kg, and the standard acceleration of free fall, m/s².
const (
	pound   = 0.45359237
	gravity = 9.80665
)

// Force writes a force in N to 1 N, or to 1 lbf.
func (f Format) Force(n float64) string {
	if f.inches() {
		return digits(n/(pound*gravity), 0) + " lbf"
	}
	return digits(n, 0) + " N"
}

// Feed writes a rate in mm/min to 1 mm/min or 1 in/min.
func (f Format) Feed(rate float64) string {
	return digits(rate/f.millimeters(), 0) + " " + f.Unit.String() + "/min"
}

// Run writes a long way in mm, such as that of all cuts: in m or ft, to 0.1.
func (f Format) Run(mm float64) string {
	if f.inches() {
		return digits(mm/arc.Foot, 1) + " ft"
	}
	return digits(mm/1000, 1) + " m"
}

// Saw writes an angle to the 0.1° that a saw can be set to.
func Saw(a arc.Angle) string { return digits(a.Degrees(), 1) + "°" }

// Program writes an angle to the 0.01° of a program or a table.
func Program(a arc.Angle) string { return digits(a.Degrees(), 2) + "°" }

// Percent writes a share of 1 in percent, to so many digits.
func Percent(share float64, n int) string { return digits(100*share, n) + " %" }

func (f Format) millimeters() float64 {
	if f.inches() {
		return arc.Inch
	}
	return arc.Millimeter
}

func (f Format) fraction() int64 {
	switch f.Fraction {
	case 1, 2, 4, 8, 16, 64:
		return int64(f.Fraction)
	}
	return 32
}

// mixed writes n parts of an inch as a whole number and a fraction.
func mixed(negative bool, n, under int64) string {
	out := ""
	if negative && n != 0 {
		out = "-"
	}
	whole, over := n/under, n%under
	for over != 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	switch {
	case over == 0:
		return out + strconv.FormatInt(whole, 10)
	case whole > 0:
		out += strconv.FormatInt(whole, 10) + " "
	}
	return out + strconv.FormatInt(over, 10) + "/" + strconv.FormatInt(under, 10)
}

// digits writes a number to at most n decimals, without zeros at the end and
// without -0.
func digits(x float64, n int) string { return strconv.FormatFloat(round(x, n), 'f', -1, 64) }

func round(x float64, n int) float64 {
	return num.Decimals(x, n)
}

// zero tells whether a written measure is nothing.
func zero(text string) bool { return strings.HasPrefix(text, "0 ") }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
