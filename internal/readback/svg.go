package readback

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/sagitta/arc"
)

// SVG reads a drawing written by arc/svg, strictly: true size in mm, title and
// description, absolute M, L, A and Z commands, circular arcs that need no
// scaling.
func SVG(r io.Reader) (Doc, error) {
	s := svgReader{dec: xml.NewDecoder(r)}
	for {
		tok, err := s.dec.Token()
		if err == io.EOF {
			return s.doc, s.finish()
		}
		if err == nil {
			err = s.token(tok)
		}
		if err != nil {
			return s.doc, err
		}
	}
}

type svgReader struct {
	dec      *xml.Decoder
	doc      Doc
	open     []string // elements around here
	children int      // of the svg element so far
	layer    string
	text     *strings.Builder
	pending  Text
}

func (s *svgReader) finish() error {
	if s.doc.Unit != "mm" || s.doc.Title == "" {
		return errors.New("readback: no svg with a size in mm and a title")
	}
	return nil
}

func (s *svgReader) token(tok xml.Token) error {
	switch t := tok.(type) {
	case xml.StartElement:
		s.open = append(s.open, t.Name.Local)
		return s.start(t)
	case xml.EndElement:
		s.end(t.Name.Local)
		s.open = s.open[:len(s.open)-1]
	case xml.CharData:
		if s.text != nil {
			s.text.Write(t)
		} else if strings.TrimSpace(string(t)) != "" {
			return fmt.Errorf("readback: stray text %q", t)
		}
	}
	return nil
}

func (s *svgReader) start(t xml.StartElement) error {
	a := map[string]string{}
	for _, x := range t.Attr {
		if strings.Contains(x.Value, "NaN") || strings.Contains(x.Value, "Inf") {
			return fmt.Errorf("readback: %s=%q", x.Name.Local, x.Value)
		}
		if _, twice := a[x.Name.Local]; twice {
			return fmt.Errorf("readback: attribute %s twice", x.Name.Local)
		}
		a[x.Name.Local] = x.Value
	}
	if len(s.open) == 2 {
		s.children++
		if want := []string{"title", "desc"}; s.children <= 2 && t.Name.Local != want[s.children-1] {
			return fmt.Errorf("readback: element %d of svg is %s, need %s", s.children, t.Name.Local, want[s.children-1])
		}
	}
	switch t.Name.Local {
	case "svg":
		return s.svg(t, a)
	case "title", "desc":
		s.text = &strings.Builder{}
	case "g":
		s.layer = a["data-layer"]
		s.doc.Layers = append(s.doc.Layers, s.layer)
	case "path":
		return s.path(a)
	case "text":
		return s.label(a)
	default:
		return fmt.Errorf("readback: element %s", t.Name.Local)
	}
	return nil
}

func (s *svgReader) end(name string) {
	switch name {
	case "title":
		s.doc.Title, s.text = s.text.String(), nil
	case "desc":
		s.doc.Desc, s.text = s.text.String(), nil
	case "text":
		s.pending.Text, s.text = s.text.String(), nil
		s.doc.Texts = append(s.doc.Texts, s.pending)
	}
}

func (s *svgReader) svg(t xml.StartElement, a map[string]string) error {
	w, okW := strings.CutSuffix(a["width"], "mm")
	h, okH := strings.CutSuffix(a["height"], "mm")
	n, err := numbers(w + " " + h + " " + a["viewBox"])
	switch {
	case err != nil:
		return err
	case t.Name.Space != "http://www.w3.org/2000/svg" || a["role"] != "img":
		return errors.New("readback: need the SVG name space and role img")
	case !okW || !okH || len(n) != 6:
		return errors.New("readback: need a width and height in mm and a viewBox")
	case n[0] != n[4] || n[1] != n[5] || !(n[0] > 0 && n[1] > 0):
		return fmt.Errorf("readback: a user unit is not 1 mm: %v", n)
	}
	s.doc.Unit, s.doc.Width, s.doc.Height = "mm", n[0], n[1]
	return nil
}

func numbers(s string) ([]float64, error) {
	var out []float64
	for _, f := range strings.Fields(s) {
		x, err := strconv.ParseFloat(f, 64)
		if err == nil {
			err = finite("number", x)
		}
		if err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}

func (s *svgReader) label(a map[string]string) error {
	n, err := numbers(a["x"] + " " + a["y"] + " " + a["font-size"])
	if err != nil || len(n) != 3 || n[2] <= 0 {
		return fmt.Errorf("readback: text at %v: %w", n, err)
	}
	s.pending = Text{Layer: s.layer, X: n[0], Y: -n[1], Height: n[2] * 0.716}
	if tr := a["transform"]; tr != "" {
		r, err := numbers(strings.TrimSuffix(strings.TrimPrefix(tr, "rotate("), ")"))
		if err != nil || len(r) != 3 || r[1] != n[0] || r[2] != n[1] {
			return fmt.Errorf("readback: transform %q", tr)
		}
		s.pending.Degrees = -r[0]
	}
	s.text = &strings.Builder{}
	return nil
}

func (s *svgReader) path(a map[string]string) error {
	loops, err := parsePathData(a["d"])
	if err != nil {
		return err
	}
	if a["stroke"] == "none" {
		s.doc.Solids++
		return nil
	}
	s.doc.Shapes = append(s.doc.Shapes, Shape{s.layer, loops})
	return nil
}

// parsePathData reads M, L, A and Z commands into paths with y up.
func parsePathData(d string) ([]arc.Path, error) {
	for _, c := range "MLAZ" {
		d = strings.ReplaceAll(d, string(c), " "+string(c)+" ")
	}
	f := strings.Fields(d)
	var out []arc.Path
	take := func(n int) ([]float64, error) {
		if len(f) < n {
			return nil, errors.New("readback: path data ends early")
		}
		x, err := numbers(strings.Join(f[:n], " "))
		f = f[n:]
		return x, err
	}
	for len(f) > 0 {
		cmd := f[0]
		f = f[1:]
		n, ok := map[string]int{"M": 2, "L": 2, "A": 7, "Z": 0}[cmd]
		if !ok || len(out) == 0 && cmd != "M" {
			return nil, fmt.Errorf("readback: path command %q", cmd)
		}
		x, err := take(n)
		if err != nil {
			return nil, err
		}
		if cmd == "M" {
			out = append(out, arc.Path{V: []arc.Vertex{arc.V(x[0], -x[1], 0)}})
			continue
		}
		if err := draw(&out[len(out)-1], cmd, x); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// draw carries a path on by one command.
func draw(p *arc.Path, cmd string, x []float64) error {
	last := len(p.V) - 1
	switch {
	case p.Closed:
		return errors.New("readback: a command after Z")
	case cmd == "L":
		p.V = append(p.V, arc.V(x[0], -x[1], 0))
	case cmd == "A":
		end := r2.Vec{X: x[5], Y: -x[6]}
		k, err := quarterTan(r2.Norm(r2.Sub(end, p.V[last].P)), x)
		if err != nil {
			return err
		}
		p.V[last].K = k
		p.V = append(p.V, arc.Vertex{P: end})
	case cmd == "Z":
		p.Closed = true
		if last > 0 && p.V[last].P == p.V[0].P {
			p.V = p.V[:last]
		}
	}
	return nil
}

// quarterTan returns tan(turn/4) of an A command over a chord.
func quarterTan(chord float64, x []float64) (float64, error) {
	sin := chord / 2 / x[0]
	if x[0] != x[1] || x[2] != 0 || !(x[0] > 0) || chord == 0 || sin > 1 {
		return 0, fmt.Errorf("readback: arc %v over a chord of %v", x, chord)
	}
	k := math.Tan(math.Asin(sin) / 2)
	if x[3] == 1 {
		k = 1 / k
	}
	if x[4] == 1 { // clockwise to the eye
		k = -k
	}
	return k, nil
}
