package arc

import (
	"errors"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// closeWord ends the text of a closed path.
const closeWord = "close"

// String returns the path in its text form: for each vertex x,y or x,y,turn,
// with spaces between, and at the end the word close where the path is closed:
//
//	0,0 100,0,0.25 100,60 0,60 close
//
// Numbers are the shortest that read back to the same bits, so [ParsePath]
// gives back the path exactly, as long as they are finite.
func (p Path) String() string {
	var b []byte
	for i, v := range p.V {
		if i > 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendFloat(b, v.P.X, 'g', -1, 64)
		b = append(b, ',')
		b = strconv.AppendFloat(b, v.P.Y, 'g', -1, 64)
		if v.K != 0 {
			b = append(b, ',')
			b = strconv.AppendFloat(b, v.K, 'g', -1, 64)
		}
	}
	if p.Closed {
		if len(b) > 0 {
			b = append(b, ' ')
		}
		b = append(b, closeWord...)
	}
	return string(b)
}

// ParsePath reads the text form that [Path.String] writes; any white space may
// stand between vertices. It takes finite decimal numbers only and does not
// look at what the path does: see [Path.Usable] and [Path.Check].
func ParsePath(s string) (Path, error) {
	const fn = "arc.ParsePath"
	var p Path
	for _, word := range strings.Fields(s) {
		if p.Closed {
			return Path{}, &ParamError{fn, "word", clip(word), "", "nothing after close", ErrSyntax}
		}
		if word == closeWord {
			p.Closed = true
			continue
		}
		v, err := parseVertex(word)
		if err != nil {
			return Path{}, &ParamError{fn, "vertex " + strconv.Itoa(len(p.V)), clip(word), "", "x,y or x,y,turn, or close at the end", err}
		}
		p.V = append(p.V, v)
	}
	return p, nil
}

func parseVertex(word string) (Vertex, error) {
	f := strings.SplitN(word, ",", 4)
	if len(f) != 2 && len(f) != 3 {
		return Vertex{}, ErrSyntax
	}
	var x [3]float64
	for i, s := range f {
		if strings.Trim(s, "+-.0123456789eE") != "" {
			return Vertex{}, ErrSyntax
		}
		var err error
		if x[i], err = strconv.ParseFloat(s, 64); errors.Is(err, strconv.ErrRange) {
			return Vertex{}, ErrRange
		} else if err != nil {
			return Vertex{}, ErrSyntax
		}
	}
	return Vertex{r2.Vec{X: x[0], Y: x[1]}, x[2]}, nil
}

// clip keeps an error short.
func clip(s string) string { return s[:min(len(s), 40)] }
