package arc

import (
	"example.com/sagitta/internal/num"
	"math"
	"strconv"
)

// A Unit is a unit of length at the edges of a program, where people type and
// read; inside everything is in millimetres.
type Unit uint8

// The units people work in.
const (
	Millimeters Unit = iota
	Inches
)

// String returns "mm" or "in".
func (u Unit) String() string {
	if u == Inches {
		return "in"
	}
	return "mm"
}

// factor returns how many millimetres one of the unit is.
func (u Unit) factor() float64 {
	if u == Inches {
		return Inch
	}
	return Millimeter
}

// FormatLength returns a length in mm as people read it: "1050.93 mm", to the
// nearest 0.01 mm, or "41 3/8 in", to the nearest 1/32 in, halves and what is
// within a ten-thousandth of a step of one away from 0; beyond 1e12 mm every digit
// of the number. [ParseLength] reads back what it writes of any finite
// length.
func FormatLength(mm float64, unit Unit) string {
	if math.IsNaN(mm) || math.Abs(mm) > 1e12 {
		v := mm / unit.factor()
		if !math.IsInf(mm, 0) && math.IsInf(v*(1+0x1p-51)*unit.factor(), 0) {
			v *= 1 - 0x1p-51 // the largest numbers, in few digits, must not grow
		}
		return strconv.FormatFloat(v, 'f', -1, 64) + " " + unit.String()
	}
	if unit != Inches {
		return strconv.FormatFloat(num.Decimals(mm, 2), 'f', -1, 64) + " mm"
	}
	n := int64(num.Round(math.Abs(mm)/Inch*32, 1))
	out := ""
	if mm < 0 && n != 0 {
		out = "-"
	}
	over, under := n%32, int64(32)
	for over != 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	switch {
	case over == 0:
		return out + strconv.FormatInt(n/32, 10) + " in"
	case n >= 32:
		out += strconv.FormatInt(n/32, 10) + " "
	}
	return out + strconv.FormatInt(over, 10) + "/" + strconv.FormatInt(under, 10) + " in"
}
