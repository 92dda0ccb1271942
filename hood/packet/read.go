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
	data, err := io.ReadAll(io.LimitReader(r, maxSpecBytes+1))
	if err != nil {
		return hood.Spec{}, hood.Faults{{Param: "spec", Value: err.Error(), Need: "a file that can be read", Err: err}}
	}
	if len(data) > maxSpecBytes {
		return hood.Spec{}, hood.Faults{{Param: "spec", Value: "more than 1 MiB", Need: "a file of at most 1 MiB", Err: arc.ErrRange}}
	}
	n, faults := parse(data)
	if len(faults) > 0 {
		return hood.Spec{}, hood.Faults(faults)
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
