package arc

import (
	"math"
	"math/big"
	"strings"
	"unicode/utf8"
)

// maxLengthText bounds what ParseLength looks at: any float64 written out in
// full fits.
const maxLengthText = 400

// ParseLength reads a length as people type it and returns it in mm, rounded
// once: 3/8" is 9.525 to the last bit. The rule:
//
//   - A quantity is a whole number, a decimal, a fraction or a whole number and a
//     fraction: 41, 41.375, 3/8, 3⁄8, ⅜, 41 3/8, 41-3/8, 41⅜. A hyphen in it has
//     no space beside it, and a fraction behind a whole number is below one.
//   - A length is a quantity and its unit, or a quantity alone, which is in the
//     given unit, or feet and inches, each with its unit: 3 ft 5 1/4 in, 5'-6", with
//     a hyphen between them only where it has a space on both sides or on none.
//     A second number without a unit, 5'6, is refused, as it can be misread.
//   - Units are mm, cm, m, in, ft and their full names in either spelling, in
//     upper or lower case, in. and ft. with a stop too; ' ’ ′ for feet, and
//     " ” ″ or two of the marks for feet for inches.
//   - A sign may stand in front of the whole only. Spaces may be no-break ones.
//   - Exponents, digit grouping and decimal commas are refused, since they can
//     be misread; see [ParseLengthComma].
func ParseLength(s string, unit Unit) (float64, error) {
	return parseLength("arc.ParseLength", s, unit, ".")
}

// ParseLengthComma reads as [ParseLength] does, with a comma where that has a
// decimal point, which is refused.
func ParseLengthComma(s string, unit Unit) (float64, error) {
	return parseLength("arc.ParseLengthComma", s, unit, ",")
}

func parseLength(fn, s string, unit Unit, point string) (float64, error) {
	if len(s) <= maxLengthText {
		p := lengthText{strings.Trim(s, lengthSpaces), point}
		if mm, ok := p.length(unit); ok {
			if f, _ := mm.Float64(); !math.IsInf(f, 0) {
				return f, nil
			}
		}
	}
	return 0, &ParamError{fn, "length", s[:min(len(s), 64)], "", "a length such as 1050 mm, 41 3/8 in or 3 ft 5 1/4 in", ErrSyntax}
}

// lengthSpaces are the spaces that may stand in a length: common, tab, no-break,
// figure, thin and narrow no-break.
const lengthSpaces = " \t\u00a0\u2007\u2009\u202f"

// lengthUnits lists the spellings, longer ones before their beginnings, with
// tenths of a millimeter, in which all of them are whole.
var lengthUnits = [...]struct {
	text   string
	tenths int64
}{
	{"millimeters", 10}, {"millimetres", 10}, {"millimeter", 10}, {"millimetre", 10}, {"mm", 10},
	{"centimeters", 100}, {"centimetres", 100}, {"centimeter", 100}, {"centimetre", 100}, {"cm", 100},
	{"meters", 10000}, {"metres", 10000}, {"meter", 10000}, {"metre", 10000}, {"m", 10000},
	{"inches", 254}, {"inch", 254}, {"in.", 254}, {"in", 254},
	{"feet", 3048}, {"foot", 3048}, {"ft.", 3048}, {"ft", 3048},
	{`"`, 254}, {"″", 254}, {"”", 254}, {"''", 254}, {"′′", 254}, {"’’", 254}, {"'", 3048}, {"′", 3048}, {"’", 3048},
}

// vulgar are the fractions that have a sign of their own.
var vulgar = map[rune][2]int64{
	'¼': {1, 4}, '½': {1, 2}, '¾': {3, 4}, '⅐': {1, 7}, '⅑': {1, 9}, '⅒': {1, 10}, '⅓': {1, 3}, '⅔': {2, 3}, '⅕': {1, 5},
	'⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// lengthText is a text being read from the left.
type lengthText struct{ rest, point string }

func (p *lengthText) length(unit Unit) (*big.Rat, bool) {
	sign := int64(1)
	if p.take("-") || p.take("−") {
		sign = -1
	} else {
		p.take("+")
	}
	p.space()
	q, ok := p.quantity()
	if !ok {
		return nil, false
	}
	tenths := int64(10)
	if unit == Inches {
		tenths = 254
	}
	if p.space(); p.rest != "" {
		if tenths, ok = p.unit(); !ok {
			return nil, false
		}
	}
	mm := scaled(q, sign*tenths)
	if p.rest == "" {
		return mm, true
	}
	// Only inches can follow, and only feet can go before them.
	in, ok := p.inches()
	if !ok || tenths != 3048 {
		return nil, false
	}
	return mm.Add(mm, scaled(in, sign*254)), true
}

// scaled returns q of so many tenths of a millimeter, in mm.
func scaled(q *big.Rat, tenths int64) *big.Rat { return q.Mul(q, big.NewRat(tenths, 10)) }

// inches reads what follows feet, to the end.
func (p *lengthText) inches() (*big.Rat, bool) {
	before := p.space()
	if p.take("-") && p.space() != before {
		return nil, false
	}
	q, ok := p.quantity()
	if !ok {
		return nil, false
	}
	p.space()
	tenths, ok := p.unit()
	p.space()
	return q, ok && tenths == 254 && p.rest == ""
}

// quantity reads 41, 41.375, 3/8, ⅜, 41 3/8, 41-3/8 or 41⅜.
func (p *lengthText) quantity() (*big.Rat, bool) {
	if f, ok := p.vulgar(); ok {
		return f, true
	}
	whole := p.digits()
	switch {
	case p.take(p.point):
		decimals := p.digits()
		if whole+decimals == "" {
			return nil, false
		}
		return fraction(whole+decimals, "1"+strings.Repeat("0", len(decimals)))
	case whole == "":
		return nil, false
	case p.over():
		return fraction(whole, p.digits())
	}
	v, ok := fraction(whole, "1")
	before := p.rest
	f, none := p.behind()
	if none {
		p.rest = before // what follows belongs to something else
		return v, ok
	}
	if f == nil || f.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, false
	}
	return v.Add(v, f), ok
}

// behind reads the fraction behind a whole number. It says none where there is
// no fraction, and returns nil for one that cannot be read.
func (p *lengthText) behind() (f *big.Rat, none bool) {
	if !p.space() {
		p.take("-")
	}
	if f, ok := p.vulgar(); ok {
		return f, false
	}
	over := p.digits()
	if over == "" || !p.over() {
		return nil, true
	}
	f, _ = fraction(over, p.digits())
	return f, false
}

func (p *lengthText) over() bool { return p.take("/") || p.take("⁄") }

func (p *lengthText) vulgar() (*big.Rat, bool) {
	r, n := utf8.DecodeRuneInString(p.rest)
	f, ok := vulgar[r]
	if !ok {
		return nil, false
	}
	p.rest = p.rest[n:]
	return big.NewRat(f[0], f[1]), true
}

func fraction(over, under string) (*big.Rat, bool) {
	if strings.Trim(under, "0") == "" {
		return nil, false
	}
	// As integers of base ten: a leading 0 is not for octal here.
	a, ok1 := new(big.Int).SetString(over, 10)
	b, ok2 := new(big.Int).SetString(under, 10)
	if !ok1 || !ok2 {
		return nil, false
	}
	return new(big.Rat).SetFrac(a, b), true
}

func (p *lengthText) unit() (tenths int64, ok bool) {
	for _, u := range lengthUnits {
		if n := len(u.text); len(p.rest) >= n && strings.EqualFold(p.rest[:n], u.text) {
			p.rest = p.rest[n:]
			// A letter right behind a word would make it another.
			return u.tenths, p.rest == "" || !isLetter(p.rest[0]) || !isLetter(u.text[n-1])
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

// space skips spaces and reports whether there were any.
func (p *lengthText) space() bool {
	rest := strings.TrimLeft(p.rest, lengthSpaces)
	ok := rest != p.rest
	p.rest = rest
	return ok
}

func (p *lengthText) digits() string {
	rest := strings.TrimLeft(p.rest, "0123456789")
	d := p.rest[:len(p.rest)-len(rest)]
	p.rest = rest
	return d
}
