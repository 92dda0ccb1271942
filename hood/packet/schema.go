package packet

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"unicode"

	"example.com/sagitta/hood"
)

// Schema returns the JSON Schema (draft 2020-12) of a spec file, made from the
// same tags that the reader follows.
func Schema() []byte { return schema(reflect.TypeFor[hood.Spec](), "Spec of a hood surround") }

func schema(t reflect.Type, title string) []byte {
	s := schemaOf(t, "")
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = title
	s["required"] = []string{"version"}
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // maps of strings always marshal
	}
	return append(out, '\n')
}

func schemaOf(t reflect.Type, unit string) map[string]any {
	if words := wordsOf(t); words != nil {
		return map[string]any{"type": "string", "enum": words}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return schemaOf(t.Elem(), unit)
	case reflect.Struct:
		return objectSchema(t)
	case reflect.Slice:
		return map[string]any{"type": "array", "items": schemaOf(t.Elem(), unit)}
	case reflect.Array:
		return map[string]any{"type": "array", "items": schemaOf(t.Elem(), unit), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Float64:
		if unit == "mm" {
			return map[string]any{"type": []string{"number", "string"}, "pattern": lengthPattern, "maxLength": 400}
		}
		return map[string]any{"type": "number"}
	case reflect.Int:
		return map[string]any{"type": "integer", "minimum": -math.MaxInt32, "maximum": math.MaxInt32}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	}
	return map[string]any{"type": "string", "pattern": textPattern}
}

// textPattern is one of JSON Schema, which are those of ECMA-262: a text without
// control characters.
const textPattern = `^[^\x00-\x1f\x7f-\x9f]*$`

// lengthPattern is what [arc.ParseLength] reads, but that a fraction behind a
// whole number is below one, which no pattern tells.
var lengthPattern = func() string {
	const (
		sp       = "[ \t\u00a0\u2007\u2009\u202f]" // the spaces themselves, as not every dialect has escapes for them
		fraction = `([0-9]+[/⁄]0*[1-9][0-9]*|[¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])`
		quantity = `(` + fraction + `|[0-9]+(` + sp + `+|-)?` + fraction + `|[0-9]+\.?[0-9]*|\.[0-9]+)`
	)
	inch := `(` + anyCase("inches", "inch", "in") + `\.?|"|″|”|''|′′|’’)`
	feet := `(` + anyCase("feet", "foot", "ft") + `\.?|'|′|’)`
	metric := anyCase("millimeters", "millimetres", "millimeter", "millimetre", "mm", "centimeters", "centimetres",
		"centimeter", "centimetre", "cm", "meters", "metres", "meter", "metre", "m")
	return `^` + sp + `*[-−+]?` + sp + `*` + quantity + sp + `*(` + metric + `|` + inch + `|` + feet + `|` +
		feet + `(` + sp + `*|-|` + sp + `+-` + sp + `+)` + quantity + sp + `*` + inch + `)?` + sp + `*$`
}()

// anyCase returns a pattern of words in upper or lower case.
func anyCase(words ...string) string {
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			b.WriteByte('|')
		}
		for _, r := range w {
			b.WriteString("[" + string(r) + string(unicode.ToUpper(r)) + "]")
		}
	}
	return "(" + b.String() + ")"
}

func objectSchema(t reflect.Type) map[string]any {
	props := map[string]any{}
	for _, sf := range fieldsOf(t) {
		p := schemaOf(sf.Type, unitOf(sf))
		if doc := sf.Tag.Get("doc"); doc != "" {
			p["description"] = doc
		}
		if words := sf.Tag.Get("enum"); words != "" {
			p["enum"] = strings.Split(words, ",")
		}
		switch most := mostOf(sf); {
		case most > 0 && sf.Type.Kind() == reflect.Slice:
			p["maxItems"] = most
		case most > 0:
			p["maxLength"] = most
		}
		if sf.Name == "Version" {
			p = map[string]any{"const": hood.Version, "description": p["description"]}
		}
		props[keyOf(sf)] = p
	}
	return map[string]any{"type": "object", "properties": props, "additionalProperties": false}
}
