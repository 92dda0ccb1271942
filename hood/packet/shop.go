package packet

import (
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"slices"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
	"example.com/sagitta/sheet/cut"
	"example.com/sagitta/sheet/rs274"
)

// A Shop is what a shop file says: the cutters and habits of a shop, and the
// dialect of its machine. Its keys are the fields of [cut.Options] and
// [rs274.Options], in small letters with _ between the words; what they leave
// 0 means the same. The zero Shop has the cutters that the spec speaks of.
type Shop struct {
	Version int           `json:"version" doc:"of the meaning of these keys: 1"`
	Title   string        `json:"title" most:"200" doc:"name of the shop or machine"`
	Cut     cut.Options   `json:"cut" doc:"tools and habits; lengths in mm, angles in degrees, feeds in mm/min, speeds in rev/min. Without tools those of the spec's cut and bend are taken"`
	Dialect rs274.Options `json:"dialect" doc:"how the controller wants its programs"`
}

//go:embed shop.json
var defaultShop []byte

// DefaultShop returns the shop file that holds where none is given. The unit of
// its programs is that of what people read.
func DefaultShop() []byte { return append([]byte(nil), defaultShop...) }

// shopVersion is the version of the keys.
const shopVersion = 1

// ReadShop reads a shop file, as strictly as [ReadSpec] reads a spec: every
// fault it can reach comes back in hood.Faults. Lengths are in mm, or strings
// with their unit.
func ReadShop(r io.Reader) (Shop, error) {
	s, err := fileOf[Shop](r, "shop")
	if err != nil {
		return s, err
	}
	return s, s.Validate()
}

// Validate returns what is wrong with the values of a shop, as hood.Faults.
func (s Shop) Validate() error {
	var faults hood.Faults
	if s.Version != shopVersion {
		faults = append(faults, &arc.ParamError{Param: "version", Value: s.Version, Need: fmt.Sprint(shopVersion), Err: arc.ErrRange})
	}
	o := s.Cut
	if len(o.Tools) == 0 {
		o.Tools = cut.Tools(6, 0, 18)
	}
	faults = append(faults, named("cut", o.Check())...)
	faults = append(faults, named("dialect", s.Dialect.Check())...)
	if len(faults) > 0 {
		return faults
	}
	return nil
}

// named returns a fault of an option under its key in the file.
func named(section string, err error) hood.Faults {
	var all interface{ Unwrap() []error }
	if errors.As(err, &all) {
		var out hood.Faults
		for _, e := range all.Unwrap() {
			out = append(out, named(section, e)...)
		}
		return out
	}
	var p *arc.ParamError
	if !errors.As(err, &p) {
		return nil
	}
	q := *p
	parts := strings.Split(strings.TrimPrefix(q.Param, "opt."), ".")
	for i := range parts {
		parts[i] = snake(parts[i])
	}
	q.Func, q.Param = "", section+"."+strings.Join(parts, ".")
	return hood.Faults{&q}
}

// Encode returns the file of a shop. Reading it gives the same shop.
func (s Shop) Encode() ([]byte, error) {
	out, err := json.MarshalIndent(plainOf(reflect.ValueOf(s)), "", " ")
	return append(out, '\n'), err
}

// plainOf returns a value as the maps and lists of JSON, without zero fields.
func plainOf(v reflect.Value) any {
	switch v.Kind() {
	case reflect.Pointer:
		return plainOf(v.Elem())
	case reflect.Struct:
		m := map[string]any{}
		for _, sf := range fieldsOf(v.Type()) {
			if w := v.FieldByIndex(sf.Index); !w.IsZero() {
				m[keyOf(sf)] = plainOf(w)
			}
		}
		return m
	case reflect.Slice:
		list := []any{}
		for i := range v.Len() {
			list = append(list, plainOf(v.Index(i)))
		}
		return list
	case reflect.Float64:
		if v.Type() == angleType {
			return degreesOf(v.Float())
		}
	}
	if words := wordsOf(v.Type()); words != nil {
		return fmt.Sprint(v.Interface())
	}
	return v.Interface()
}

// degreesOf returns the degrees that are read as just this angle: dividing and
// multiplying rounds twice.
func degreesOf(rad float64) float64 {
	d := rad / float64(arc.Degree)
	for _, x := range [3]float64{d, math.Nextafter(d, math.Inf(1)), math.Nextafter(d, math.Inf(-1))} {
		if x*float64(arc.Degree) == rad {
			return x
		}
	}
	return d
}

// wordsOf returns the words of a type whose values are named: what its String
// gives from 0 on until it repeats itself or knows no more.
func wordsOf(t reflect.Type) []string {
	if t.Kind() != reflect.Int && t.Kind() != reflect.Uint8 || !t.Implements(reflect.TypeFor[fmt.Stringer]()) {
		return nil
	}
	var out []string
	for i := range 32 {
		v := reflect.New(t).Elem()
		if v.CanInt() {
			v.SetInt(int64(i))
		} else {
			v.SetUint(uint64(i))
		}
		s := v.Interface().(fmt.Stringer).String()
		if s == "unknown" || slices.Contains(out, s) {
			break
		}
		out = append(out, s)
	}
	return out
}

// fillWord sets a value of a named type by its word.
func (f *filler) fillWord(v reflect.Value, n node, words []string) {
	i := slices.Index(words, n.text)
	if n.kind != '"' || i < 0 {
		f.fault(n.path, n.describe(), "", "one of: "+strings.Join(words, ", "), arc.ErrSyntax)
		return
	}
	if v.CanInt() {
		v.SetInt(int64(i))
	} else {
		v.SetUint(uint64(i))
	}
}

// snake returns a field's name in small letters with _ between its words.
func snake(name string) string {
	var b strings.Builder
	for i, r := range name {
		if r >= 'A' && r <= 'Z' {
			if i > 0 {
				b.WriteByte('_')
			}
			r += 'a' - 'A'
		}
		b.WriteRune(r)
	}
	return b.String()
}

// ShopSchema returns the JSON Schema (draft 2020-12) of a shop file.
func ShopSchema() []byte { return schema(reflect.TypeFor[Shop](), "Shop file") }

// cutters returns the cutters and habits for a spec: the file's, its end mill
// for the outlines first, or those the spec speaks of: one for outlines, one as
// wide as a kerf, and a V cutter for 45 degree miters.
func (s Shop) cutters(spec hood.Spec, thickness float64) (cut.Options, error) {
	o := s.Cut
	// What a blend may round, the replay allows.
	if o.Tolerance == 0 && s.Dialect.PathWithin > 0 {
		o.Tolerance = 0.05 // what zero means to cut.Replay
	}
	o.Tolerance += s.Dialect.PathWithin
	if len(o.Tools) == 0 {
		o.Tools = cut.Tools(spec.Cut.Tool, spec.Bend.KerfWidth, thickness)
		return o, nil
	}
	i := slices.IndexFunc(o.Tools, func(t cut.Tool) bool { return !t.V() && math.Abs(t.Diameter-spec.Cut.Tool) <= 0.01 })
	if i < 0 {
		return o, hood.Faults{{Param: "cut.tool", Value: spec.Cut.Tool, Unit: "mm", Need: "the diameter of an end mill of the shop file", Err: cut.ErrNoTool}}
	}
	t := o.Tools[i]
	o.Tools = append([]cut.Tool{t}, slices.Delete(slices.Clone(o.Tools), i, i+1)...)
	return o, nil
}

// shop returns the shop of the options, or the default one.
func (o Options) shop() Shop {
	if o.Shop != nil {
		return *o.Shop
	}
	s, err := ReadShop(strings.NewReader(string(defaultShop)))
	if err != nil {
		panic(err) // the embedded file is tested
	}
	s.Dialect.Unit = o.Unit
	return s
}
