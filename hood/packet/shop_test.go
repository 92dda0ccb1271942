package packet

import (
	"context"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

const someShop = `{"version": 1, "title": "Bench",
 "cut": {"safe": "1 in", "climb": true, "ramp": 4, "travel": {"min": {"x": -50, "y": -50}, "max": {"x": 3200, "y": 1600}},
  "tools": [
   {"number": 4, "diameter": 3.2, "max_depth": 25, "flutes": 2, "speed": 17000, "feed": 2500, "plunge": 500},
   {"number": 7, "diameter": 9.525, "step": 8, "name": "compression"},
   {"number": 9, "diameter": 60, "angle": 90}]},
 "dialect": {"dwell": 3, "dwell_form": "milliseconds", "comment": "semicolon", "change": "two lines", "length": "touch off",
  "path": "blend", "path_word": "P", "path_within": 0.01, "rewind": true, "retract": 0, "park": {"x": 10, "y": 10},
  "ignore": ["M10"], "after_change": ["M10"], "per_tool": true, "extension": "tap"}}`

func TestShopRoundTrip(t *testing.T) {
	for _, text := range []string{someShop, string(DefaultShop())} {
		s, err := ReadShop(strings.NewReader(text))
		require.NoError(t, err)
		data, err := s.Encode()
		require.NoError(t, err)
		back, err := ReadShop(strings.NewReader(string(data)))
		require.NoError(t, err, string(data))
		assert.Equal(t, s, back)
	}
	s, err := ReadShop(strings.NewReader(someShop))
	require.NoError(t, err)
	assert.Equal(t, 25.4, s.Cut.Safe)
	assert.Equal(t, rs274.TouchOff, s.Dialect.Length)
	assert.InDelta(t, 90, s.Cut.Tools[2].Angle.Degrees(), 1e-12)
	require.NotNil(t, s.Dialect.Retract)
	assert.Zero(t, *s.Dialect.Retract)
}

// Every field of the two kinds of options, set to something, comes back.
func TestShopSaysAllOptions(t *testing.T) {
	var s Shop
	set(reflect.ValueOf(&s).Elem())
	data, err := s.Encode()
	require.NoError(t, err)
	n, faults := parse(data)
	require.Empty(t, faults)
	var back Shop
	f := &filler{reader: &reader{}}
	f.fill(reflect.ValueOf(&back).Elem(), n, "", 0)
	require.Empty(t, f.faults, string(data))
	assert.Equal(t, s, back)
	for _, v := range []reflect.Type{reflect.TypeFor[cut.Options](), reflect.TypeFor[cut.Tool](), reflect.TypeFor[rs274.Options]()} {
		exported := 0
		for i := range v.NumField() {
			if v.Field(i).IsExported() {
				exported++
			}
		}
		assert.Len(t, fieldsOf(v), exported, v.Name())
	}
}

// set puts a value that is not zero into all there is.
func set(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				set(v.Field(i))
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		set(v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		set(v.Index(0))
		set(v.Index(1))
	case reflect.Float64:
		v.SetFloat(0.125)
	case reflect.Int:
		v.SetInt(1)
	case reflect.Uint8:
		v.SetUint(1)
	case reflect.String:
		v.SetString("M8")
	case reflect.Bool:
		v.SetBool(true)
	}
}

// All faults come at once, by the path of their key.
func TestShopFaults(t *testing.T) {
	for text, want := range map[string][]string{
		`{"version": 1, "cut": {"saef": 3, "ramp": "steep", "tools": [{"number": 1.5}]}, "dialect": {"length": "guess", "unit": 3}}`: {"cut.saef", "cut.ramp", "cut.tools[0].number", "dialect.length", "dialect.unit"},
		`{"version": 2, "cut": {"safe": -1}, "dialect": {"dwell": -1}}`:                                                              {"version", "cut.safe", "dialect.dwell"},
		`{}`:                            {"version"},
		`{"version": 1, "version": 1}`:  {"version"},
		`{"version": 1, "title": null}`: {"title"},
		`{"version": 1} x`:              {"spec"},
		``:                              {"spec"},
		`{"version": 1, "dialect": {"start": ["G28"]}}`:                                    {"dialect.start[0]"},
		`{"version": 1, "cut": {"tools": [{"number": 1, "diameter": 6, "speed": 1e999}]}}`: {"cut.tools[0].speed"},
	} {
		_, err := ReadShop(strings.NewReader(text))
		var faults hood.Faults
		require.ErrorAs(t, err, &faults, text)
		var got []string
		for _, f := range faults {
			got = append(got, f.Param)
		}
		assert.Equal(t, want, got, text)
	}
}

func TestShopSchema(t *testing.T) {
	var s struct {
		Properties map[string]struct {
			Properties map[string]map[string]any
		}
	}
	require.NoError(t, json.Unmarshal(ShopSchema(), &s))
	assert.Equal(t, []any{"table", "touch off", "by controller"}, s.Properties["dialect"].Properties["length"]["enum"])
	assert.Contains(t, s.Properties["cut"].Properties, "tab_width")
}

// A packet is made for a shop: its cutters, its dialect, its file names.
func TestPacketOfAShop(t *testing.T) {
	shop, err := ReadShop(strings.NewReader(someShop))
	require.NoError(t, err)
	spec, err := ReadSpec(strings.NewReader(checkedFront))
	require.NoError(t, err)
	files, err := Make(context.Background(), spec, Options{Shop: &shop})
	require.NoError(t, err)
	programs := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name, ".tap") {
			assert.NotContains(t, f.Name, ".nc")
			continue
		}
		programs++
		text := string(f.Data)
		assert.Contains(t, text, "\nM6\n")
		assert.Contains(t, text, "\nM0\nM10\n", "touched off, then the lines of the caller")
		assert.Contains(t, text, "G64 P0.01")
		assert.Contains(t, text, "G4 P3000")
		assert.True(t, strings.HasSuffix(text, "M30\n"))
		_, _, err := rs274.Read(strings.NewReader(text), shop.Dialect)
		assert.NoError(t, err)
	}
	assert.Greater(t, programs, 1)
	shop.Cut.Tools = shop.Cut.Tools[:1]
	_, err = Make(context.Background(), spec, Options{Shop: &shop})
	assert.ErrorIs(t, err, cut.ErrNoTool)
}
