package packet

import (
	"fmt"
	"io"
	"reflect"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood"
)

// ReadSpec reads a spec file: strict JSON of at most 1 MiB in which an unknown
// key, a duplicate key, a null and anything after the object are faults. A
// length is a number in the file's "units" (mm or in) or a string with its
// unit. It reports every fault it can reach as hood.Faults, each with the path
// of the key; the values themselves are judged by [hood.Spec.Validate]. The keys
// of a file of another version mean something else, so of it only that is said.
func ReadSpec(r io.Reader) (hood.Spec, error) {
	n, err := document(r, "spec")
	if err != nil {
		return hood.Spec{}, err
	}
	f := &filler{reader: &reader{}, unit: arc.Millimeters}
	if f.header(n); f.other {
		return hood.Spec{}, hood.Faults(f.faults)
	}
	var s hood.Spec
	f.fill(reflect.ValueOf(&s).Elem(), n, "", 0)
	if len(f.faults) > 0 {
		return hood.Spec{}, hood.Faults(f.faults)
	}
	return s, nil
}

// document parses the one object of a file, which faults call by a name.
func document(r io.Reader, name string) (node, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxSpecBytes+1))
	if err != nil {
		return node{}, hood.Faults{{Param: name, Value: err.Error(), Need: "a file that can be read", Err: err}}
	}
	if len(data) > maxSpecBytes {
		return node{}, hood.Faults{{Param: name, Value: "more than 1 MiB", Need: "a file of at most 1 MiB", Err: arc.ErrRange}}
	}
	n, faults := parse(data)
	if len(faults) > 0 {
		return node{}, hood.Faults(faults)
	}
	return n, nil
}

// fileOf reads a value from a file in which a bare length is in mm.
func fileOf[T any](r io.Reader, name string) (v T, err error) {
	n, err := document(r, name)
	if err != nil {
		return v, err
	}
	f := &filler{reader: &reader{}, unit: arc.Millimeters}
	f.fill(reflect.ValueOf(&v).Elem(), n, "", 0)
	if len(f.faults) > 0 {
		var none T
		return none, hood.Faults(f.faults)
	}
	return v, nil
}

// header reads the two keys that say how to read the others.
func (f *filler) header(n node) {
	version := false
	for i, key := range n.keys {
		m := n.members[i]
		switch key {
		case "units":
			switch {
			case m.kind == '"' && m.text == "in":
				f.unit = arc.Inches
			case m.kind != '"' || m.text != "mm" && m.text != "":
				f.fault("units", m.describe(), "", `"mm" or "in"`, arc.ErrSyntax)
			}
		case "version":
			version = true
			v, _ := m.whole()
			if need := hood.NeedVersion(int(v)); need != "" {
				f.fault("version", m.describe(), "", need, arc.ErrSyntax)
				f.other = v != 0
			}
		}
	}
	if n.kind == '{' && !version {
		f.fault("version", "missing", "", hood.NeedVersion(0), arc.ErrSyntax)
	}
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
