package packet

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
)

// Bounds on a spec file, so that no input can exhaust memory or the stack.
const (
	maxSpecBytes = 1 << 20
	maxDepth     = 24
	maxMembers   = 1000 // of a list or an object; the tags of a spec say less
	maxFaults    = 50   // told at once
	maxShown     = 40   // characters of a key or a value that a fault shows
)

// A node is one JSON value with the path that leads to it. The standard
// decoder drops duplicate keys and trailing data without a word, so the file
// is read into nodes first.
type node struct {
	path    string
	kind    byte // one of { [ " 0 b n
	text    string
	number  json.Number
	truth   bool
	keys    []string
	members []node // of an object, in step with keys; or of an array
}

// reader turns JSON text into nodes and keeps every fault it meets.
type reader struct {
	dec    *json.Decoder
	data   []byte
	faults []*arc.ParamError
}

func (r *reader) fault(path string, value any, unit, need string, kind error) {
	if len(r.faults) == maxFaults {
		path, value, unit, need = "spec", fmt.Sprintf("more than %d faults", maxFaults), "", "these cured first"
	}
	if len(r.faults) <= maxFaults {
		r.faults = append(r.faults, &arc.ParamError{Param: path, Value: value, Unit: unit, Need: need, Err: kind})
	}
}

// shown returns as much of a text as a fault shows.
func shown(text string) string {
	if len(text) <= maxShown {
		return text
	}
	if r := []rune(text[:min(len(text), 4*maxShown+4)]); len(r) > maxShown {
		return string(r[:maxShown]) + "…"
	}
	return text
}

// shownKey returns a key as paths name it: as it is where it looks like one of
// ours, else quoted, so that nothing in it reaches a terminal.
func shownKey(key string) string {
	if len(key) > 0 && len(key) <= maxShown && strings.Trim(key, "abcdefghijklmnopqrstuvwxyz_0123456789") == "" {
		return key
	}
	return strconv.Quote(shown(key))
}

// crowded is the fault of a list or an object of more than a file may hold.
func crowded(path string) error {
	return &arc.ParamError{Param: path, Value: fmt.Sprintf("more than %d values", maxMembers), Need: "fewer", Err: arc.ErrRange}
}

// parse reads one JSON value that must be all there is.
func parse(data []byte) (node, []*arc.ParamError) {
	r := &reader{dec: json.NewDecoder(bytes.NewReader(data)), data: data}
	r.dec.UseNumber()
	n, err := r.value("", 0)
	if err != nil {
		r.faults = append(r.faults, r.syntax(err))
		return n, r.faults
	}
	if _, err := r.dec.Token(); !errors.Is(err, io.EOF) {
		r.fault("spec", "data after the closing brace", "", "one JSON object and nothing after it", arc.ErrSyntax)
	}
	return n, r.faults
}

// syntax says on which line the text stopped being JSON.
func (r *reader) syntax(err error) *arc.ParamError {
	var f *arc.ParamError
	if errors.As(err, &f) {
		return f
	}
	at := r.dec.InputOffset()
	var se *json.SyntaxError
	if errors.As(err, &se) {
		at = se.Offset
	}
	if len(bytes.TrimSpace(r.data)) == 0 {
		return &arc.ParamError{Param: "spec", Value: "", Need: "a JSON object; the file is empty", Err: arc.ErrSyntax}
	}
	line := 1 + bytes.Count(r.data[:min(at, int64(len(r.data)))], []byte("\n"))
	return &arc.ParamError{Param: "spec", Value: fmt.Sprintf("line %d", line),
		Need: "valid JSON (" + err.Error() + ")", Err: arc.ErrSyntax}
}

func (r *reader) value(path string, depth int) (node, error) {
	if depth > maxDepth {
		return node{}, &arc.ParamError{Param: path, Value: depth, Need: fmt.Sprintf("at most %d levels of nesting", maxDepth), Err: arc.ErrSyntax}
	}
	tok, err := r.dec.Token()
	if err != nil {
		return node{}, err
	}
	switch t := tok.(type) {
	case json.Delim:
		if t == '{' {
			return r.object(path, depth)
		}
		return r.array(path, depth)
	case string:
		return node{path: path, kind: '"', text: t}, nil
	case json.Number:
		return node{path: path, kind: '0', number: t}, nil
	case bool:
		return node{path: path, kind: 'b', truth: t}, nil
	}
	return node{path: path, kind: 'n'}, nil
}

func (r *reader) object(path string, depth int) (node, error) {
	n := node{path: path, kind: '{'}
	seen := map[string]bool{}
	for r.dec.More() {
		tok, err := r.dec.Token()
		if err != nil {
			return n, err
		}
		key := tok.(string) // the decoder lets only strings stand here
		if len(n.members) == maxMembers || len(seen) == maxMembers {
			return n, crowded(path)
		}
		m, err := r.value(join(path, shownKey(key)), depth+1)
		if err != nil {
			return n, err
		}
		if seen[key] {
			r.fault(join(path, shownKey(key)), "given twice", "", "each key once", arc.ErrSyntax)
			continue
		}
		seen[key] = true
		n.keys = append(n.keys, key)
		n.members = append(n.members, m)
	}
	_, err := r.dec.Token()
	return n, err
}

func (r *reader) array(path string, depth int) (node, error) {
	n := node{path: path, kind: '['}
	for r.dec.More() {
		if len(n.members) == maxMembers {
			return n, crowded(path)
		}
		m, err := r.value(fmt.Sprintf("%s[%d]", path, len(n.members)), depth+1)
		if err != nil {
			return n, err
		}
		n.members = append(n.members, m)
	}
	_, err := r.dec.Token()
	return n, err
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// describe says what a node is, for a fault.
func (n node) describe() any {
	switch n.kind {
	case '"':
		return shown(n.text)
	case '0':
		return json.Number(shown(string(n.number)))
	case 'b':
		return n.truth
	case '{':
		return "{…}"
	case '[':
		return "[…]"
	}
	return "null"
}
