package dxf

import (
	"bytes"
	"example.com/sagitta/internal/num"
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/arc/draw"
)

// ParamError is [arc.ParamError].
type ParamError = arc.ParamError

// Options say how a drawing is written. The zero Options write the release of
// 2000.
type Options struct {
	// R12 writes release 12 instead, which nearly every machine reads. Layer
	// names are then written in capitals.
	R12 bool
}

// Encode writes d to w. It returns a [*ParamError] where the drawing cannot be
// drawn (see [draw.Drawing.Check]) or two of its layers have names that the
// format cannot tell apart, and then writes nothing.
//
// Coordinates are rounded to 1e-6 mm, bulges to 1e-12.
func Encode(w io.Writer, d draw.Drawing, o Options) error {
	if err := d.Check(); err != nil {
		return err
	}
	e := &encoder{r12: o.R12}
	if err := e.nameLayers(d.Layers); err != nil {
		return err
	}
	e.file(d)
	_, err := w.Write(e.Bytes())
	return err
}

// encoder collects the tags.
type encoder struct {
	bytes.Buffer
	r12    bool
	names  []string // of the layers, as written
	handle uint64   // last one given out
}

// nameLayers gives every layer a name that the format allows.
func (e *encoder) nameLayers(layers []draw.Layer) error {
	seen := map[string]bool{"0": true}
	for _, l := range layers {
		n := layerName(l.Name, e.r12)
		if key := strings.ToUpper(n); seen[key] {
			return &ParamError{Func: "dxf.Encode", Param: "layer name", Value: l.Name, Need: "a name that differs from the others in letters, digits, - or _", Err: arc.ErrRange}
		} else {
			seen[key] = true
		}
		e.names = append(e.names, n)
	}
	return nil
}

// layerName keeps letters, digits, - and _, and makes the rest _. Release 12
// has capitals only, and at most 31 of them.
func layerName(s string, r12 bool) string {
	n := strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || r == '-' {
			return r
		}
		return '_'
	}, s)
	if r12 {
		n = strings.ToUpper(n)
	}
	return n[:min(len(n), 31)]
}

// tag writes a group code and its value.
func (e *encoder) tag(code int, value string) {
	c := strconv.Itoa(code)
	e.WriteString("   "[:max(0, 3-len(c))] + c + "\n" + value + "\n")
}

func (e *encoder) int(code, v int) { e.tag(code, strconv.Itoa(v)) }

// real writes a number rounded to the given decimals, with a point.
func (e *encoder) real(code int, v float64, decimals int) {
	s := strings.TrimRight(strconv.FormatFloat(num.Decimals(v, decimals), 'f', decimals, 64), "0")
	if strings.HasSuffix(s, ".") {
		s += "0"
	}
	if s == "-0.0" {
		s = "0.0"
	}
	e.tag(code, s)
}

// mm writes a length.
func (e *encoder) mm(code int, v float64) { e.real(code, v, 6) }

// point writes a point; code is that of its x.
func (e *encoder) point(code int, x, y float64) {
	e.mm(code, x)
	e.mm(code+10, y)
	e.mm(code+20, 0)
}

// tags writes pairs of a code and a value.
func (e *encoder) tags(pairs ...string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		c, _ := strconv.Atoi(pairs[i])
		e.tag(c, pairs[i+1])
	}
}

// text writes a string in ASCII: signs of drawings by the format's own codes,
// others as \U+XXXX.
func (e *encoder) text(code int, s string) {
	var b strings.Builder
	for _, r := range s {
		switch r {
		case '°':
			b.WriteString("%%d")
		case '±':
			b.WriteString("%%p")
		case '⌀', 'ø', 'Ø':
			b.WriteString("%%c")
		case '×':
			b.WriteByte('x')
		case '′', '’':
			b.WriteByte('\'')
		case '″', '“', '”':
			b.WriteByte('"')
		case '–', '—', '−':
			b.WriteByte('-')
		case '^': // would make a control sign of the next letter
			b.WriteString("^ ")
		default:
			switch {
			case r < ' ' || r == 0x7f:
				b.WriteByte(' ')
			case r < 0x7f:
				b.WriteRune(r)
			case r <= 0xffff:
				b.WriteString(`\U+` + strings.ToUpper(hex4(uint64(r))))
			default:
				b.WriteByte('?')
			}
		}
	}
	e.tag(code, b.String())
}

func hex4(v uint64) string {
	s := strconv.FormatUint(v, 16)
	return "0000"[:max(0, 4-len(s))] + s
}

// next gives out a handle.
func (e *encoder) next() string {
	e.handle++
	return strings.ToUpper(strconv.FormatUint(e.handle, 16))
}

func degrees(a arc.Angle) float64 {
	d := math.Mod(a.Degrees(), 360)
	if d < 0 {
		d += 360
	}
	return d
}
