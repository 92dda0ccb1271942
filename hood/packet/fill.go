package packet

import (
	"fmt"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// filler sets Go values from nodes by their tags: json names the key, unit
// says what a bare number means ("mm" takes the file's unit of length, and
// strings with units; "deg" gives an arc.Angle).
type filler struct {
	*reader
	unit  arc.Unit
	other bool // the file is of another version
}

var angleType = reflect.TypeFor[arc.Angle]()

func (f *filler) fill(v reflect.Value, n node, unit string, most int) {
	if n.kind == 'n' {
		f.fault(n.path, "null", "", "a value; leave the key out instead", arc.ErrSyntax)
		return
	}
	if words := wordsOf(v.Type()); words != nil {
		f.fillWord(v, n, words)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem(), n, unit, most)
	case reflect.Struct:
		f.fillStruct(v, n)
	case reflect.Slice:
		f.fillSlice(v, n, unit, most)
	case reflect.Array:
		f.fillArray(v, n, unit)
	case reflect.Float64:
		f.fillFloat(v, n, unit)
	case reflect.Int:
		if i, ok := n.whole(); ok {
			v.SetInt(i)
		} else {
			f.fault(n.path, n.describe(), "", "a whole number", arc.ErrSyntax)
		}
	case reflect.String:
		if f.want(n, '"', "a string") {
			f.fillText(v, n, most)
		}
	case reflect.Bool:
		if f.want(n, 'b', "true or false") {
			v.SetBool(n.truth)
		}
	}
}

func (f *filler) want(n node, kind byte, need string) bool {
	if n.kind != kind {
		f.fault(n.path, n.describe(), "", need, arc.ErrSyntax)
	}
	return n.kind == kind
}

func (f *filler) fillStruct(v reflect.Value, n node) {
	if !f.want(n, '{', "an object") {
		return
	}
	fields := fieldsOf(v.Type())
	for i, key := range n.keys {
		sf, ok := lookup(fields, key)
		if !ok {
			f.fault(n.members[i].path, "unknown key", "", "one of: "+names(fields), arc.ErrSyntax)
			continue
		}
		f.fill(v.FieldByIndex(sf.Index), n.members[i], unitOf(sf), mostOf(sf))
		f.word(n.members[i], sf)
	}
}

// word asks for one of the words of a field's tag, where it has one. The units
// were looked at first.
func (f *filler) word(n node, sf reflect.StructField) {
	words := sf.Tag.Get("enum")
	if words == "" || n.kind != '"' || sf.Name == "Units" || slices.Contains(strings.Split(words, ","), n.text) {
		return
	}
	f.fault(n.path, n.describe(), "", "one of "+strings.ReplaceAll(strings.TrimPrefix(words, ","), ",", ", "), hood.ErrWord)
}

func (f *filler) fillSlice(v reflect.Value, n node, unit string, most int) {
	if !f.want(n, '[', "a list") {
		return
	}
	if len(n.members) > most {
		f.fault(n.path, plural(len(n.members), "value"), "", fmt.Sprintf("at most %d", most), arc.ErrRange)
		return
	}
	s := reflect.MakeSlice(v.Type(), len(n.members), len(n.members))
	for i, m := range n.members {
		f.fill(s.Index(i), m, unit, most)
	}
	v.Set(s)
}

func (f *filler) fillArray(v reflect.Value, n node, unit string) {
	if !f.want(n, '[', "a list") {
		return
	}
	if len(n.members) != v.Len() {
		f.fault(n.path, len(n.members), "", "a list of exactly "+plural(v.Len(), "value"), arc.ErrSyntax)
		return
	}
	for i, m := range n.members {
		f.fill(v.Index(i), m, unit, 0)
	}
}

func (f *filler) fillFloat(v reflect.Value, n node, unit string) {
	if n.kind == '"' && unit == "mm" {
		mm, err := arc.ParseLength(n.text, f.unit)
		if err != nil {
			f.fault(n.path, shown(n.text), "", "a length such as 1050, \"1050 mm\" or \"41 3/8 in\"", arc.ErrSyntax)
			return
		}
		v.SetFloat(mm)
		return
	}
	need := "a number"
	if unit == "mm" {
		need = "a number or a length such as \"41 3/8 in\""
	}
	if !f.want(n, '0', need) {
		return
	}
	x, err := n.number.Float64()
	if err != nil || math.IsInf(x, 0) {
		f.fault(n.path, n.describe(), unit, "a finite number", arc.ErrNotFinite)
		return
	}
	switch {
	case v.Type() == angleType:
		x *= float64(arc.Degree)
	case unit == "mm" && f.unit == arc.Inches:
		x = inMillimeters(string(n.number), x)
	}
	if math.IsInf(x, 0) {
		f.fault(n.path, n.describe(), unit, "a finite number", arc.ErrNotFinite)
		return
	}
	v.SetFloat(x)
}

// inMillimeters returns a number of inches in mm, rounded once, so that 48 is what
// 48 * arc.Inch and "48 in" are. x is its nearest float64.
func inMillimeters(text string, x float64) float64 {
	if len(text) <= 40 && math.Abs(x) > 1e-9 && math.Abs(x) < 1e9 { // no exponent to fear
		if q, ok := new(big.Rat).SetString(text); ok {
			mm, _ := q.Mul(q, big.NewRat(254, 10)).Float64()
			return mm
		}
	}
	return x * arc.Inch
}

func (f *filler) fillText(v reflect.Value, n node, most int) {
	switch chars := utf8.RuneCountInString(n.text); {
	case chars > most:
		f.fault(n.path, plural(chars, "character"), "", fmt.Sprintf("at most %d", most), arc.ErrRange)
	case strings.ContainsFunc(n.text, unicode.IsControl):
		f.fault(n.path, shown(n.text), "", "text without control characters", arc.ErrSyntax)
	default:
		v.SetString(n.text)
	}
}

func isText(s string) bool { return utf8.ValidString(s) && !strings.ContainsFunc(s, unicode.IsControl) }

// mostUntagged bounds lists and strings of fields without tags, which are
// those of [Shop]'s options.
const mostUntagged = 1000

// mostOf returns how many characters or members a field takes.
func mostOf(sf reflect.StructField) int {
	if _, ok := sf.Tag.Lookup("json"); !ok {
		return mostUntagged
	}
	n, _ := strconv.Atoi(sf.Tag.Get("most"))
	return n
}

// whole returns the whole number that a node is; 2.0 is one too.
func (n node) whole() (int64, bool) {
	x, err := n.number.Float64()
	if n.kind != '0' || err != nil || x != math.Trunc(x) || math.Abs(x) > math.MaxInt32 {
		return 0, false
	}
	return int64(x), true
}

// fieldsOf lists the fields of a struct that a file may set, those of embedded
// structs included.
func fieldsOf(t reflect.Type) []reflect.StructField {
	var out []reflect.StructField
	for _, sf := range reflect.VisibleFields(t) {
		if key := keyOf(sf); sf.IsExported() && key != "" && key != "-" {
			out = append(out, sf)
		}
	}
	return out
}

// keyOf returns the key of a field: that of its tag, or where it has none its
// name in small letters.
func keyOf(sf reflect.StructField) string {
	if _, ok := sf.Tag.Lookup("json"); !ok && !sf.Anonymous {
		return snake(sf.Name)
	}
	key, _, _ := strings.Cut(sf.Tag.Get("json"), ",")
	return key
}

// lengths are the keys without tags that are lengths, so that a file may give
// them with a unit. Step is none: of a tool it is a length, of a shop a share.
var lengths = map[string]bool{
	"Safe": true, "Approach": true, "Through": true, "TabWidth": true, "TabHeight": true, "TabSpacing": true, "Overrun": true,
	"Diameter": true, "MaxDepth": true, "Measured": true, "Retract": true, "X": true, "Y": true,
}

func unitOf(sf reflect.StructField) string {
	if _, ok := sf.Tag.Lookup("json"); !ok && lengths[sf.Name] {
		return "mm"
	}
	return sf.Tag.Get("unit")
}

func lookup(fields []reflect.StructField, key string) (reflect.StructField, bool) {
	for _, sf := range fields {
		if keyOf(sf) == key {
			return sf, true
		}
	}
	return reflect.StructField{}, false
}

func names(fields []reflect.StructField) string {
	list := make([]string, len(fields))
	for i, sf := range fields {
		list[i] = keyOf(sf)
	}
	return strings.Join(list, ", ")
}
