package spec

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/sagitta/arc"
	"example.com/sagitta/hood/curve"
)

// bendFields are the keys of a spec for the fields of package bend.
var bendFields = map[string]string{
	"Board.Web": "bend.web", "Board.KerfWidth": "bend.kerf_width", "Board.Thickness": "board.thickness",
	"Limits.Facet": "bend.facet", "Limits.Strain": "bend.strain", "Limits.Turn": "bend.turn",
}

var leastRadius = regexp.MustCompile(`least radius [^)]*`)

// AddBend adds what a plan of kerfs met, as the fault of the field of the spec
// that it is about; where there is none, as that of the curve.
func (c *Checker) AddBend(at string, w curve.Sweep, err error) {
	var p *arc.ParamError
	if !errors.As(err, &p) {
		c.AddSize(at, w, "a curve the board can take: "+c.Words(err.Error()), ErrBend)
		return
	}
	name, where, _ := strings.Cut(p.Param, " (")
	need := c.Words(p.Need) + "; for the curve of " + at
	if r := leastRadius.FindString(where); r != "" {
		need += ", " + c.Words(r)
	}
	if field, ok := bendFields[name]; ok {
		c.Add(field, p.Value, p.Unit, need, ErrBend)
		return
	}
	c.AddSize(at, w, "a flatter curve, or "+need, ErrBend)
}

var measure = regexp.MustCompile(`(at least |at most )?(\d+(?:\.\d+)?(?:e[-+]?\d+)?)( mm)?`)

// Words puts what another package says in mm into the words and the unit of the
// spec, and takes out digits that no hand works to.
func (c *Checker) Words(text string) string {
	for from, to := range bendFields {
		text = strings.ReplaceAll(text, from, to)
	}
	return measure.ReplaceAllStringFunc(text, func(m string) string {
		part := measure.FindStringSubmatch(m)
		x, err := strconv.ParseFloat(part[2], 64)
		switch {
		case err != nil:
			return m
		case part[3] == "":
			return part[1] + bare(x, part[1], part[2])
		case part[1] == "at least ":
			return part[1] + c.In.Up(x)
		case part[1] == "at most ":
			return part[1] + c.In.Down(x)
		}
		return part[1] + c.In.Thin(x)
	})
}

// bare writes a number without a unit to four decimals, to the safe side.
func bare(x float64, bound, text string) string {
	_, decimals, _ := strings.Cut(text, ".")
	if len(decimals) <= 4 {
		return text
	}
	y := math.Round(x*1e4) / 1e4
	switch bound {
	case "at least ":
		y = math.Ceil(x*1e4) / 1e4
	case "at most ":
		y = math.Floor(x*1e4) / 1e4
	}
	return strconv.FormatFloat(y, 'f', -1, 64)
}
