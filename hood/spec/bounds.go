package spec

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/sagitta/arc"
)

// checkBounds asks every text and list of a spec for no more than its tag most
// allows, and every text for nothing that cannot be drawn on a sheet.
func (s Sizes) checkBounds(c *Checker) { boundsOf(c, reflect.ValueOf(s.Spec), "", 0) }

func boundsOf(c *Checker, v reflect.Value, at string, most int) {
	switch v.Kind() {
	case reflect.Struct:
		for _, sf := range reflect.VisibleFields(v.Type()) {
			if key := sf.Tag.Get("json"); key != "" && sf.IsExported() {
				n, _ := strconv.Atoi(sf.Tag.Get("most"))
				boundsOf(c, v.FieldByIndex(sf.Index), strings.TrimPrefix(at+"."+key, "."), n)
			}
		}
	case reflect.Slice:
		if v.Len() > most {
			c.Add(at, plural(v.Len(), "value"), "", fmt.Sprintf("at most %d", most), arc.ErrRange)
			return
		}
		for i := range v.Len() {
			boundsOf(c, v.Index(i), fmt.Sprintf("%s[%d]", at, i), 0)
		}
	case reflect.String:
		boundText(c, v.String(), at, most)
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
