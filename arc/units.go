package arc

import (
	"math"
	"strconv"
	"strings"
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

// maxLengthText bounds what ParseLength looks at.
const maxLengthText = 64

// ParseLength reads a length and returns it in mm. It takes a number with a
// unit, "1050 mm", "12.5 cm", "1.2 m", "41 3/8 in", "3 ft 5 1/4 in", or with the
// marks of a tape, 5'-6 1/2"; a number without a unit, "41 3/8", is in the
// given unit. A whole number and its fraction may be joined by a hyphen, as
// on drawings. A sign may stand in front of the whole. Exponents, digit
// grouping and decimal commas are refused, since they can be misread.
func ParseLength(s string, unit Unit) (float64, error) {
	p := lengthText{rest: strings.TrimSpace(s)}
	mm, ok := p.length(unit)
	if !ok || len(s) > maxLengthText {
		if len(s) > maxLengthText {
			s = s[:maxLengthText]
		}
		return 0, &ParamError{"arc.ParseLength", "length", s, "", `a length such as 1050 mm, 41 3/8 in or 3 ft 5 1/4 in`, ErrSyntax}
	}
	return mm, nil
}

// lengthUnits lists the spellings, longer ones before their beginnings.
var lengthUnits = [...]struct {
	text string
	mm   float64
}{
	{"mm", Millimeter}, {"cm", 10}, {"meters", 1000}, {"meter", 1000}, {"m", 1000},
	{"inches", Inch}, {"inch", Inch}, {"in", Inch}, {`"`, Inch}, {"″", Inch},
	{"feet", Foot}, {"foot", Foot}, {"ft", Foot}, {"'", Foot}, {"′", Foot},
}

// lengthText is a text being read from the left.
type lengthText struct{ rest string }

func (p *lengthText) length(unit Unit) (float64, bool) {
	sign := 1.0
	if p.take("-") || p.take("−") {
		sign = -1
	} else {
		p.take("+")
	}
	q, ok := p.quantity()
	if !ok {
		return 0, false
	}
	if p.space(); p.rest == "" {
		return finiteLength(sign * q * unit.factor())
	}
	mm, ok := p.unit()
	if !ok {
		return 0, false
	}
	if p.space(); p.rest == "" {
		return finiteLength(sign * q * mm)
	}
	// Only inches can follow, and only feet can go before them. The sum is
	// taken in inches, where it is exact for fractions of a tape.
	p.take("-")
	in, ok := p.quantity()
	if !ok || mm != Foot {
		return 0, false
	}
	if mm, ok = p.unit(); !ok || mm != Inch {
		return 0, false
	}
	p.space()
	return finiteOrNot(sign*(q*12+in)*Inch, p.rest == "")
}

func finiteLength(mm float64) (float64, bool) { return finiteOrNot(mm, true) }

func finiteOrNot(mm float64, ok bool) (float64, bool) {
	return mm, ok && !math.IsInf(mm, 0) && !math.IsNaN(mm)
}

// quantity reads 41, 41.375, 3/8, 41 3/8 or 41-3/8.
func (p *lengthText) quantity() (float64, bool) {
	p.space()
	whole := p.digits()
	if whole == "" && !strings.HasPrefix(p.rest, ".") {
		return 0, false
	}
	if p.take("/") {
		return p.fraction(whole)
	}
	if p.take(".") {
		decimals := p.digits()
		if whole == "" && decimals == "" {
			return 0, false
		}
		v, err := strconv.ParseFloat(whole+"."+decimals, 64)
		return v, err == nil
	}
	v, err := strconv.ParseFloat(whole, 64)
	if err != nil {
		return 0, false
	}
	before := p.rest
	if p.space(); p.take("-") || before != p.rest {
		if over := p.digits(); over != "" && p.take("/") {
			f, ok := p.fraction(over)
			return v + f, ok && f < 1
		}
		p.rest = before // what follows belongs to something else
	}
	return v, true
}

// fraction reads what is under the line.
func (p *lengthText) fraction(over string) (float64, bool) {
	a, err1 := strconv.ParseFloat(over, 64)
	b, err2 := strconv.ParseFloat(p.digits(), 64)
	return a / b, err1 == nil && err2 == nil && b > 0
}

func (p *lengthText) unit() (mm float64, ok bool) {
	p.space()
	for _, u := range lengthUnits {
		if p.take(u.text) {
			// A letter right behind would make it another word.
			return u.mm, p.rest == "" || !isLetter(p.rest[0]) || !isLetter(u.text[0])
		}
	}
	return 0, false
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

func (p *lengthText) take(s string) bool {
	rest, ok := strings.CutPrefix(p.rest, s)
	p.rest = rest
	return ok
}

func (p *lengthText) space() { p.rest = strings.TrimLeft(p.rest, " \t") }

func (p *lengthText) digits() string {
	rest := strings.TrimLeft(p.rest, "0123456789")
	d := p.rest[:len(p.rest)-len(rest)]
	p.rest = rest
	return d
}

// FormatLength returns a length in mm as people read it: "1050.93 mm", to the
// nearest 0.01 mm, or "41 3/8 in", to the nearest 1/32 in. [ParseLength] reads
// it back.
func FormatLength(mm float64, unit Unit) string {
	if math.IsNaN(mm) || math.Abs(mm) > 1e12 {
		return strconv.FormatFloat(mm/unit.factor(), 'g', -1, 64) + " " + unit.String()
	}
	if unit != Inches {
		return strconv.FormatFloat(noMinusZero(math.Round(mm*100)/100), 'f', -1, 64) + " mm"
	}
	n := int64(math.Round(math.Abs(mm) / Inch * 32))
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

func noMinusZero(x float64) float64 {
	if x == 0 {
		return 0
	}
	return x
}
