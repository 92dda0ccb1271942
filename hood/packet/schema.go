package packet

import (
	"encoding/json"
	"reflect"
	"strings"

	"example.com/sagitta/hood"
)

// Schema returns the JSON Schema (draft 2020-12) of a spec file, made from the
// same tags that the reader follows.
func Schema() []byte {
	s := schemaOf(reflect.TypeFor[hood.Spec](), "")
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "Spec of a hood surround"
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // maps of strings always marshal
	}
	return append(out, '\n')
}

func schemaOf(t reflect.Type, unit string) map[string]any {
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
			return map[string]any{"type": []string{"number", "string"}}
		}
		return map[string]any{"type": "number"}
	case reflect.Int:
		return map[string]any{"type": "integer"}
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	}
	return map[string]any{"type": "string"}
}

func objectSchema(t reflect.Type) map[string]any {
	props := map[string]any{}
	for _, sf := range fieldsOf(t) {
		p := schemaOf(sf.Type, sf.Tag.Get("unit"))
		if doc := sf.Tag.Get("doc"); doc != "" {
			p["description"] = doc
		}
		if words := sf.Tag.Get("enum"); words != "" {
			p["enum"] = strings.Split(words, ",")
		}
		props[keyOf(sf)] = p
	}
	return map[string]any{"type": "object", "properties": props, "additionalProperties": false}
}
