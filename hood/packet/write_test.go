package packet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// random fills a value with anything its kind can hold that a file may say.
func random(r *rand.Rand, v reflect.Value, unit, enum string) {
	switch v.Kind() {
	case reflect.Struct:
		for _, sf := range fieldsOf(v.Type()) {
			if r.IntN(3) > 0 {
				random(r, v.FieldByIndex(sf.Index), sf.Tag.Get("unit"), sf.Tag.Get("enum"))
			}
		}
	case reflect.Slice:
		if n := r.IntN(4); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				random(r, v.Index(i), unit, "")
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			random(r, v.Index(i), unit, "")
		}
	case reflect.Float64:
		v.SetFloat([]float64{r.NormFloat64() * 1000, float64(r.IntN(3000)) / 2, float64(r.IntN(99)) * arc.Inch / 32, math.Exp(r.NormFloat64() * 20)}[r.IntN(4)])
		if unit == "deg" {
			v.SetFloat(float64(arc.Angle(r.IntN(180)) * arc.Degree / 2))
		}
	case reflect.Int:
		v.SetInt(int64(r.IntN(100)))
	case reflect.Bool:
		v.SetBool(r.IntN(2) == 0)
	case reflect.String:
		if v.SetString([]string{"mdf", "Küche \"Nord\" <3>", "a\\b ✓", "mm"}[r.IntN(4)]); enum != "" {
			words := strings.Split(enum, ",")
			v.SetString(words[r.IntN(len(words))])
		}
	}
}

func randomSpec(r *rand.Rand) hood.Spec {
	var s hood.Spec
	random(r, reflect.ValueOf(&s).Elem(), "", "")
	s.Version = hood.Version
	return s
}

// What is written is read back to the last bit, in either unit.
func TestWriteSpecRoundTrip(t *testing.T) {
	r, inches := rand.New(rand.NewPCG(3, 4)), 0
	for range 2000 {
		s := randomSpec(r)
		var b bytes.Buffer
		require.NoError(t, WriteSpec(&b, s))
		got, err := ReadSpec(&b)
		require.NoError(t, err)
		assert.InEpsilon(t, 1+float64(s.Molding.Spring), 1+float64(got.Molding.Spring), 1e-15)
		assert.InEpsilon(t, 1+float64(s.Bend.Turn), 1+float64(got.Bend.Turn), 1e-15)
		got.Molding.Spring, got.Bend.Turn = s.Molding.Spring, s.Bend.Turn
		require.Equal(t, s, got)
		if s.Units == "in" {
			inches++
		}
	}
	assert.Greater(t, inches, 200)
}

func TestWriteSpecReadsWell(t *testing.T) {
	var b bytes.Buffer
	text := "{\n  \"version\": 2,\n  \"units\": \"in\",\n  \"width\": 48,\n  \"depth\": 0.75,\n  \"skirt\": 5.375,\n  \"molding\": {\n    \"spring\": 38\n  }\n}\n"
	s, err := ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	require.NoError(t, WriteSpec(&b, s))
	assert.Equal(t, text, b.String(), "as a person wrote it")
	for _, s := range []hood.Spec{{Width: math.NaN()}, {Joint: math.Inf(1)}, {Title: "\xff"}, {Title: "a\x00"}, {Version: 1}} {
		b.Reset()
		var pe *arc.ParamError
		assert.ErrorAs(t, WriteSpec(&b, s), &pe)
		assert.Zero(t, b.Len())
	}
}

// conforms is a validator of the keywords of JSON Schema that the schema uses,
// written from the standard; it refuses a schema with any other.
func conforms(t *testing.T, schema map[string]any, v any) bool {
	ok := true
	for word, arg := range schema {
		switch word {
		case "$schema", "title", "description":
		case "type":
			ok = ok && isType(arg, v)
		case "const":
			ok = ok && reflect.DeepEqual(arg, v)
		case "enum":
			ok = ok && slices.ContainsFunc(arg.([]any), func(a any) bool { return reflect.DeepEqual(a, v) })
		case "minimum", "maximum":
			x, number := v.(float64)
			ok = ok && (!number || (word == "minimum" && x >= arg.(float64)) || (word == "maximum" && x <= arg.(float64)))
		case "pattern", "maxLength":
			s, text := v.(string)
			ok = ok && (!text || word == "pattern" && regexp.MustCompile(arg.(string)).MatchString(s) ||
				word == "maxLength" && float64(utf8.RuneCountInString(s)) <= arg.(float64))
		case "minItems", "maxItems":
			l, list := v.([]any)
			ok = ok && (!list || word == "minItems" && float64(len(l)) >= arg.(float64) || word == "maxItems" && float64(len(l)) <= arg.(float64))
		case "items":
			if l, list := v.([]any); list {
				for _, m := range l {
					ok = ok && conforms(t, arg.(map[string]any), m)
				}
			}
		case "properties":
			o, _ := v.(map[string]any)
			for key, m := range o {
				if p, known := arg.(map[string]any)[key]; known {
					ok = ok && conforms(t, p.(map[string]any), m)
				}
			}
		case "required":
			if o, object := v.(map[string]any); object {
				for _, key := range arg.([]any) {
					_, has := o[key.(string)]
					ok = ok && has
				}
			}
		case "additionalProperties":
			require.Equal(t, false, arg)
			o, _ := v.(map[string]any)
			for key := range o {
				_, known := schema["properties"].(map[string]any)[key]
				ok = ok && known
			}
		default:
			t.Fatalf("keyword %s is not known to the test", word)
		}
	}
	return ok
}

func isType(arg, v any) bool {
	if list, many := arg.([]any); many {
		return slices.ContainsFunc(list, func(a any) bool { return isType(a, v) })
	}
	switch x := v.(type) {
	case map[string]any:
		return arg == "object"
	case []any:
		return arg == "array"
	case string:
		return arg == "string"
	case bool:
		return arg == "boolean"
	case float64:
		return arg == "number" || arg == "integer" && x == math.Trunc(x)
	}
	return arg == "null"
}

// reads tells whether the reader takes a file, words among those there are.
func reads(text []byte) (bool, error) {
	s, err := ReadSpec(bytes.NewReader(text))
	if err != nil {
		return false, err
	}
	var faults hood.Faults
	if err, ok := s.Validate().(hood.Faults); ok {
		faults = err
	}
	for _, f := range faults {
		// An opening without a shape is a word left out, which no schema of it asks for.
		if f.Err == hood.ErrWord && f.Value != "" {
			return false, f
		}
	}
	return true, nil
}

// spoil changes one value at a random place of a file's tree.
func spoil(r *rand.Rand, v any) any {
	put := []any{nil, true, "x", "41 3/8 in", "5' 6\"", "-3 mm", "1 cubit", "3/0 in", "1..2", "", 7.0, 2.5, -1.0, []any{}, []any{1.0}, []any{1.0, 2.0},
		map[string]any{}, map[string]any{"x": 1.0}, strings.Repeat("é", 61), strings.Repeat("w", 201), "a\nb", 3e9, "miter", "mm", slices.Repeat([]any{map[string]any{}}, 41)}
	switch x := v.(type) {
	case map[string]any:
		if len(x) > 0 && r.IntN(5) > 0 {
			keys := make([]string, 0, len(x))
			for k := range x {
				keys = append(keys, k)
			}
			slices.Sort(keys)
			k := keys[r.IntN(len(keys))]
			if r.IntN(20) == 0 {
				delete(x, k)
			} else {
				x[k] = spoil(r, x[k])
			}
			return x
		}
		if r.IntN(2) == 0 {
			x["colour"] = 1.0
			return x
		}
	case []any:
		if len(x) > 0 && r.IntN(4) > 0 {
			i := r.IntN(len(x))
			x[i] = spoil(r, x[i])
			return x
		}
	}
	return put[r.IntN(len(put))]
}

func TestSchemaAndReaderAgree(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(Schema(), &schema))
	r := rand.New(rand.NewPCG(5, 6))
	n := 500
	if os.Getenv("SAGITTA_FULL") != "" {
		n = 2000
	}
	refused, missing := 0, 0
	for range n {
		var b bytes.Buffer
		require.NoError(t, WriteSpec(&b, randomSpec(r)))
		for bad := range 2 {
			var v any
			require.NoError(t, json.Unmarshal(b.Bytes(), &v))
			if bad == 1 {
				v = spoil(r, v)
			}
			text, err := json.Marshal(v)
			require.NoError(t, err)
			got, why := reads(text)
			require.Equal(t, conforms(t, schema, v), got, "%s\n%v", text, why)
			if bad == 0 {
				require.True(t, got, "%v", why)
			} else if !got {
				refused++
				if strings.Contains(why.Error(), "missing") {
					missing++
				}
			}
		}
	}
	t.Logf("%d of %d spoiled files refused", refused, n)
	assert.Greater(t, refused, n/2)
	assert.Positive(t, missing)
}

// Files made to be costly end soon, in few words, and in nothing raw.
func TestCostlyFiles(t *testing.T) {
	many := func(n int, what string) string { return strings.TrimSuffix(strings.Repeat(what+",", n), ",") }
	long := strings.Repeat("k", 400_000)
	opening := `{"shape":"circle","x":0,"y":600,"diameter":100}`
	keys := make([]string, 50_000)
	for i := range keys {
		keys[i] = fmt.Sprintf(`"k%d":1`, i)
	}
	good := strings.TrimSuffix(strings.TrimSpace(demo(t)), "}")
	for name, text := range map[string]string{
		"openings":     strings.Replace(demo(t), `"openings": [`, `"openings": [`+many(1500, opening)+`,`, 1),
		"points":       `{"version":2,"sweep":{"points":[` + many(50_000, `[1,2]`) + `]}}`,
		"sheets":       `{"version":2,"board":{"sheets":[` + many(900, `{}`) + `]}}`,
		"title":        `{"version":2,"title":"` + long + `"}`,
		"word":         `{"version":2,"corner":"` + long + `"}`,
		"length":       `{"version":2,"width":"` + long + `"}`,
		"number":       `{"version":2,"width":` + strings.Repeat("9", 900_000) + `}`,
		"key":          `{"version":2,"` + long + `":[` + many(100_000, `0`) + `]}`,
		"keys":         `{"version":2,` + strings.Join(keys, ",") + `}`,
		"faults":       `{"version":2,"board":{"sheets":[` + many(40, `{"a":1,"b":1,"c":1}`) + `]}}`,
		"same key":     `{"version":2,` + many(100_000, `"width":1`) + `}`,
		"deep":         `{"version":2,"x":` + strings.Repeat(`[`, 500_000),
		"escape":       `{"version":2,"\u001b[31mred\u0007":1,"title":"\u001b]0;x\u0007"}`,
		"good escape":  good + `,"units":"\u001b[31m"}`,
		"ten million":  strings.Repeat(" ", 10_000_000),
		"wide nesting": `{"version":2,"x":[` + many(900, `[`+many(400, `[]`)+`]`) + `]}`,
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		s, err := ReadSpec(strings.NewReader(text))
		if err == nil {
			err = s.Validate()
		}
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		require.Error(t, err, name)
		assert.Less(t, len(err.Error()), 20_000, name)
		assert.NotContains(t, err.Error(), strings.Repeat("k", 100), name)
		assert.NotContains(t, err.Error(), strings.Repeat("9", 100), name)
		assert.False(t, strings.ContainsAny(err.Error(), "\x1b\x07"), name)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(500e6), name)
		t.Logf("%-12s %v, %.0f MB, %d bytes of faults", name, took, float64(after.TotalAlloc-before.TotalAlloc)/1e6, len(err.Error()))
	}
}
