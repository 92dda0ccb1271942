package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
)

// A node is an element with what it holds.
type node struct {
	name string
	line int
	at   []xml.Attr
	kids []*node
	text strings.Builder // of style elements
	size int             // of the attributes, in bytes
}

// parse reads the tree of elements of the SVG namespace, or of none; others
// keep their name with their namespace before it.
func parse(text []byte) (*node, error) {
	x := xml.NewDecoder(bytes.NewReader(text))
	x.Entity = xml.HTMLEntity
	x.CharsetReader = latin1
	var root *node
	var open []*node
	for {
		line, _ := x.InputPos()
		t, err := x.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fault("line "+strconv.Itoa(line), clip(err.Error()), "", "well-formed XML in UTF-8, or in Latin-1 that says so", arc.ErrSyntax)
		}
		switch t := t.(type) {
		case xml.StartElement:
			n := &node{name: t.Name.Local, line: line, at: t.Copy().Attr}
			for _, a := range n.at {
				n.size += len(a.Value)
			}
			if s := t.Name.Space; s != "" && s != "http://www.w3.org/2000/svg" {
				n.name = s + ":" + n.name
			}
			switch {
			case len(open) >= maxDepth:
				return nil, fault("line "+strconv.Itoa(line), len(open), "", "at most "+strconv.Itoa(maxDepth)+" elements in each other", arc.ErrRange)
			case len(open) > 0:
				up := open[len(open)-1]
				up.kids = append(up.kids, n)
			case root == nil:
				root = n
			}
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 && open[len(open)-1].name == "style" {
				open[len(open)-1].text.Write(t)
			}
		}
	}
	if root == nil || root.name != "svg" {
		return nil, fault("file", "no svg element", "", "an svg element around all", arc.ErrSyntax)
	}
	return root, nil
}

// latin1 reads the two old character sets that need no table.
func latin1(charset string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(charset) {
	case "us-ascii", "ascii":
		return r, nil
	case "iso-8859-1", "latin1":
		b, err := io.ReadAll(r)
		out := make([]rune, len(b))
		for i, c := range b {
			out[i] = rune(c)
		}
		return strings.NewReader(string(out)), err
	}
	return nil, errors.New("character set " + clip(charset))
}

// clip keeps an error short.
func clip(s string) string { return s[:min(len(s), 60)] }

// attr returns an attribute without a namespace.
func (n *node) attr(name string) string {
	for _, a := range n.at {
		if a.Name.Local == name && a.Name.Space == "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// href returns the id that a use element names, "" where it is none of this file.
func (n *node) href() string {
	for _, space := range [2]string{"", "http://www.w3.org/1999/xlink"} {
		for _, a := range n.at {
			if a.Name.Local == "href" && a.Name.Space == space {
				if id, ok := strings.CutPrefix(strings.TrimSpace(a.Value), "#"); ok {
					return id
				}
			}
		}
	}
	return ""
}

// prop returns a property, which the attribute style sets or else one of its
// own name.
func (n *node) prop(name string) string {
	for _, s := range strings.Split(n.attr("style"), ";") {
		if k, v, ok := strings.Cut(s, ":"); ok && strings.TrimSpace(k) == name {
			v, _, _ = strings.Cut(v, "!")
			return strings.ToLower(strings.TrimSpace(v))
		}
	}
	return strings.ToLower(n.attr(name))
}

// styled reports whether the attribute style says where an element goes.
func (n *node) styled() bool {
	for _, s := range strings.Split(n.attr("style"), ";") {
		k, _, _ := strings.Cut(s, ":")
		switch strings.ToLower(strings.TrimSpace(k)) {
		case "x", "y", "cx", "cy", "r", "rx", "ry", "width", "height", "d", "translate", "rotate", "scale", "offset", "offset-path", "zoom":
			return true
		}
	}
	return false
}

// viewBox returns its four numbers, and whether they can be used.
func (n *node) viewBox() (b [4]float64, ok bool) {
	s := scanner{s: n.attr("viewBox")}
	for i := range b {
		if b[i], ok = s.number(); !ok {
			return b, false
		}
	}
	return b, s.done() && b[2] > 0 && b[3] > 0
}

// fit returns the scales across and down that preserveAspectRatio makes of
// those that would fill, and how much of what is left over comes first: 0, ½ or
// 1 of it.
func (n *node) fit(sx, sy float64) (x, y, fx, fy float64) {
	f := strings.Fields(n.attr("preserveAspectRatio"))
	if len(f) > 0 && f[0] == "defer" {
		f = f[1:]
	}
	if len(f) > 0 && f[0] == "none" {
		return sx, sy, 0, 0
	}
	s := math.Min(sx, sy)
	if len(f) > 1 && f[1] == "slice" {
		s = math.Max(sx, sy)
	}
	fx, fy = 0.5, 0.5
	if len(f) > 0 {
		share := map[string]float64{"Min": 0, "Mid": 0.5, "Max": 1}
		if a := f[0]; len(a) == 8 && a[0] == 'x' && a[4] == 'Y' {
			fx, fy = share[a[1:4]], share[a[5:8]]
		}
	}
	return s, s, fx, fy
}

// length returns an attribute as a length in user units, or the value given
// where it is not there; of is what a percentage is of.
func (n *node) length(name string, or, of float64) (float64, bool) {
	s := n.attr(name)
	if s == "" || s == "auto" {
		return or, true
	}
	v, unit, ok := splitLength(s)
	if !ok {
		return 0, false
	}
	if unit == "%" {
		return v / 100 * of, true
	}
	f, known := toMM[unit]
	return v * (f / toMM["px"]), known
}

// splitLength returns the number and the unit of a length.
func splitLength(s string) (v float64, unit string, ok bool) {
	x := scanner{s: strings.TrimSpace(s)}
	v, ok = x.number()
	return v, strings.ToLower(x.s), ok
}
