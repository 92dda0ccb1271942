package packet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// WriteSpec writes a spec file that [ReadSpec] reads back as s, in the unit s
// says; keys of which the value is zero are left out, but the version. A length
// in inches that no decimal number of inches gives back to its last bit is
// written as a text in mm; angles come back within the last bit. A spec with
// numbers that are not finite, or with texts that are no UTF-8, has no file and
// is a [*arc.ParamError].
func WriteSpec(w io.Writer, s hood.Spec) error {
	if s.Version == 0 {
		s.Version = hood.Version
	}
	if need := hood.NeedVersion(s.Version); need != "" {
		return &arc.ParamError{Func: "packet.WriteSpec", Param: "version", Value: s.Version, Need: need, Err: arc.ErrRange}
	}
	e := speller{inches: s.Units == "in"}
	text, err := e.value(reflect.ValueOf(s), "", "")
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, text, "", "  "); err != nil {
		return fmt.Errorf("packet.WriteSpec: %w", err)
	}
	b.WriteByte('\n')
	_, err = w.Write(b.Bytes())
	return err
}

// A speller writes values as a filler reads them.
type speller struct{ inches bool }

func (e speller) value(v reflect.Value, at, unit string) ([]byte, error) {
	switch v.Kind() {
	case reflect.Struct:
		return e.object(v, at)
	case reflect.Slice, reflect.Array:
		return e.list(v, at, unit)
	case reflect.Float64:
		return e.number(v, at, unit)
	case reflect.String:
		if !isText(v.String()) {
			return nil, &arc.ParamError{Func: "packet.WriteSpec", Param: at, Value: shown(v.String()), Need: "UTF-8", Err: arc.ErrSyntax}
		}
	}
	return json.Marshal(v.Interface())
}

func (e speller) object(v reflect.Value, at string) ([]byte, error) {
	out := []byte("{")
	for _, sf := range fieldsOf(v.Type()) {
		field := v.FieldByIndex(sf.Index)
		if field.IsZero() || field.Kind() == reflect.Slice && field.Len() == 0 {
			continue
		}
		text, err := e.value(field, join(at, keyOf(sf)), sf.Tag.Get("unit"))
		if err != nil {
			return nil, err
		}
		if len(out) > 1 {
			out = append(out, ',')
		}
		out = append(append(strconv.AppendQuote(out, keyOf(sf)), ':'), text...)
	}
	return append(out, '}'), nil
}

func (e speller) list(v reflect.Value, at, unit string) ([]byte, error) {
	out := []byte("[")
	for i := range v.Len() {
		text, err := e.value(v.Index(i), fmt.Sprintf("%s[%d]", at, i), unit)
		if err != nil {
			return nil, err
		}
		if i > 0 {
			out = append(out, ',')
		}
		out = append(out, text...)
	}
	return append(out, ']'), nil
}

func (e speller) number(v reflect.Value, at, unit string) ([]byte, error) {
	x := v.Float()
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, &arc.ParamError{Func: "packet.WriteSpec", Param: at, Value: x, Unit: unit, Need: "a finite number", Err: arc.ErrNotFinite}
	}
	factor := 1.0
	switch {
	case v.Type() == angleType:
		factor = float64(arc.Degree)
	case unit == "mm" && e.inches:
		factor = arc.Inch
	}
	y, exact := undo(x, factor)
	if !exact && unit == "mm" {
		if text := strconv.FormatFloat(x, 'f', -1, 64) + " mm"; parses(text, x) {
			return strconv.AppendQuote(nil, text), nil
		}
	}
	return json.Marshal(y)
}

// undo returns the number of fewest digits that times factor is x, or where
// there is none the one nearest to it.
func undo(x, factor float64) (float64, bool) {
	y := x / factor
	for digits := 1; digits <= 17; digits++ {
		z, err := strconv.ParseFloat(strconv.FormatFloat(y, 'g', digits, 64), 64)
		if err == nil && times(z, factor) == x {
			return z, true
		}
	}
	for _, z := range []float64{math.Nextafter(y, math.Inf(1)), math.Nextafter(y, math.Inf(-1))} {
		if times(z, factor) == x {
			return z, true
		}
	}
	return y, false
}

// times returns what the reader makes of a number.
func times(z, factor float64) float64 {
	if factor != arc.Inch {
		return z * factor
	}
	text, err := json.Marshal(z)
	if err != nil {
		return math.NaN()
	}
	return inMillimeters(string(text), z)
}

func parses(text string, mm float64) bool {
	got, err := arc.ParseLength(text, arc.Millimeters)
	return err == nil && got == mm
}
