package readback

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
)

// DXF reads a drawing written by arc/dxf, strictly: every tag is a pair, every
// section and table closes, every layer and line type used is defined before,
// and in the release of 2000 every handle is new and every owner exists.
func DXF(r io.Reader) (Doc, error) {
	tags, err := readTags(r)
	if err != nil {
		return Doc{}, err
	}
	d := dxfReader{handles: map[string]bool{}}
	if err := d.sections(tags); err != nil {
		return d.doc, err
	}
	return d.doc, d.finish()
}

type tag struct {
	code  int
	value string
}

func readTags(r io.Reader) ([]tag, error) {
	var out []tag
	sc := bufio.NewScanner(r)
	for sc.Scan() {
		code, err := strconv.Atoi(strings.TrimSpace(sc.Text()))
		if err != nil {
			return nil, fmt.Errorf("readback: tag %d: %w", len(out), err)
		}
		if !sc.Scan() {
			return nil, errors.New("readback: a code without a value")
		}
		v := sc.Text()
		for _, c := range []byte(v) {
			if c < ' ' || c > '~' {
				return nil, fmt.Errorf("readback: value %q is not plain ASCII", v)
			}
		}
		out = append(out, tag{code, v})
	}
	return out, sc.Err()
}

// record is a group of tags that begins with a 0.
type record []tag

func (r record) get(code int) string {
	for _, t := range r {
		if t.code == code {
			return t.value
		}
	}
	return ""
}

func (r record) num(code int) float64 {
	x, _ := strconv.ParseFloat(r.get(code), 64)
	return x
}

type dxfReader struct {
	doc     Doc
	version string
	seed    string
	handles map[string]bool
	owners  []string
	open    *arc.Path // the POLYLINE whose vertices come now
}

func (d *dxfReader) sections(tags []tag) error {
	want := []string{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"}
	for len(tags) > 0 && tags[0].code == 999 {
		if strings.Contains(tags[0].value, "millimetres") {
			d.doc.Unit = "mm"
		}
		tags = tags[1:]
	}
	for {
		if len(tags) == 1 && tags[0] == (tag{0, "EOF"}) {
			return nil
		}
		if len(tags) < 2 || tags[0] != (tag{0, "SECTION"}) || tags[1].code != 2 {
			return errors.New("readback: need a section or EOF at the end")
		}
		name := tags[1].value
		i := slices.Index(want, name)
		if i < 0 {
			return fmt.Errorf("readback: section %s is out of place", name)
		}
		want = want[i+1:]
		end := slices.Index(tags, tag{0, "ENDSEC"})
		if end < 0 {
			return fmt.Errorf("readback: section %s does not end", name)
		}
		if slices.Contains(tags[2:end], tag{0, "SECTION"}) {
			return fmt.Errorf("readback: section %s does not end", name)
		}
		if err := d.section(name, tags[2:end]); err != nil {
			return err
		}
		tags = tags[end+1:]
	}
}

func (d *dxfReader) section(name string, tags []tag) error {
	if name == "HEADER" {
		d.header(tags)
		return nil
	}
	records, err := d.records(tags)
	if err != nil {
		return err
	}
	for _, r := range records {
		switch name {
		case "TABLES":
			err = d.tableRecord(r)
		case "ENTITIES":
			err = d.entity(r)
		}
		if err != nil {
			return err
		}
	}
	if d.open != nil {
		return errors.New("readback: a POLYLINE without SEQEND")
	}
	return nil
}

func (d *dxfReader) header(tags []tag) {
	for i := 0; i+1 < len(tags); i++ {
		switch v := tags[i+1].value; tags[i] {
		case tag{9, "$ACADVER"}:
			d.version = v
		case tag{9, "$HANDSEED"}:
			d.seed = v
		case tag{9, "$INSUNITS"}:
			d.doc.Unit = map[string]string{"4": "mm"}[v]
		}
	}
}

// records cuts tags at every 0 and notes handles and owners.
func (d *dxfReader) records(tags []tag) ([]record, error) {
	var out []record
	for _, t := range tags {
		if t.code == 0 {
			out = append(out, nil)
		}
		if len(out) == 0 {
			return nil, errors.New("readback: a section begins within a record")
		}
		out[len(out)-1] = append(out[len(out)-1], t)
		if t.code == 330 {
			d.owners = append(d.owners, t.value)
		}
	}
	for _, r := range out {
		h := r.get(5)
		if r[0].value == "DIMSTYLE" {
			h = r.get(105)
		}
		if h == "" {
			continue
		}
		if d.handles[h] {
			return nil, fmt.Errorf("readback: handle %s is given twice", h)
		}
		d.handles[h] = true
	}
	return out, nil
}

func (d *dxfReader) tableRecord(r record) error {
	switch name := r.get(2); r[0].value {
	case "LAYER":
		if !slices.Contains(d.doc.LineTypes, r.get(6)) {
			return fmt.Errorf("readback: layer %s has the line type %q, which is not there", name, r.get(6))
		}
		d.doc.Layers = append(d.doc.Layers, name)
	case "LTYPE":
		d.doc.LineTypes = append(d.doc.LineTypes, name)
	}
	return nil
}

func (d *dxfReader) entity(r record) error {
	layer := r.get(8)
	if !slices.Contains(d.doc.Layers, layer) {
		return fmt.Errorf("readback: %s on layer %q, which is not there", r[0].value, layer)
	}
	if d.version == "AC1015" && (r.get(5) == "" || r.get(330) == "" || r.get(100) != "AcDbEntity") {
		return fmt.Errorf("readback: %s without handle, owner or class", r[0].value)
	}
	for _, t := range r {
		if t.code >= 10 && t.code < 60 {
			x, err := strconv.ParseFloat(t.value, 64)
			if err == nil {
				err = finite(r[0].value, x)
			}
			if err != nil {
				return err
			}
		}
	}
	return d.shape(r, layer)
}

func (d *dxfReader) shape(r record, layer string) error {
	kind := r[0].value
	if (kind == "VERTEX" || kind == "SEQEND") != (d.open != nil) {
		return fmt.Errorf("readback: %s is out of place", kind)
	}
	switch kind {
	case "LWPOLYLINE":
		p := arc.Path{Closed: r.get(70) == "1"}
		for _, t := range r {
			x, _ := strconv.ParseFloat(t.value, 64)
			switch t.code {
			case 10:
				p.V = append(p.V, arc.V(x, 0, 0))
			case 20:
				p.V[len(p.V)-1].P.Y = x
			case 42:
				p.V[len(p.V)-1].K = x
			}
		}
		if r.get(90) != strconv.Itoa(len(p.V)) {
			return fmt.Errorf("readback: %s vertices announced, %d there", r.get(90), len(p.V))
		}
		d.doc.Shapes = append(d.doc.Shapes, Shape{layer, []arc.Path{p}})
	case "POLYLINE":
		if r.get(66) != "1" {
			return errors.New("readback: POLYLINE without 66 = 1")
		}
		d.open = &arc.Path{Closed: r.get(70) == "1"}
	case "VERTEX":
		d.open.V = append(d.open.V, arc.V(r.num(10), r.num(20), r.num(42)))
	case "SEQEND":
		d.doc.Shapes = append(d.doc.Shapes, Shape{layer, []arc.Path{*d.open}})
		d.open = nil
	case "SOLID":
		d.doc.Solids++
	case "TEXT":
		d.doc.Texts = append(d.doc.Texts, text(r, layer))
	default:
		return fmt.Errorf("readback: entity %s", kind)
	}
	return nil
}

func text(r record, layer string) Text {
	t := Text{Layer: layer, Text: r.get(1), X: r.num(10), Y: r.num(20), Height: r.num(40), Degrees: r.num(50)}
	if r.get(72) != "" {
		t.X, t.Y = r.num(11), r.num(21)
	}
	return t
}

func (d *dxfReader) finish() error {
	switch d.version {
	case "AC1009":
		if len(d.owners)+len(d.handles) > 0 {
			return errors.New("readback: release 12 without use of handles has some")
		}
	case "AC1015":
		seed, err := strconv.ParseUint(d.seed, 16, 64)
		if err != nil {
			return fmt.Errorf("readback: handle seed: %w", err)
		}
		for h := range d.handles {
			if v, err := strconv.ParseUint(h, 16, 64); err != nil || v >= seed {
				return fmt.Errorf("readback: handle %s is not below the seed %s", h, d.seed)
			}
		}
		for _, o := range d.owners {
			if o != "0" && !d.handles[o] {
				return fmt.Errorf("readback: owner %s is not there", o)
			}
		}
	default:
		return fmt.Errorf("readback: version %q", d.version)
	}
	if d.doc.Unit != "mm" || !slices.Contains(d.doc.Layers, "0") {
		return errors.New("readback: no unit, or no layer 0")
	}
	return nil
}
