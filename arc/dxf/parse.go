package dxf

import (
	"context"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
)

// A pair is a group code and its value.
type pair struct {
	code  int
	value string
}

// An entity is its type and groups, and the vertices that follow a POLYLINE.
type entity struct {
	kind  string
	line  int
	pairs []pair
	verts []entity
}

// A block is entities drawn as often as it is inserted.
type block struct {
	head entity
	body []entity
}

type decoder struct {
	ctx      context.Context
	o        DecodeOptions
	unit     float64
	insUnits int
	model    []entity
	blocks   map[string]*block
	layer    map[string]int
	layers   []Layer
	skipped  []Skipped
	drawn    int
	pairs    int
	vertices int
	failed   int // curves that could not be read, which takes time
}

// parse reads the text into header, blocks and model space.
func (d *decoder) parse(text string) error {
	const fn = "dxf.Decode"
	var now *entity
	var section, variable string
	var in *block
	var line int
	put := func(e *entity) {
		if e == nil {
			return
		}
		switch {
		case e.kind == "SECTION":
		case e.kind == "ENDSEC":
			section = ""
		case section == "BLOCKS" && e.kind == "BLOCK":
			in = &block{head: *e}
			d.blocks[strings.ToUpper(e.text(2))] = in
		case section == "BLOCKS" && e.kind == "ENDBLK":
			in = nil
		case section == "BLOCKS" && in != nil:
			in.body = add(in.body, *e)
		case section == "ENTITIES":
			d.model = add(d.model, *e)
		}
	}
	ended := false
	for len(text) > 0 && !ended {
		var code, value string
		code, text, _ = strings.Cut(text, "\n")
		value, text, _ = strings.Cut(text, "\n")
		line += 2
		n, err := strconv.Atoi(strings.TrimSpace(code))
		if err != nil {
			if strings.TrimSpace(code+value+text) == "" {
				break
			}
			return &ParamError{Func: fn, Param: "group code in line " + strconv.Itoa(line-1), Value: clip(code), Need: "a whole number", Err: arc.ErrSyntax}
		}
		value = strings.TrimSpace(value)
		switch {
		case n == 0:
			put(now)
			now = &entity{kind: strings.ToUpper(value), line: line - 1}
			ended = now.kind == "EOF"
		case now != nil && now.kind == "SECTION" && n == 2 && len(now.pairs) == 0: // a header holds others
			now.pairs = append(now.pairs, pair{n, value})
			section = strings.ToUpper(value)
		case section == "HEADER" && n == 9:
			variable = value
		case section == "HEADER" && n == 70 && variable == "$INSUNITS":
			d.insUnits, _ = strconv.Atoi(value)
		case now != nil && (section == "ENTITIES" || section == "BLOCKS"):
			now.pairs = append(now.pairs, pair{n, value})
		}
	}
	if !ended {
		return &ParamError{Func: fn, Param: "line", Value: line, Need: "an end of file, 0 EOF", Err: arc.ErrSyntax}
	}
	return nil
}

// add appends an entity, or gives it to the POLYLINE or INSERT before it.
func add(list []entity, e entity) []entity {
	n := len(list)
	switch {
	case e.kind == "SEQEND":
		return list
	case n > 0 && e.kind == "VERTEX" && list[n-1].kind == "POLYLINE":
		list[n-1].verts = append(list[n-1].verts, e)
		return list
	}
	return append(list, e)
}

// clip keeps an error short.
func clip(s string) string { return s[:min(len(s), 40)] }

// text returns the first value of a code.
func (e *entity) text(code int) string {
	for _, p := range e.pairs {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

// num returns the first number of a code, or what holds where there is none;
// what is no number is NaN, which no path passes with.
func (e *entity) num(code int, or float64) float64 {
	for _, p := range e.pairs {
		if p.code == code {
			return number(p.value)
		}
	}
	return or
}

func (e *entity) int(code int) int { n, _ := strconv.Atoi(e.text(code)); return n }

// all returns every number of a code.
func (e *entity) all(code int) (out []float64) {
	for _, p := range e.pairs {
		if p.code == code {
			out = append(out, number(p.value))
		}
	}
	return out
}
