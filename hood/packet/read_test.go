package packet

import (
	"encoding/json"
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

func demo(t testing.TB) string {
	data, err := os.ReadFile("demo.json")
	require.NoError(t, err)
	return string(data)
}

func TestReadDemo(t *testing.T) {
	s, err := ReadSpec(strings.NewReader(demo(t)))
	require.NoError(t, err)
	assert.Equal(t, 1130.0, s.Width)
	assert.Equal(t, 290.0, s.Neck.Depth)
	assert.Equal(t, "cove", s.Sweep.Shape)
	assert.Equal(t, 2465.0, s.Board.Sheets[0].Length)
	assert.Equal(t, 160.0, s.Back.Openings[0].Diameter)
	assert.Equal(t, 0.008, s.Bend.Strain)
}

func TestLengthsTakeUnits(t *testing.T) {
	for text, mm := range map[string]float64{
		`{"version":2,"width":1050}`:                                       1050,
		`{"version":2,"width":"1050 mm"}`:                                  1050,
		`{"version":2,"width":"41 3/8 in"}`:                                41.375 * arc.Inch,
		`{"version":2,"width":"3 ft 5 1/4 in"}`:                            41.25 * arc.Inch,
		`{"version":2,"units":"in","width":40}`:                            40 * arc.Inch,
		`{"version":2,"width":40.5,"units":"in"}`:                          40.5 * arc.Inch,
		`{"version":2,"units":"in","width":"1000 mm","bend":{"strain":1}}`: 1000,
	} {
		s, err := ReadSpec(strings.NewReader(text))
		require.NoError(t, err, text)
		assert.InDelta(t, mm, s.Width, 1e-12*mm, text)
	}
	s, err := ReadSpec(strings.NewReader(`{"version":2,"units":"in","bend":{"strain":0.01,"web":0.0625}}`))
	require.NoError(t, err)
	assert.Equal(t, 0.01, s.Bend.Strain, "a number without a unit is not a length")
	assert.InDelta(t, 1.5875, s.Bend.Web, 1e-12)
}

func TestFaultsNameThePath(t *testing.T) {
	for _, c := range []struct{ text, path, need string }{
		{``, "spec", "empty"},
		{`   `, "spec", "empty"},
		{`{`, "spec", "JSON"},
		{`[]`, "", "object"},
		{`3`, "", "object"},
		{`{"version":2} x`, "spec", "nothing after"},
		{`{"version":2}{}`, "spec", "nothing after"},
		{`{"version":1}`, "version", "call z of every opening y"},
		{`{"version":3}`, "version", "2"},
		{`{"version":2.5}`, "version", "2"},
		{`{"version":"2"}`, "version", "2"},
		{`{"width":3}`, "version", "2"},
		{`{"version":2,"wdith":3}`, "wdith", "one of"},
		{`{"version":2,"neck":{"deep":3}}`, "neck.deep", "one of: depth"},
		{`{"version":2,"width":3,"width":4}`, "width", "once"},
		{`{"version":2,"width":"3 cubits"}`, "width", "length"},
		{`{"version":2,"width":null}`, "width", "leave"},
		{`{"version":2,"width":1e999}`, "width", "finite"},
		{`{"version":2,"width":[1]}`, "width", "number"},
		{`{"version":2,"width":NaN}`, "spec", "JSON"},
		{`{"version":2,"units":"cm"}`, "units", "mm"},
		{`{"version":2,"units":7}`, "units", "mm"},
		{`{"version":2,"board":{"sheets":[{"count":1.5}]}}`, "board.sheets[0].count", "whole"},
		{`{"version":2,"board":{"sheets":{}}}`, "board.sheets", "list"},
		{`{"version":2,"back":{"openings":[{},{"x":true}]}}`, "back.openings[1].x", "number"},
		{`{"version":2,"title":5}`, "title", "string"},
		{`{"version":2,"bend":{"strain":"0.1"}}`, "bend.strain", "number"},
		{`{"version":2,"x":` + strings.Repeat(`[`, 100) + strings.Repeat(`]`, 100) + `}`, "x", "nesting"},
	} {
		_, err := ReadSpec(strings.NewReader(c.text))
		var faults hood.Faults
		require.ErrorAs(t, err, &faults, c.text)
		assert.Contains(t, faults[0].Param, c.path, c.text)
		assert.Contains(t, faults[0].Need, c.need, c.text)
		assert.NotContains(t, err.Error(), "\n\n")
	}
}

func TestAllFaultsAtOnce(t *testing.T) {
	_, err := ReadSpec(strings.NewReader(`{"version":2,"a":1,"width":"x","b":2,"board":{"thickness":true}}`))
	var faults hood.Faults
	require.ErrorAs(t, err, &faults)
	assert.Len(t, faults, 4)
}

// endless gives bytes without end, as a file of any size would.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("disk gone") }

func TestBoundedInput(t *testing.T) {
	_, err := ReadSpec(endless{})
	assert.ErrorIs(t, err, arc.ErrRange)
	_, err = ReadSpec(broken{})
	assert.ErrorContains(t, err, "disk gone")
}

// Every key of a spec is documented, and lengths say so.
func TestEveryKeyIsDocumented(t *testing.T) {
	var walk func(t reflect.Type, path string)
	walk = func(typ reflect.Type, path string) {
		for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct {
			return
		}
		for _, sf := range fieldsOf(typ) {
			assert.NotEmpty(t, sf.Tag.Get("doc"), path+keyOf(sf))
			walk(sf.Type, path+keyOf(sf)+".")
		}
	}
	walk(reflect.TypeFor[hood.Spec](), "")
	var schema map[string]any
	require.NoError(t, json.Unmarshal(Schema(), &schema))
	assert.Contains(t, schema["properties"], "width")
}

func FuzzReadSpec(f *testing.F) {
	f.Add(demo(f))
	f.Add(`{"version":2,"width":"3 ft"}`)
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadSpec(strings.NewReader(text))
		var faults hood.Faults
		if err != nil && (!errors.As(err, &faults) || len(faults) == 0) {
			t.Fatalf("untyped error %v", err)
		}
		if err != nil && !reflect.ValueOf(s).IsZero() {
			t.Fatal("a value beside an error")
		}
	})
}
