package spec

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/sagitta/arc"
)

// A bound is a text or a list of a struct, what its tag most allows, and its
// key.
type bound struct {
	index []int
	key   string
	most  int
}

// bounds lists the texts and lists of a struct and of those in it.
func bounds(t reflect.Type) []bound {
	var out []bound
	for _, sf := range reflect.VisibleFields(t) {
		key := sf.Tag.Get("json")
		if key == "" || !sf.IsExported() {
			continue
		}
		switch sf.Type.Kind() {
		case reflect.Struct:
			for _, b := range bounds(sf.Type) {
				out = append(out, bound{append(slices.Clone(sf.Index), b.index...), key + "." + b.key, b.most})
			}
		case reflect.Slice, reflect.String:
			n, _ := strconv.Atoi(sf.Tag.Get("most"))
			out = append(out, bound{sf.Index, key, n})
		}
	}
	return out
}

// boundsOf holds the bounds of a type, worked out once.
var boundsOf sync.Map

// checkBounds asks every text and list of a spec for no more than its tag most
// allows, and every text for nothing that cannot be drawn on a sheet.
func (s Sizes) checkBounds(c *Checker) { c.bounded(reflect.ValueOf(&s.Spec).Elem(), "") }

// bounded checks the texts and lists of a struct whose keys begin with at.
func (c *Checker) bounded(v reflect.Value, at string) {
	known, ok := boundsOf.Load(v.Type())
	if !ok {
		known, _ = boundsOf.LoadOrStore(v.Type(), bounds(v.Type()))
	}
	for _, b := range known.([]bound) {
		f := v.FieldByIndex(b.index)
		switch {
		case f.Kind() == reflect.String:
			boundText(c, f.String(), at+b.key, b.most)
		case f.Len() > b.most:
			c.Add(at+b.key, plural(f.Len(), "value"), "", fmt.Sprintf("at most %d", b.most), arc.ErrRange)
		case f.Type().Elem().Kind() == reflect.Struct:
			for i := range f.Len() {
				c.bounded(f.Index(i), fmt.Sprintf("%s%s[%d].", at, b.key, i))
			}
		}
	}
}

func boundText(c *Checker, text, at string, most int) {
	n := utf8.RuneCountInString(text)
	switch {
	case n > most:
		c.Add(at, plural(n, "character"), "", fmt.Sprintf("at most %d", most), arc.ErrRange)
	case !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl):
		c.Add(at, text, "", "text without control characters", arc.ErrSyntax)
	}
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
